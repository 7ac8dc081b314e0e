-- What is charged besides work and parts: outside work, freight, disposal, a call-out, shop supplies.
CREATE TYPE "charge_kind" AS ENUM ('outside_work', 'freight', 'disposal', 'call_out', 'supplies', 'other');
ALTER TABLE "quote_line" ADD COLUMN "charge" "charge_kind";
ALTER TABLE "quote_line" ADD COLUMN "cost_minor" BIGINT;
ALTER TABLE "quote_line" ADD COLUMN "percent" DECIMAL(7,4);
ALTER TABLE "quote_line" ADD CONSTRAINT "quote_line_charge_is_firm"
  CHECK ("charge" IS NULL OR ("pricing" = 'fixed' AND "task_id" IS NULL AND "part_id" IS NULL AND "likely_minor" > 0));
ALTER TABLE "quote_line" ADD CONSTRAINT "quote_line_cost_of_a_charge"
  CHECK (("charge" IS NOT NULL OR num_nonnulls("cost_minor", "percent") = 0)
    AND ("cost_minor" IS NULL OR "cost_minor" >= 0) AND ("percent" IS NULL OR "percent" >= 0));
