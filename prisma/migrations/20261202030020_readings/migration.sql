-- Times: by a meter read or replaced, with its photo, or from listed flights; why an odd reading is right.
-- CreateEnum
CREATE TYPE "reading_source" AS ENUM ('read', 'replaced', 'flight_list');

-- AlterTable
ALTER TABLE "meter_reading" ADD COLUMN     "old_reading_hundredths" INTEGER,
ADD COLUMN     "photo_id" UUID,
ADD COLUMN     "reason" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "source" "reading_source" NOT NULL DEFAULT 'read';

-- CreateTable
CREATE TABLE "flight" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "reading_id" UUID NOT NULL,
    "flown_on" DATE NOT NULL,
    "hundredths" INTEGER NOT NULL,
    "landings" INTEGER NOT NULL,
    "starts" INTEGER NOT NULL,
    "line" INTEGER NOT NULL,

    CONSTRAINT "flight_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "flight_shop_id_reading_id_idx" ON "flight"("shop_id", "reading_id");

-- CreateIndex
CREATE UNIQUE INDEX "flight_shop_id_id_key" ON "flight"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "meter_reading" ADD CONSTRAINT "meter_reading_shop_id_read_by_id_fkey" FOREIGN KEY ("shop_id", "read_by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "meter_reading" ADD CONSTRAINT "meter_reading_shop_id_photo_id_fkey" FOREIGN KEY ("shop_id", "photo_id") REFERENCES "photo"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "flight" ADD CONSTRAINT "flight_shop_id_reading_id_fkey" FOREIGN KEY ("shop_id", "reading_id") REFERENCES "meter_reading"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop('flight'), keep_audit_of('flight');
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON flight FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON flight FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
ALTER TABLE flight ADD CONSTRAINT flight_figures_sensible CHECK (hundredths > 0 AND hundredths <= 4800 AND landings BETWEEN 0 AND 1000 AND starts BETWEEN 0 AND 1000);
ALTER TABLE meter_reading ADD CONSTRAINT reading_of_its_source CHECK ((source = 'replaced') = (old_reading_hundredths IS NOT NULL) AND coalesce(old_reading_hundredths, 0) >= 0);
