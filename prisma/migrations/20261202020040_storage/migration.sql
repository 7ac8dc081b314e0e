-- Storage after completion: the shop's own rule, off until it is set; when the owner was told that the aircraft is ready; and for how many days a charge is.
-- AlterTable
ALTER TABLE "order_charge" ADD COLUMN     "storage_days" INTEGER;

-- CreateTable
CREATE TABLE "storage_rule" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "free_days" INTEGER NOT NULL,
    "day_price" DECIMAL(14,4),
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "storage_rule_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ready_notice" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID NOT NULL,
    "told" TEXT NOT NULL,
    "channel" "channel" NOT NULL,
    "told_at" TIMESTAMPTZ(3) NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "ready_notice_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "storage_rule_shop_id_at_idx" ON "storage_rule"("shop_id", "at");

-- CreateIndex
CREATE UNIQUE INDEX "storage_rule_shop_id_id_key" ON "storage_rule"("shop_id", "id");

-- CreateIndex
CREATE INDEX "ready_notice_shop_id_order_id_idx" ON "ready_notice"("shop_id", "order_id");

-- CreateIndex
CREATE UNIQUE INDEX "ready_notice_shop_id_id_key" ON "ready_notice"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "storage_rule" ADD CONSTRAINT "storage_rule_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "storage_rule" ADD CONSTRAINT "storage_rule_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ready_notice" ADD CONSTRAINT "ready_notice_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ready_notice" ADD CONSTRAINT "ready_notice_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop(each), keep_audit_of(each) FROM unnest('{storage_rule,ready_notice}'::regclass[]) AS each;
DO $$
DECLARE fact text;
BEGIN
  FOREACH fact IN ARRAY ARRAY['storage_rule', 'ready_notice'] LOOP
    EXECUTE format('CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', fact);
    EXECUTE format('CREATE TRIGGER never_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', fact);
  END LOOP;
END $$;

ALTER TABLE storage_rule ADD CONSTRAINT storage_rule_sensible CHECK (free_days BETWEEN 0 AND 3660 AND (day_price IS NULL OR day_price > 0));
ALTER TABLE order_charge ADD CONSTRAINT storage_is_for_days CHECK (storage_days IS NULL OR storage_days > 0);
