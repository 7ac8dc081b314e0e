-- Past what the owner agreed to: a small overrun by the shop's own rule, parts issued by somebody's reason, and what is written off by name.
-- AlterEnum
ALTER TYPE "issue_exception" ADD VALUE 'beyond_authority';

-- AlterTable
ALTER TABLE "shop" ADD COLUMN     "overrun_minor" BIGINT;
ALTER TABLE "shop" ADD COLUMN     "overrun_percent" DECIMAL(5,2);
ALTER TABLE shop ADD CONSTRAINT overrun_sensible
  CHECK ((overrun_minor IS NULL OR overrun_minor > 0) AND (overrun_percent IS NULL OR (overrun_percent > 0 AND overrun_percent <= 100)));

-- CreateTable
CREATE TABLE "write_off" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID NOT NULL,
    "amount_minor" BIGINT NOT NULL,
    "reason" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "write_off_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "write_off_shop_id_order_id_idx" ON "write_off"("shop_id", "order_id");

-- CreateIndex
CREATE UNIQUE INDEX "write_off_shop_id_id_key" ON "write_off"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "write_off" ADD CONSTRAINT "write_off_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "write_off" ADD CONSTRAINT "write_off_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop('write_off');
SELECT keep_audit_of('write_off');
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON write_off FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON write_off FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

ALTER TABLE write_off ADD CONSTRAINT write_off_of_something CHECK (amount_minor > 0);
