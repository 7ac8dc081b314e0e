-- Parts with times of their own: what is fitted to what, who fitted it and took it off, and the aircraft's time then.
-- AlterTable
ALTER TABLE "component" ADD COLUMN     "since_overhaul_hundredths" INTEGER;

-- AlterTable
ALTER TABLE "component_fitting" ADD COLUMN     "fitted_by_id" UUID,
ADD COLUMN     "parent_id" UUID,
ADD COLUMN     "removal_words" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "removed_by_id" UUID,
ADD COLUMN     "removed_tis_hundredths" INTEGER,
ADD COLUMN     "removed_with_parent" BOOLEAN NOT NULL DEFAULT false;

-- AlterTable
ALTER TABLE "due_event" ADD COLUMN     "part_hundredths" INTEGER;

-- CreateIndex
CREATE INDEX "component_fitting_shop_id_component_id_idx" ON "component_fitting"("shop_id", "component_id");

-- AddForeignKey
ALTER TABLE "component_fitting" ADD CONSTRAINT "component_fitting_shop_id_parent_id_fkey" FOREIGN KEY ("shop_id", "parent_id") REFERENCES "component"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "component_fitting" ADD CONSTRAINT "component_fitting_shop_id_fitted_by_id_fkey" FOREIGN KEY ("shop_id", "fitted_by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "component_fitting" ADD CONSTRAINT "component_fitting_shop_id_removed_by_id_fkey" FOREIGN KEY ("shop_id", "removed_by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

GRANT UPDATE (removed_tis_hundredths, removed_by_id, removal_words, removed_with_parent) ON component_fitting TO fairlead_shop;
ALTER TABLE component ADD CONSTRAINT component_times_not_below_zero CHECK (tis_hundredths >= 0 AND coalesce(since_overhaul_hundredths, 0) BETWEEN 0 AND tis_hundredths);
ALTER TABLE component_fitting
  ADD CONSTRAINT fitting_never_on_itself CHECK (parent_id <> component_id),
  ADD CONSTRAINT fitting_time_runs_on CHECK (removed_tis_hundredths >= aircraft_tis_hundredths),
  ADD CONSTRAINT fitting_says_when_removed CHECK (removed_at IS NOT NULL OR (removed_tis_hundredths IS NULL AND removed_by_id IS NULL AND NOT removed_with_parent));
ALTER TABLE due_event ADD CONSTRAINT due_event_part_hours_not_below_zero CHECK (coalesce(part_hundredths, 0) >= 0);

-- What a part ran on an aircraft is a fact once it is off.
CREATE FUNCTION fitting_ends_once() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE ending constant text[] := '{removed_at,removed_tis_hundredths,removed_by_id,removal_words,removed_with_parent}';
BEGIN
  IF OLD.removed_at IS NULL AND to_jsonb(OLD) - ending = to_jsonb(NEW) - ending THEN RETURN NEW; END IF;
  RAISE EXCEPTION 'A fitting that ended is never changed' USING ERRCODE = 'FL001';
END $$;
CREATE TRIGGER ends_once BEFORE UPDATE ON component_fitting FOR EACH ROW EXECUTE FUNCTION fitting_ends_once();
