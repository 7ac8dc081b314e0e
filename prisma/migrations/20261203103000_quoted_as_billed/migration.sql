-- The rule for billed time that the amounts of a revision were foretold by; null: hours as they are worked, as all were before.
ALTER TABLE "quote_revision" ADD COLUMN "billing_step" DECIMAL(4,2), ADD COLUMN "billing_rounding" "billing_rounding",
  ADD COLUMN "billing_minimum" DECIMAL(4,2);
ALTER TABLE quote_revision ADD CONSTRAINT quote_revision_billing_whole
  CHECK ((billing_step IS NULL) = (billing_rounding IS NULL) AND (billing_minimum IS NULL OR billing_step IS NOT NULL));
