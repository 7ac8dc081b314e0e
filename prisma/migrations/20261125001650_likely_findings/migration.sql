-- What tends to be found in a package: counted from the shop's own orders, and told by the manager for the years before.
-- AlterTable
ALTER TABLE "quote_revision" ADD COLUMN     "with_findings" JSONB;

-- CreateTable
CREATE TABLE "told_finding" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "package_id" UUID NOT NULL,
    "task_id" UUID NOT NULL,
    "model_id" UUID,
    "seen" INTEGER NOT NULL,
    "of" INTEGER NOT NULL,
    "parts_minor" BIGINT,
    "note" TEXT NOT NULL DEFAULT '',
    "told_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "told_by_id" UUID NOT NULL,

    CONSTRAINT "told_finding_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "told_finding_shop_id_package_id_idx" ON "told_finding"("shop_id", "package_id");

-- CreateIndex
CREATE UNIQUE INDEX "told_finding_shop_id_id_key" ON "told_finding"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "told_finding" ADD CONSTRAINT "told_finding_shop_id_package_id_fkey" FOREIGN KEY ("shop_id", "package_id") REFERENCES "package"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "told_finding" ADD CONSTRAINT "told_finding_shop_id_task_id_fkey" FOREIGN KEY ("shop_id", "task_id") REFERENCES "task"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "told_finding" ADD CONSTRAINT "told_finding_shop_id_model_id_fkey" FOREIGN KEY ("shop_id", "model_id") REFERENCES "aircraft_model"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "told_finding" ADD CONSTRAINT "told_finding_shop_id_told_by_id_fkey" FOREIGN KEY ("shop_id", "told_by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop('told_finding');
SELECT keep_audit_of('told_finding');
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON told_finding FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON told_finding FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
ALTER TABLE told_finding
  ADD CONSTRAINT told_counts_sensible CHECK (seen >= 0 AND seen <= "of" AND "of" <= 100000),
  ADD CONSTRAINT told_parts_not_negative CHECK (parts_minor >= 0);
