-- What is charged on an order besides what was quoted, by name; and parts sent to another shop, promised, returned with their release tag, and billed.
-- CreateEnum
CREATE TYPE "outside_event_kind" AS ENUM ('promised', 'returned');

-- CreateTable
CREATE TABLE "order_charge" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID NOT NULL,
    "kind" "charge_kind" NOT NULL,
    "title" TEXT NOT NULL,
    "category" "tax_category" NOT NULL,
    "amount_minor" BIGINT NOT NULL,
    "cost_minor" BIGINT,
    "percent" DECIMAL(7,4),
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "order_charge_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "order_charge_end" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "charge_id" UUID NOT NULL,
    "reason" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "order_charge_end_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "outside_job" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "number" INTEGER NOT NULL DEFAULT take_number('outside'::text),
    "item_id" UUID NOT NULL,
    "vendor" TEXT NOT NULL,
    "what" TEXT NOT NULL,
    "part_number" TEXT NOT NULL DEFAULT '',
    "serial" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "outside_job_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "outside_event" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "job_id" UUID NOT NULL,
    "kind" "outside_event_kind" NOT NULL,
    "promised_on" DATE,
    "said_by" TEXT NOT NULL DEFAULT '',
    "tag" TEXT NOT NULL DEFAULT '',
    "reason" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "outside_event_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "outside_document" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "job_id" UUID NOT NULL,
    "sha256" CHAR(64) NOT NULL,
    "mime" TEXT NOT NULL,
    "bytes" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "outside_document_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "outside_bill" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "job_id" UUID NOT NULL,
    "reference" TEXT NOT NULL,
    "cost_minor" BIGINT NOT NULL,
    "charge_id" UUID,
    "quote_line_id" UUID,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "outside_bill_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "order_charge_shop_id_order_id_idx" ON "order_charge"("shop_id", "order_id");

-- CreateIndex
CREATE UNIQUE INDEX "order_charge_shop_id_id_key" ON "order_charge"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "order_charge_end_shop_id_charge_id_key" ON "order_charge_end"("shop_id", "charge_id");

-- CreateIndex
CREATE UNIQUE INDEX "order_charge_end_shop_id_id_key" ON "order_charge_end"("shop_id", "id");

-- CreateIndex
CREATE INDEX "outside_job_shop_id_item_id_idx" ON "outside_job"("shop_id", "item_id");

-- CreateIndex
CREATE UNIQUE INDEX "outside_job_shop_id_number_key" ON "outside_job"("shop_id", "number");

-- CreateIndex
CREATE UNIQUE INDEX "outside_job_shop_id_id_key" ON "outside_job"("shop_id", "id");

-- CreateIndex
CREATE INDEX "outside_event_shop_id_job_id_at_idx" ON "outside_event"("shop_id", "job_id", "at");

-- CreateIndex
CREATE UNIQUE INDEX "outside_event_shop_id_id_key" ON "outside_event"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "outside_document_shop_id_job_id_sha256_key" ON "outside_document"("shop_id", "job_id", "sha256");

-- CreateIndex
CREATE UNIQUE INDEX "outside_document_shop_id_id_key" ON "outside_document"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "outside_bill_shop_id_job_id_key" ON "outside_bill"("shop_id", "job_id");

-- CreateIndex
CREATE UNIQUE INDEX "outside_bill_shop_id_id_key" ON "outside_bill"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "order_charge" ADD CONSTRAINT "order_charge_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "order_charge" ADD CONSTRAINT "order_charge_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "order_charge_end" ADD CONSTRAINT "order_charge_end_shop_id_charge_id_fkey" FOREIGN KEY ("shop_id", "charge_id") REFERENCES "order_charge"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "order_charge_end" ADD CONSTRAINT "order_charge_end_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outside_job" ADD CONSTRAINT "outside_job_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outside_job" ADD CONSTRAINT "outside_job_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outside_event" ADD CONSTRAINT "outside_event_shop_id_job_id_fkey" FOREIGN KEY ("shop_id", "job_id") REFERENCES "outside_job"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outside_event" ADD CONSTRAINT "outside_event_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outside_document" ADD CONSTRAINT "outside_document_shop_id_job_id_fkey" FOREIGN KEY ("shop_id", "job_id") REFERENCES "outside_job"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outside_document" ADD CONSTRAINT "outside_document_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outside_bill" ADD CONSTRAINT "outside_bill_shop_id_job_id_fkey" FOREIGN KEY ("shop_id", "job_id") REFERENCES "outside_job"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outside_bill" ADD CONSTRAINT "outside_bill_shop_id_charge_id_fkey" FOREIGN KEY ("shop_id", "charge_id") REFERENCES "order_charge"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outside_bill" ADD CONSTRAINT "outside_bill_shop_id_quote_line_id_fkey" FOREIGN KEY ("shop_id", "quote_line_id") REFERENCES "quote_line"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "outside_bill" ADD CONSTRAINT "outside_bill_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop(each), keep_audit_of(each) FROM unnest('{order_charge,order_charge_end,outside_job,outside_event,outside_document,outside_bill}'::regclass[]) AS each;
DO $$
DECLARE fact text;
BEGIN
  FOREACH fact IN ARRAY ARRAY['order_charge', 'order_charge_end', 'outside_job', 'outside_event', 'outside_document', 'outside_bill'] LOOP
    EXECUTE format('CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', fact);
    EXECUTE format('CREATE TRIGGER never_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', fact);
  END LOOP;
END $$;

ALTER TABLE order_charge
  ADD CONSTRAINT order_charge_sensible CHECK (amount_minor > 0 AND (cost_minor IS NULL OR cost_minor >= 0) AND (percent IS NULL OR percent >= 0));
-- Only what came back has a tag, or a reason why it has none; a promise is somebody's word.
ALTER TABLE outside_event
  ADD CONSTRAINT outside_event_says_its_own CHECK (CASE kind WHEN 'promised' THEN tag = '' AND reason = '' AND said_by <> '' ELSE promised_on IS NULL END);
CREATE UNIQUE INDEX outside_returned_once ON outside_event (shop_id, job_id) WHERE kind = 'returned';
-- A bill is charged on top, or is what a line of the quote is for; never both.
ALTER TABLE outside_bill
  ADD CONSTRAINT outside_bill_charged_once CHECK (cost_minor > 0 AND num_nonnulls(charge_id, quote_line_id) = 1);
