-- What a part is ordered and charged by: the core that is given back for it, and the point at which it is ordered again. A lot
-- keeps the core's charge as it was when it came. What became of the cores are events.

-- AlterTable
ALTER TABLE "part" ADD COLUMN     "core_charge_minor" BIGINT,
ADD COLUMN     "reorder_point" DECIMAL(12,3);

-- AlterTable
ALTER TABLE "lot" ADD COLUMN     "core_charge_minor" BIGINT;

-- CreateEnum
CREATE TYPE "core_event_kind" AS ENUM ('came_back', 'sent_back');

-- CreateTable
CREATE TABLE "core_event" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "lot_id" UUID NOT NULL,
    "item_id" UUID,
    "kind" "core_event_kind" NOT NULL,
    "quantity" DECIMAL(12,3) NOT NULL,
    "words" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "core_event_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "core_event_shop_id_lot_id_idx" ON "core_event"("shop_id", "lot_id");

-- CreateIndex
CREATE INDEX "core_event_shop_id_item_id_idx" ON "core_event"("shop_id", "item_id");

-- CreateIndex
CREATE UNIQUE INDEX "core_event_shop_id_id_key" ON "core_event"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "core_event" ADD CONSTRAINT "core_event_shop_id_lot_id_fkey" FOREIGN KEY ("shop_id", "lot_id") REFERENCES "lot"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "core_event" ADD CONSTRAINT "core_event_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "core_event" ADD CONSTRAINT "core_event_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop('core_event');
SELECT keep_audit_of('core_event');
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON core_event FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON core_event FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

ALTER TABLE part
  ADD CONSTRAINT part_core_charge_positive CHECK (core_charge_minor > 0),
  ADD CONSTRAINT part_reorder_point_not_negative CHECK (reorder_point >= 0);
ALTER TABLE lot ADD CONSTRAINT lot_core_charge_positive CHECK (core_charge_minor > 0);
ALTER TABLE core_event
  ADD CONSTRAINT core_moves_something CHECK (quantity > 0),
  ADD CONSTRAINT core_comes_back_from_work CHECK ((kind = 'came_back') = (item_id IS NOT NULL));
