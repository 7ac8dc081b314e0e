-- Equipment that stays inoperative, as 14 CFR 91.213(d) permits.
-- CreateEnum
CREATE TYPE "inoperative_kind" AS ENUM ('left', 'withdrawn');

-- CreateEnum
CREATE TYPE "inoperative_method" AS ENUM ('removed', 'deactivated');

-- AlterTable
ALTER TABLE "entry_discrepancy" ADD COLUMN     "inoperative" BOOLEAN NOT NULL DEFAULT false;

-- CreateTable
CREATE TABLE "inoperative_equipment" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "finding_id" UUID NOT NULL,
    "kind" "inoperative_kind" NOT NULL,
    "equipment" TEXT NOT NULL DEFAULT '',
    "method" "inoperative_method",
    "placard_at" TEXT NOT NULL DEFAULT '',
    "not_type_basis" TEXT NOT NULL DEFAULT '',
    "not_listed" TEXT NOT NULL DEFAULT '',
    "not_ruled" TEXT NOT NULL DEFAULT '',
    "not_directed" TEXT NOT NULL DEFAULT '',
    "no_hazard" TEXT NOT NULL DEFAULT '',
    "item_id" UUID,
    "words" TEXT NOT NULL DEFAULT '',
    "capacity" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "inoperative_equipment_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "inoperative_equipment_shop_id_finding_id_idx" ON "inoperative_equipment"("shop_id", "finding_id");

-- CreateIndex
CREATE UNIQUE INDEX "inoperative_equipment_shop_id_id_key" ON "inoperative_equipment"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "inoperative_equipment" ADD CONSTRAINT "inoperative_equipment_shop_id_finding_id_fkey" FOREIGN KEY ("shop_id", "finding_id") REFERENCES "finding"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "inoperative_equipment" ADD CONSTRAINT "inoperative_equipment_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "inoperative_equipment" ADD CONSTRAINT "inoperative_equipment_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop('inoperative_equipment');
SELECT keep_audit_of('inoperative_equipment');
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON inoperative_equipment FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON inoperative_equipment FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

-- Nothing is left inoperative with a question of 91.213(d) unanswered; what is removed is maintenance, so it names its work.
ALTER TABLE inoperative_equipment ADD CONSTRAINT every_question_answered CHECK (kind = 'withdrawn' OR (
  method IS NOT NULL AND (method <> 'removed' OR item_id IS NOT NULL)
  AND '' NOT IN (btrim(equipment), btrim(placard_at), btrim(not_type_basis), btrim(not_listed), btrim(not_ruled), btrim(not_directed), btrim(no_hazard), btrim(capacity))));
ALTER TABLE inoperative_equipment ADD CONSTRAINT withdrawn_with_a_reason CHECK (kind = 'left' OR btrim(words) <> '');

-- The owner sees what stays inoperative, and where the placard is, on the order that their link reaches.
GRANT SELECT (id, shop_id, finding_id, kind, equipment, method, placard_at, at) ON inoperative_equipment TO fairlead_link;
CREATE POLICY linked ON inoperative_equipment FOR SELECT TO fairlead_link USING (shop_id = current_shop()
  AND EXISTS (SELECT FROM finding f WHERE f.shop_id = inoperative_equipment.shop_id AND f.id = inoperative_equipment.finding_id));
