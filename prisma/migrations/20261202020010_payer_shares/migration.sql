-- Who pays a part of an order besides the customer: a warranty giver, an insurer. One order then has an invoice for each payer.
-- CreateEnum
CREATE TYPE "payer_kind" AS ENUM ('warranty', 'insurer', 'other');

-- CreateEnum
CREATE TYPE "payer_take" AS ENUM ('whole', 'percent', 'sum');

-- AlterTable
ALTER TABLE "invoice" ADD COLUMN     "payer_share_id" UUID,
ADD COLUMN     "rounding_minor" BIGINT NOT NULL DEFAULT 0;

-- CreateTable
CREATE TABLE "payer_share" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID NOT NULL,
    "contact_id" UUID NOT NULL,
    "kind" "payer_kind" NOT NULL,
    "take" "payer_take" NOT NULL,
    "percent" DECIMAL(7,4),
    "amount_minor" BIGINT,
    "deductible_minor" BIGINT NOT NULL DEFAULT 0,
    "reference" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "payer_share_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "payer_share_item" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "share_id" UUID NOT NULL,
    "item_id" UUID NOT NULL,

    CONSTRAINT "payer_share_item_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "payer_share_end" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "share_id" UUID NOT NULL,
    "reason" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "payer_share_end_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "payer_share_shop_id_order_id_idx" ON "payer_share"("shop_id", "order_id");

-- CreateIndex
CREATE UNIQUE INDEX "payer_share_shop_id_id_key" ON "payer_share"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "payer_share_item_shop_id_share_id_item_id_key" ON "payer_share_item"("shop_id", "share_id", "item_id");

-- CreateIndex
CREATE UNIQUE INDEX "payer_share_item_shop_id_id_key" ON "payer_share_item"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "payer_share_end_shop_id_share_id_key" ON "payer_share_end"("shop_id", "share_id");

-- CreateIndex
CREATE UNIQUE INDEX "payer_share_end_shop_id_id_key" ON "payer_share_end"("shop_id", "id");

-- CreateIndex
CREATE INDEX "invoice_shop_id_payer_share_id_idx" ON "invoice"("shop_id", "payer_share_id");

-- AddForeignKey
ALTER TABLE "invoice" ADD CONSTRAINT "invoice_shop_id_payer_share_id_fkey" FOREIGN KEY ("shop_id", "payer_share_id") REFERENCES "payer_share"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "payer_share" ADD CONSTRAINT "payer_share_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "payer_share" ADD CONSTRAINT "payer_share_shop_id_contact_id_fkey" FOREIGN KEY ("shop_id", "contact_id") REFERENCES "contact"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "payer_share" ADD CONSTRAINT "payer_share_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "payer_share_item" ADD CONSTRAINT "payer_share_item_shop_id_share_id_fkey" FOREIGN KEY ("shop_id", "share_id") REFERENCES "payer_share"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "payer_share_item" ADD CONSTRAINT "payer_share_item_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "payer_share_end" ADD CONSTRAINT "payer_share_end_shop_id_share_id_fkey" FOREIGN KEY ("shop_id", "share_id") REFERENCES "payer_share"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "payer_share_end" ADD CONSTRAINT "payer_share_end_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop(each), keep_audit_of(each) FROM unnest('{payer_share,payer_share_item,payer_share_end}'::regclass[]) AS each;
DO $$
DECLARE fact text;
BEGIN
  FOREACH fact IN ARRAY ARRAY['payer_share', 'payer_share_item', 'payer_share_end'] LOOP
    EXECUTE format('CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', fact);
    EXECUTE format('CREATE TRIGGER never_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', fact);
  END LOOP;
END $$;

ALTER TABLE payer_share
  ADD CONSTRAINT share_says_how_much CHECK ((take = 'percent') = (percent IS NOT NULL) AND (take = 'sum') = (amount_minor IS NOT NULL)),
  ADD CONSTRAINT share_sensible CHECK (deductible_minor >= 0 AND (percent IS NULL OR (percent > 0 AND percent <= 100)) AND (amount_minor IS NULL OR amount_minor > 0));
ALTER TABLE payer_share_end ADD CONSTRAINT share_end_has_reason CHECK (length(reason) BETWEEN 3 AND 500);

-- What is to be paid is net, tax and the rounding between the payers of one order (EN 16931, BR-CO-16).
ALTER TABLE invoice DROP CONSTRAINT gross_is_net_and_tax,
  ADD CONSTRAINT gross_is_net_and_tax CHECK (gross_minor = net_minor + tax_minor + rounding_minor);
