-- How a shop's key takes over from the one before; and what else is linked into an aircraft's chain.
-- AlterEnum
ALTER TYPE "record_link_kind" ADD VALUE 'flight_check';
ALTER TYPE "record_link_kind" ADD VALUE 'inoperative';

-- CreateTable
CREATE TABLE "shop_key_change" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "from_id" UUID NOT NULL,
    "to_id" UUID NOT NULL,
    "lost" BOOLEAN NOT NULL,
    "reason" TEXT NOT NULL,
    "line" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "shop_key_change_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "shop_key_change_shop_id_from_id_key" ON "shop_key_change"("shop_id", "from_id");

-- CreateIndex
CREATE UNIQUE INDEX "shop_key_change_shop_id_to_id_key" ON "shop_key_change"("shop_id", "to_id");

-- CreateIndex
CREATE UNIQUE INDEX "shop_key_change_shop_id_id_key" ON "shop_key_change"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "shop_key_change" ADD CONSTRAINT "shop_key_change_shop_id_from_id_fkey" FOREIGN KEY ("shop_id", "from_id") REFERENCES "shop_key"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "shop_key_change" ADD CONSTRAINT "shop_key_change_shop_id_to_id_fkey" FOREIGN KEY ("shop_id", "to_id") REFERENCES "shop_key"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "shop_key_change" ADD CONSTRAINT "shop_key_change_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop('shop_key_change');
SELECT keep_audit_of('shop_key_change');
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON shop_key_change FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON shop_key_change FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
ALTER TABLE shop_key_change ADD CONSTRAINT key_replaced_by_another CHECK (from_id <> to_id);

-- A key that was replaced signs nothing more.
CREATE FUNCTION refuse_replaced_key() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (SELECT FROM shop_key_change c WHERE c.shop_id = NEW.shop_id AND c.from_id = NEW.key_id) THEN
    RAISE EXCEPTION 'That key of the shop was replaced: it signs nothing more' USING ERRCODE = 'FL001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER by_the_key_of_now BEFORE INSERT ON record_link FOR EACH ROW EXECUTE FUNCTION refuse_replaced_key();
