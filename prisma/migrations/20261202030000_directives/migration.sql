-- Directives, bulletins and makers' limits as the shop entered them, to what they apply, and who decided that they bind.
-- AlterEnum
ALTER TYPE "due_event_kind" ADD VALUE 'terminated';

-- AlterTable
ALTER TABLE "due_item" ADD COLUMN     "directive_id" UUID;

-- CreateTable
CREATE TABLE "directive" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "kind" "due_kind" NOT NULL,
    "authority" TEXT NOT NULL,
    "number" TEXT NOT NULL,
    "revision" TEXT NOT NULL DEFAULT '',
    "revised_on" DATE NOT NULL,
    "effective_on" DATE NOT NULL,
    "subject" TEXT NOT NULL,
    "method" TEXT NOT NULL,
    "rule" "due_rule" NOT NULL,
    "within_hundredths" INTEGER,
    "within_days" INTEGER,
    "limit_hundredths" INTEGER,
    "limit_date" DATE,
    "every_hundredths" INTEGER,
    "every_months" INTEGER,
    "every_calendar_months" INTEGER,
    "every_days" INTEGER,
    "whichever_last" BOOLEAN NOT NULL DEFAULT false,
    "terminating" TEXT NOT NULL DEFAULT '',
    "task_id" UUID,
    "supersedes_id" UUID,
    "added_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "added_by_id" UUID NOT NULL,

    CONSTRAINT "directive_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "directive_reach" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "directive_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,
    "model_id" UUID,
    "part_number" TEXT NOT NULL DEFAULT '',
    "serials" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "directive_reach_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "directive_decision" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "directive_id" UUID NOT NULL,
    "aircraft_id" UUID NOT NULL,
    "component_id" UUID,
    "binds" BOOLEAN NOT NULL,
    "reason" TEXT NOT NULL,
    "found" TEXT NOT NULL,
    "item_id" UUID,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "directive_decision_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "directive_shop_id_id_key" ON "directive"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "directive_shop_id_supersedes_id_key" ON "directive"("shop_id", "supersedes_id");

-- CreateIndex
CREATE UNIQUE INDEX "directive_reach_shop_id_directive_id_position_key" ON "directive_reach"("shop_id", "directive_id", "position");

-- CreateIndex
CREATE UNIQUE INDEX "directive_reach_shop_id_id_key" ON "directive_reach"("shop_id", "id");

-- CreateIndex
CREATE INDEX "directive_decision_shop_id_directive_id_aircraft_id_idx" ON "directive_decision"("shop_id", "directive_id", "aircraft_id");

-- CreateIndex
CREATE INDEX "directive_decision_shop_id_aircraft_id_idx" ON "directive_decision"("shop_id", "aircraft_id");

-- CreateIndex
CREATE UNIQUE INDEX "directive_decision_shop_id_id_key" ON "directive_decision"("shop_id", "id");

-- CreateIndex
CREATE INDEX "due_item_shop_id_component_id_idx" ON "due_item"("shop_id", "component_id");

-- AddForeignKey
ALTER TABLE "due_item" ADD CONSTRAINT "due_item_shop_id_directive_id_fkey" FOREIGN KEY ("shop_id", "directive_id") REFERENCES "directive"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "directive" ADD CONSTRAINT "directive_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "directive" ADD CONSTRAINT "directive_shop_id_task_id_fkey" FOREIGN KEY ("shop_id", "task_id") REFERENCES "task"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "directive" ADD CONSTRAINT "directive_shop_id_supersedes_id_fkey" FOREIGN KEY ("shop_id", "supersedes_id") REFERENCES "directive"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "directive" ADD CONSTRAINT "directive_shop_id_added_by_id_fkey" FOREIGN KEY ("shop_id", "added_by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "directive_reach" ADD CONSTRAINT "directive_reach_shop_id_directive_id_fkey" FOREIGN KEY ("shop_id", "directive_id") REFERENCES "directive"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "directive_reach" ADD CONSTRAINT "directive_reach_shop_id_model_id_fkey" FOREIGN KEY ("shop_id", "model_id") REFERENCES "aircraft_model"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "directive_decision" ADD CONSTRAINT "directive_decision_shop_id_directive_id_fkey" FOREIGN KEY ("shop_id", "directive_id") REFERENCES "directive"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "directive_decision" ADD CONSTRAINT "directive_decision_shop_id_aircraft_id_fkey" FOREIGN KEY ("shop_id", "aircraft_id") REFERENCES "aircraft"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "directive_decision" ADD CONSTRAINT "directive_decision_shop_id_component_id_fkey" FOREIGN KEY ("shop_id", "component_id") REFERENCES "component"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "directive_decision" ADD CONSTRAINT "directive_decision_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "due_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "directive_decision" ADD CONSTRAINT "directive_decision_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop(each), keep_audit_of(each) FROM unnest('{directive,directive_reach,directive_decision}'::regclass[]) AS each;
DO $$
DECLARE fact text;
BEGIN
  FOREACH fact IN ARRAY ARRAY['directive', 'directive_reach', 'directive_decision'] LOOP
    EXECUTE format('CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', fact);
    EXECUTE format('CREATE TRIGGER never_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', fact);
  END LOOP;
END $$;

ALTER TABLE directive
  ADD CONSTRAINT directive_of_its_kind CHECK (kind IN ('directive', 'bulletin', 'limit')),
  ADD CONSTRAINT directive_never_supersedes_itself CHECK (supersedes_id <> id),
  ADD CONSTRAINT directive_terms_sensible CHECK (
    coalesce(within_hundredths, 1) > 0 AND coalesce(within_days, 1) > 0 AND coalesce(limit_hundredths, 1) > 0
    AND coalesce(every_hundredths, 1) > 0 AND coalesce(every_months, 1) > 0
    AND coalesce(every_calendar_months, 1) > 0 AND coalesce(every_days, 1) > 0
    AND CASE rule
      WHEN 'recurring' THEN num_nonnulls(every_hundredths, every_months, every_calendar_months, every_days) > 0
      WHEN 'life_limit' THEN num_nonnulls(limit_hundredths, limit_date) > 0
      WHEN 'once' THEN num_nonnulls(within_hundredths, within_days, limit_hundredths, limit_date) > 0
      ELSE false END);
ALTER TABLE directive_reach ADD CONSTRAINT reach_names_something CHECK (model_id IS NOT NULL OR part_number <> '');
ALTER TABLE directive_decision ADD CONSTRAINT decided_with_a_reason CHECK (length(reason) >= 3);
