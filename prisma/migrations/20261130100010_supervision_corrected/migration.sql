-- A correction may also say under whose supervision somebody worked, or that it was under nobody's.

ALTER TABLE "clock_event" ADD COLUMN "supervision_changed" BOOLEAN NOT NULL DEFAULT false;

ALTER TABLE clock_event
  DROP CONSTRAINT supervision_begins_with_work,
  ADD CONSTRAINT supervision_begins_with_work CHECK (supervised_by_id IS NULL
    OR ((kind IN ('start', 'switch') OR supervision_changed) AND supervised_by_id <> person_id)),
  ADD CONSTRAINT supervision_is_corrected CHECK (NOT supervision_changed OR kind = 'correction');
