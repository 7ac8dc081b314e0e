-- Cores charged, rates by kind of work, dated price lists, a minimum of billed time, exemptions from tax: what a line was made with is kept with it.
-- AlterTable
ALTER TABLE "invoice" ADD COLUMN     "in_part" BOOLEAN NOT NULL DEFAULT false;

-- AlterTable
ALTER TABLE "invoice_line" ADD COLUMN     "core" BOOLEAN NOT NULL DEFAULT false,
ADD COLUMN     "exemption_id" UUID,
ADD COLUMN     "note" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "tax_reason" TEXT NOT NULL DEFAULT '';

-- AlterTable
ALTER TABLE "part" ALTER COLUMN "unit_price" DROP NOT NULL;

-- AlterTable
ALTER TABLE "quote_line" ADD COLUMN     "cap_minor" BIGINT,
ADD COLUMN     "core_part_id" UUID,
ADD COLUMN     "exemption_id" UUID,
ADD COLUMN     "priced_from" DATE,
ADD COLUMN     "tax_reason" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "unit_cost" DECIMAL(14,4),
ADD COLUMN     "work_kind" TEXT NOT NULL DEFAULT '';

-- AlterTable
ALTER TABLE "shop" ADD COLUMN     "billing_minimum" DECIMAL(4,2);

-- AlterTable
ALTER TABLE "task" ADD COLUMN     "work_kind_id" UUID;

-- CreateTable
CREATE TABLE "work_kind" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "name" TEXT NOT NULL,
    "named_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "work_kind_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "part_price" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "part_id" UUID NOT NULL,
    "unit_price" DECIMAL(14,4),
    "valid_from" DATE NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "part_price_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "mark_up_list" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "valid_from" DATE NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "mark_up_list_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "mark_up_band" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "list_id" UUID NOT NULL,
    "cost_from" DECIMAL(14,4) NOT NULL,
    "percent" DECIMAL(7,4) NOT NULL,

    CONSTRAINT "mark_up_band_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "supplies_rule" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "percent" DECIMAL(7,4) NOT NULL,
    "cap_minor" BIGINT,
    "valid_from" DATE NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "supplies_rule_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "tax_exemption" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "contact_id" UUID,
    "aircraft_id" UUID,
    "category" "tax_category" NOT NULL,
    "valid_from" DATE NOT NULL,
    "valid_until" DATE NOT NULL,
    "reason" TEXT NOT NULL,
    "sha256" CHAR(64) NOT NULL,
    "mime" TEXT NOT NULL,
    "bytes" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "tax_exemption_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "tax_exemption_end" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "exemption_id" UUID NOT NULL,
    "reason" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "tax_exemption_end_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "work_kind_shop_id_name_key" ON "work_kind"("shop_id", "name");

-- CreateIndex
CREATE UNIQUE INDEX "work_kind_shop_id_id_key" ON "work_kind"("shop_id", "id");

-- CreateIndex
CREATE INDEX "part_price_shop_id_part_id_valid_from_idx" ON "part_price"("shop_id", "part_id", "valid_from");

-- CreateIndex
CREATE UNIQUE INDEX "part_price_shop_id_id_key" ON "part_price"("shop_id", "id");

-- CreateIndex
CREATE INDEX "mark_up_list_shop_id_valid_from_idx" ON "mark_up_list"("shop_id", "valid_from");

-- CreateIndex
CREATE UNIQUE INDEX "mark_up_list_shop_id_id_key" ON "mark_up_list"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "mark_up_band_shop_id_list_id_cost_from_key" ON "mark_up_band"("shop_id", "list_id", "cost_from");

-- CreateIndex
CREATE UNIQUE INDEX "mark_up_band_shop_id_id_key" ON "mark_up_band"("shop_id", "id");

-- CreateIndex
CREATE INDEX "supplies_rule_shop_id_valid_from_idx" ON "supplies_rule"("shop_id", "valid_from");

-- CreateIndex
CREATE UNIQUE INDEX "supplies_rule_shop_id_id_key" ON "supplies_rule"("shop_id", "id");

-- CreateIndex
CREATE INDEX "tax_exemption_shop_id_contact_id_idx" ON "tax_exemption"("shop_id", "contact_id");

-- CreateIndex
CREATE INDEX "tax_exemption_shop_id_aircraft_id_idx" ON "tax_exemption"("shop_id", "aircraft_id");

-- CreateIndex
CREATE UNIQUE INDEX "tax_exemption_shop_id_id_key" ON "tax_exemption"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "tax_exemption_end_shop_id_exemption_id_key" ON "tax_exemption_end"("shop_id", "exemption_id");

-- CreateIndex
CREATE UNIQUE INDEX "tax_exemption_end_shop_id_id_key" ON "tax_exemption_end"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "invoice_line" ADD CONSTRAINT "invoice_line_shop_id_exemption_id_fkey" FOREIGN KEY ("shop_id", "exemption_id") REFERENCES "tax_exemption"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task" ADD CONSTRAINT "task_shop_id_work_kind_id_fkey" FOREIGN KEY ("shop_id", "work_kind_id") REFERENCES "work_kind"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "work_kind" ADD CONSTRAINT "work_kind_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "part_price" ADD CONSTRAINT "part_price_shop_id_part_id_fkey" FOREIGN KEY ("shop_id", "part_id") REFERENCES "part"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "part_price" ADD CONSTRAINT "part_price_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "mark_up_list" ADD CONSTRAINT "mark_up_list_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "mark_up_list" ADD CONSTRAINT "mark_up_list_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "mark_up_band" ADD CONSTRAINT "mark_up_band_shop_id_list_id_fkey" FOREIGN KEY ("shop_id", "list_id") REFERENCES "mark_up_list"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "supplies_rule" ADD CONSTRAINT "supplies_rule_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "supplies_rule" ADD CONSTRAINT "supplies_rule_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "tax_exemption" ADD CONSTRAINT "tax_exemption_shop_id_contact_id_fkey" FOREIGN KEY ("shop_id", "contact_id") REFERENCES "contact"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "tax_exemption" ADD CONSTRAINT "tax_exemption_shop_id_aircraft_id_fkey" FOREIGN KEY ("shop_id", "aircraft_id") REFERENCES "aircraft"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "tax_exemption" ADD CONSTRAINT "tax_exemption_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "tax_exemption_end" ADD CONSTRAINT "tax_exemption_end_shop_id_exemption_id_fkey" FOREIGN KEY ("shop_id", "exemption_id") REFERENCES "tax_exemption"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "tax_exemption_end" ADD CONSTRAINT "tax_exemption_end_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "quote_line" ADD CONSTRAINT "quote_line_shop_id_core_part_id_fkey" FOREIGN KEY ("shop_id", "core_part_id") REFERENCES "part"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "quote_line" ADD CONSTRAINT "quote_line_shop_id_exemption_id_fkey" FOREIGN KEY ("shop_id", "exemption_id") REFERENCES "tax_exemption"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- Rates that stand already name their kinds; the general rate and what an hour costs the shop are no kinds of work.
INSERT INTO work_kind (shop_id, name) SELECT DISTINCT shop_id, kind FROM labour_rate WHERE kind NOT IN ('mechanic', 'cost');

SELECT keep_to_one_shop(each), keep_audit_of(each) FROM unnest(
  '{work_kind,part_price,mark_up_list,mark_up_band,supplies_rule,tax_exemption,tax_exemption_end}'::regclass[]) AS each;
DO $$
DECLARE fact text;
BEGIN
  FOREACH fact IN ARRAY ARRAY['work_kind', 'part_price', 'mark_up_list', 'mark_up_band', 'supplies_rule', 'tax_exemption', 'tax_exemption_end'] LOOP
    EXECUTE format('CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', fact);
    EXECUTE format('CREATE TRIGGER never_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', fact);
  END LOOP;
END $$;

-- A part's first price stays what it was: a later one is a row from its day on.
CREATE TRIGGER first_price_stays BEFORE UPDATE ON part FOR EACH ROW
  WHEN (OLD.unit_price IS DISTINCT FROM NEW.unit_price) EXECUTE FUNCTION refuse_change();

ALTER TABLE work_kind ADD CONSTRAINT work_kind_is_named CHECK (name <> '' AND name NOT IN ('mechanic', 'cost', 'general'));
ALTER TABLE part_price ADD CONSTRAINT part_price_not_negative CHECK (unit_price >= 0);
ALTER TABLE mark_up_band ADD CONSTRAINT mark_up_band_not_negative CHECK (cost_from >= 0 AND percent >= 0);
ALTER TABLE supplies_rule ADD CONSTRAINT supplies_rule_not_negative CHECK (percent >= 0 AND cap_minor >= 0);
ALTER TABLE shop ADD CONSTRAINT billing_minimum_above_zero CHECK (billing_minimum > 0);
ALTER TABLE tax_exemption
  ADD CONSTRAINT exemption_of_one CHECK (num_nonnulls(contact_id, aircraft_id) = 1),
  ADD CONSTRAINT exemption_ends_after_it_begins CHECK (valid_until >= valid_from),
  ADD CONSTRAINT exemption_has_a_reason CHECK (reason <> ''),
  ADD CONSTRAINT document_sha256 CHECK (sha256 ~ '^[0-9a-f]{64}$'),
  ADD CONSTRAINT document_pdf_or_jpeg CHECK (mime IN ('application/pdf', 'image/jpeg')),
  ADD CONSTRAINT document_has_bytes CHECK (bytes > 0);
ALTER TABLE invoice ADD CONSTRAINT only_a_credit_note_is_in_part CHECK (NOT in_part OR credits_id IS NOT NULL);
ALTER TABLE invoice_line
  ADD CONSTRAINT invoice_line_exempt_with_reason CHECK (exemption_id IS NULL OR (tax_code = 'E' AND tax_reason <> ''));

ALTER TABLE quote_line DROP CONSTRAINT quote_line_cost_of_a_charge;
ALTER TABLE quote_line
  ADD CONSTRAINT quote_line_cost_of_a_charge CHECK ((charge IS NOT NULL OR cost_minor IS NULL)
    AND (charge IS NOT NULL OR percent IS NULL OR unit_cost IS NOT NULL)
    AND (cost_minor IS NULL OR cost_minor >= 0) AND (percent IS NULL OR percent >= 0)),
  ADD CONSTRAINT quote_line_cost_of_a_part CHECK (unit_cost IS NULL OR (part_id IS NOT NULL AND percent IS NOT NULL AND unit_cost >= 0)),
  ADD CONSTRAINT quote_line_core_of_a_part CHECK ((charge IS NOT DISTINCT FROM 'core') = (core_part_id IS NOT NULL)),
  ADD CONSTRAINT quote_line_cap_of_supplies CHECK (cap_minor IS NULL OR (charge = 'supplies' AND cap_minor >= 0)),
  ADD CONSTRAINT quote_line_exempt_with_reason CHECK (exemption_id IS NULL OR (tax_code = 'E' AND tax_reason <> ''));
