-- In the course of which work a part went on or came off, and what becomes of it: what an entry says of parts is made from this.
-- CreateEnum
CREATE TYPE "part_side" AS ENUM ('on', 'off');

-- CreateEnum
CREATE TYPE "part_disposition" AS ENUM ('goes_back', 'record_keeping', 'tag', 'non_permanent_marking', 'permanent_marking', 'segregation', 'mutilation', 'other');

-- CreateTable
CREATE TABLE "part_handling" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "fitting_id" UUID NOT NULL,
    "side" "part_side" NOT NULL,
    "item_id" UUID,
    "disposition" "part_disposition",
    "words" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "part_handling_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "part_handling_shop_id_fitting_id_idx" ON "part_handling"("shop_id", "fitting_id");

-- CreateIndex
CREATE INDEX "part_handling_shop_id_item_id_idx" ON "part_handling"("shop_id", "item_id");

-- CreateIndex
CREATE UNIQUE INDEX "part_handling_shop_id_id_key" ON "part_handling"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "part_handling" ADD CONSTRAINT "part_handling_shop_id_fitting_id_fkey" FOREIGN KEY ("shop_id", "fitting_id") REFERENCES "component_fitting"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "part_handling" ADD CONSTRAINT "part_handling_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "part_handling" ADD CONSTRAINT "part_handling_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop('part_handling');
SELECT keep_audit_of('part_handling');
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON part_handling FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON part_handling FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

ALTER TABLE part_handling ADD CONSTRAINT disposed_of_when_off CHECK (disposition IS NULL OR side = 'off');
