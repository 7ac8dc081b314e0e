-- A purchase order says for which work a line is bought, and is held against what the owner of that aircraft agreed to as an issue is.
-- AlterTable
ALTER TABLE "purchase_line" ADD COLUMN     "item_id" UUID;

-- AlterTable
ALTER TABLE "purchase_event" ADD COLUMN     "despite" "issue_exception"[] DEFAULT ARRAY[]::"issue_exception"[];

-- CreateIndex
CREATE INDEX "purchase_line_shop_id_item_id_idx" ON "purchase_line"("shop_id", "item_id");

-- AddForeignKey
ALTER TABLE "purchase_line" ADD CONSTRAINT "purchase_line_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE purchase_event
  ADD CONSTRAINT despite_is_answered_for CHECK (
    cardinality(despite) = 0 OR (kind = 'sent' AND reason <> ''));
