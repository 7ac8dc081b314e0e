-- Work that is nobody's to pay: the shop's own, training, and what puts right the shop's earlier work. The last word counts.
-- CreateEnum
CREATE TYPE "our_cost_kind" AS ENUM ('shop', 'training', 'rework');

-- CreateTable
CREATE TABLE "at_our_cost" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "item_id" UUID NOT NULL,
    "kind" "our_cost_kind",
    "puts_right_id" UUID,
    "reason" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "at_our_cost_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "at_our_cost_shop_id_item_id_at_idx" ON "at_our_cost"("shop_id", "item_id", "at");

-- CreateIndex
CREATE INDEX "at_our_cost_shop_id_puts_right_id_idx" ON "at_our_cost"("shop_id", "puts_right_id");

-- CreateIndex
CREATE UNIQUE INDEX "at_our_cost_shop_id_id_key" ON "at_our_cost"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "at_our_cost" ADD CONSTRAINT "at_our_cost_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "at_our_cost" ADD CONSTRAINT "at_our_cost_shop_id_puts_right_id_fkey" FOREIGN KEY ("shop_id", "puts_right_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "at_our_cost" ADD CONSTRAINT "at_our_cost_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop('at_our_cost');
SELECT keep_audit_of('at_our_cost');
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON at_our_cost FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON at_our_cost FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
-- Rework names what it puts right, nothing else does, and nothing puts right itself.
ALTER TABLE at_our_cost
  ADD CONSTRAINT rework_puts_right CHECK ((kind IS NOT DISTINCT FROM 'rework') = (puts_right_id IS NOT NULL) AND puts_right_id IS DISTINCT FROM item_id),
  ADD CONSTRAINT our_cost_has_reason CHECK (length(reason) BETWEEN 3 AND 500);
