-- Cycles, landings and starts: counted with a reading, carried by parts, and what falls due by them.
-- AlterTable
ALTER TABLE "meter_reading" ADD COLUMN     "cycles" INTEGER,
ADD COLUMN     "landings" INTEGER,
ADD COLUMN     "starts" INTEGER;

-- AlterTable
ALTER TABLE "flight" ADD COLUMN     "cycles" INTEGER NOT NULL DEFAULT 1;

-- AlterTable
ALTER TABLE "component" ADD COLUMN     "cycles" INTEGER,
ADD COLUMN     "landings" INTEGER,
ADD COLUMN     "starts" INTEGER;

-- AlterTable
ALTER TABLE "component_fitting" ADD COLUMN     "aircraft_cycles" INTEGER,
ADD COLUMN     "aircraft_landings" INTEGER,
ADD COLUMN     "aircraft_starts" INTEGER,
ADD COLUMN     "removed_cycles" INTEGER,
ADD COLUMN     "removed_landings" INTEGER,
ADD COLUMN     "removed_starts" INTEGER;

-- AlterTable
ALTER TABLE "due_item" ADD COLUMN     "every_cycles" INTEGER,
ADD COLUMN     "every_landings" INTEGER,
ADD COLUMN     "every_starts" INTEGER,
ADD COLUMN     "limit_cycles" INTEGER,
ADD COLUMN     "limit_landings" INTEGER,
ADD COLUMN     "limit_starts" INTEGER;

-- AlterTable
ALTER TABLE "due_event" ADD COLUMN     "cycles" INTEGER,
ADD COLUMN     "landings" INTEGER,
ADD COLUMN     "starts" INTEGER,
ADD COLUMN     "part_cycles" INTEGER,
ADD COLUMN     "part_landings" INTEGER,
ADD COLUMN     "part_starts" INTEGER;

-- AlterTable
ALTER TABLE "directive" ADD COLUMN     "within_cycles" INTEGER,
ADD COLUMN     "within_landings" INTEGER,
ADD COLUMN     "within_starts" INTEGER,
ADD COLUMN     "every_cycles" INTEGER,
ADD COLUMN     "every_landings" INTEGER,
ADD COLUMN     "every_starts" INTEGER,
ADD COLUMN     "limit_cycles" INTEGER,
ADD COLUMN     "limit_landings" INTEGER,
ADD COLUMN     "limit_starts" INTEGER;

GRANT UPDATE (removed_cycles, removed_landings, removed_starts) ON component_fitting TO fairlead_shop;

ALTER TABLE meter_reading ADD CONSTRAINT reading_counts_not_below_zero CHECK (least(cycles, landings, starts) >= 0);
ALTER TABLE flight ADD CONSTRAINT flight_cycles_sensible CHECK (cycles BETWEEN 0 AND 1000);
ALTER TABLE component ADD CONSTRAINT component_counts_not_below_zero CHECK (least(cycles, landings, starts) >= 0);
ALTER TABLE due_event ADD CONSTRAINT due_event_counts_not_below_zero
  CHECK (least(cycles, landings, starts, part_cycles, part_landings, part_starts) >= 0);
ALTER TABLE component_fitting
  ADD CONSTRAINT fitting_counts_run_on CHECK (
    least(aircraft_cycles, aircraft_landings, aircraft_starts) >= 0
    AND coalesce(removed_cycles >= aircraft_cycles, true)
    AND coalesce(removed_landings >= aircraft_landings, true)
    AND coalesce(removed_starts >= aircraft_starts, true)),
  ADD CONSTRAINT fitting_counts_when_removed CHECK (removed_at IS NOT NULL OR num_nonnulls(removed_cycles, removed_landings, removed_starts) = 0);

-- What a part ran and counted on an aircraft is a fact once it is off.
CREATE OR REPLACE FUNCTION fitting_ends_once() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE ending constant text[] := '{removed_at,removed_tis_hundredths,removed_cycles,removed_landings,removed_starts,removed_by_id,removal_words,removed_with_parent}';
BEGIN
  IF OLD.removed_at IS NULL AND to_jsonb(OLD) - ending = to_jsonb(NEW) - ending THEN RETURN NEW; END IF;
  RAISE EXCEPTION 'A fitting that ended is never changed' USING ERRCODE = 'FL001';
END $$;

ALTER TABLE due_item DROP CONSTRAINT due_terms_sensible;
ALTER TABLE due_item ADD CONSTRAINT due_terms_sensible CHECK (
  least(every_hundredths, every_months, every_calendar_months, every_days, every_cycles, every_landings, every_starts) > 0
  AND least(limit_hundredths, limit_cycles, limit_landings, limit_starts) > 0
  AND CASE rule
    WHEN 'calendar_months' THEN every_calendar_months IS NOT NULL
    WHEN 'recurring' THEN num_nonnulls(every_hundredths, every_months, every_calendar_months, every_days, every_cycles, every_landings, every_starts) > 0
    WHEN 'life_limit' THEN num_nonnulls(limit_hundredths, limit_date, limit_cycles, limit_landings, limit_starts) > 0
    WHEN 'once' THEN num_nonnulls(limit_hundredths, limit_date, limit_cycles, limit_landings, limit_starts) > 0
    ELSE true END);

ALTER TABLE directive DROP CONSTRAINT directive_terms_sensible;
ALTER TABLE directive ADD CONSTRAINT directive_terms_sensible CHECK (
  least(within_hundredths, within_days, within_cycles, within_landings, within_starts) > 0
  AND least(every_hundredths, every_months, every_calendar_months, every_days, every_cycles, every_landings, every_starts) > 0
  AND least(limit_hundredths, limit_cycles, limit_landings, limit_starts) > 0
  AND CASE rule
    WHEN 'recurring' THEN num_nonnulls(every_hundredths, every_months, every_calendar_months, every_days, every_cycles, every_landings, every_starts) > 0
    WHEN 'life_limit' THEN num_nonnulls(limit_hundredths, limit_date, limit_cycles, limit_landings, limit_starts) > 0
    WHEN 'once' THEN num_nonnulls(within_hundredths, within_days, within_cycles, within_landings, within_starts, limit_hundredths, limit_date, limit_cycles, limit_landings, limit_starts) > 0
    ELSE false END);
