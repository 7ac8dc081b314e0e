-- A task's list, line by line, and the initials under each line of an item's.
-- CreateEnum
CREATE TYPE "checklist_event_kind" AS ENUM ('initialled', 'withdrawn');

-- AlterTable
ALTER TABLE "task" ADD COLUMN     "checklist" TEXT[] DEFAULT ARRAY[]::TEXT[];

-- AlterTable
ALTER TABLE "work_item" ADD COLUMN     "checklist" TEXT[] DEFAULT ARRAY[]::TEXT[];

-- CreateTable
CREATE TABLE "checklist_event" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "item_id" UUID NOT NULL,
    "line" INTEGER NOT NULL,
    "kind" "checklist_event_kind" NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,
    "client_event_id" UUID NOT NULL,

    CONSTRAINT "checklist_event_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "checklist_event_shop_id_item_id_idx" ON "checklist_event"("shop_id", "item_id");

-- CreateIndex
CREATE UNIQUE INDEX "checklist_event_shop_id_client_event_id_key" ON "checklist_event"("shop_id", "client_event_id");

-- CreateIndex
CREATE UNIQUE INDEX "checklist_event_shop_id_id_key" ON "checklist_event"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "checklist_event" ADD CONSTRAINT "checklist_event_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "checklist_event" ADD CONSTRAINT "checklist_event_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop('checklist_event');
SELECT keep_audit_of('checklist_event');
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON checklist_event FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON checklist_event FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

ALTER TABLE checklist_event ADD CONSTRAINT line_counts_from_one CHECK (line BETWEEN 1 AND 60);
ALTER TABLE task ADD CONSTRAINT checklist_sensible CHECK (cardinality(checklist) <= 60);
