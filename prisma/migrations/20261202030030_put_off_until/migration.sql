-- Until when a finding is put off, so that it stands on the due list; and that it was put right on a later visit.
-- AlterEnum
ALTER TYPE "finding_event_kind" ADD VALUE 'settled';

-- AlterTable
ALTER TABLE "finding_event" ADD COLUMN     "until_hundredths" INTEGER,
ADD COLUMN     "until_inspection" BOOLEAN NOT NULL DEFAULT false,
ADD COLUMN     "until_on" DATE;

ALTER TABLE finding_event ADD CONSTRAINT put_off_until_something CHECK (
  coalesce(until_hundredths, 1) > 0 AND (kind = 'put_off' OR (until_on IS NULL AND until_hundredths IS NULL AND NOT until_inspection)));
