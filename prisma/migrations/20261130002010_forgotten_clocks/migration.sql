-- What somebody says of a clock that looks forgotten, and under whose supervision somebody works.

ALTER TABLE "clock_event" ADD COLUMN "answers_id" UUID, ADD COLUMN "supervised_by_id" UUID;
ALTER TABLE "stretch" ADD COLUMN "supervised_by_id" UUID;

CREATE INDEX "clock_event_shop_id_answers_id_idx" ON "clock_event"("shop_id", "answers_id");
CREATE INDEX "stretch_shop_id_supervised_by_id_started_at_idx" ON "stretch"("shop_id", "supervised_by_id", "started_at");

ALTER TABLE "clock_event" ADD CONSTRAINT "clock_event_shop_id_answers_id_fkey" FOREIGN KEY ("shop_id", "answers_id") REFERENCES "clock_event"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "clock_event" ADD CONSTRAINT "clock_event_shop_id_supervised_by_id_fkey" FOREIGN KEY ("shop_id", "supervised_by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "stretch" ADD CONSTRAINT "stretch_shop_id_supervised_by_id_fkey" FOREIGN KEY ("shop_id", "supervised_by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE clock_event
  ADD CONSTRAINT answer_has_reason CHECK (answers_id IS NULL OR (reason <> '' AND kind IN ('stop', 'correction'))),
  ADD CONSTRAINT supervision_begins_with_work CHECK (supervised_by_id IS NULL OR (kind IN ('start', 'switch') AND supervised_by_id <> person_id));
ALTER TABLE stretch ADD CONSTRAINT supervised_by_another CHECK (supervised_by_id <> person_id);
