-- A photo of a finding may show what an earlier one of the same finding shows, after the correction.

ALTER TABLE "finding_photo" ADD COLUMN "before_id" UUID;

ALTER TABLE "finding_photo" ADD CONSTRAINT "finding_photo_shop_id_finding_id_before_id_fkey" FOREIGN KEY ("shop_id", "finding_id", "before_id") REFERENCES "finding_photo"("shop_id", "finding_id", "photo_id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE finding_photo ADD CONSTRAINT after_is_another CHECK (before_id <> photo_id);
