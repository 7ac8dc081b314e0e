-- An aircraft is sold while it is here: whose it was until when, which orders that cuts in two, and what is billed to the seller to date.
-- AlterTable
ALTER TABLE "invoice" ADD COLUMN     "sale_id" UUID;

-- CreateTable
CREATE TABLE "aircraft_sale" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "aircraft_id" UUID NOT NULL,
    "seller_id" UUID NOT NULL,
    "buyer_id" UUID NOT NULL,
    "sold_on" DATE NOT NULL,
    "cut_at" TIMESTAMPTZ(3) NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "aircraft_sale_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "aircraft_sale_order" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "sale_id" UUID NOT NULL,
    "order_id" UUID NOT NULL,

    CONSTRAINT "aircraft_sale_order_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "aircraft_sale_shop_id_aircraft_id_idx" ON "aircraft_sale"("shop_id", "aircraft_id");

-- CreateIndex
CREATE UNIQUE INDEX "aircraft_sale_shop_id_id_key" ON "aircraft_sale"("shop_id", "id");

-- CreateIndex
CREATE INDEX "aircraft_sale_order_shop_id_order_id_idx" ON "aircraft_sale_order"("shop_id", "order_id");

-- CreateIndex
CREATE UNIQUE INDEX "aircraft_sale_order_shop_id_sale_id_order_id_key" ON "aircraft_sale_order"("shop_id", "sale_id", "order_id");

-- CreateIndex
CREATE UNIQUE INDEX "aircraft_sale_order_shop_id_id_key" ON "aircraft_sale_order"("shop_id", "id");

-- CreateIndex
CREATE INDEX "invoice_shop_id_sale_id_idx" ON "invoice"("shop_id", "sale_id");

-- AddForeignKey
ALTER TABLE "invoice" ADD CONSTRAINT "invoice_shop_id_sale_id_fkey" FOREIGN KEY ("shop_id", "sale_id") REFERENCES "aircraft_sale"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "aircraft_sale" ADD CONSTRAINT "aircraft_sale_shop_id_aircraft_id_fkey" FOREIGN KEY ("shop_id", "aircraft_id") REFERENCES "aircraft"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "aircraft_sale" ADD CONSTRAINT "aircraft_sale_shop_id_seller_id_fkey" FOREIGN KEY ("shop_id", "seller_id") REFERENCES "contact"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "aircraft_sale" ADD CONSTRAINT "aircraft_sale_shop_id_buyer_id_fkey" FOREIGN KEY ("shop_id", "buyer_id") REFERENCES "contact"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "aircraft_sale" ADD CONSTRAINT "aircraft_sale_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "aircraft_sale_order" ADD CONSTRAINT "aircraft_sale_order_shop_id_sale_id_fkey" FOREIGN KEY ("shop_id", "sale_id") REFERENCES "aircraft_sale"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "aircraft_sale_order" ADD CONSTRAINT "aircraft_sale_order_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop(each), keep_audit_of(each) FROM unnest('{aircraft_sale,aircraft_sale_order}'::regclass[]) AS each;
DO $$
DECLARE fact text;
BEGIN
  FOREACH fact IN ARRAY ARRAY['aircraft_sale', 'aircraft_sale_order'] LOOP
    EXECUTE format('CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', fact);
    EXECUTE format('CREATE TRIGGER never_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', fact);
  END LOOP;
END $$;

ALTER TABLE aircraft_sale ADD CONSTRAINT sold_to_somebody_else CHECK (seller_id <> buyer_id AND cut_at <= at);

-- An owner's page says of an order only what is of its owner now.
GRANT SELECT ON aircraft_sale, aircraft_sale_order TO fairlead_link;
CREATE POLICY linked ON aircraft_sale_order FOR SELECT TO fairlead_link USING (shop_id = current_shop()
  AND EXISTS (SELECT FROM work_order o WHERE o.shop_id = aircraft_sale_order.shop_id AND o.id = aircraft_sale_order.order_id));
CREATE POLICY linked ON aircraft_sale FOR SELECT TO fairlead_link USING (shop_id = current_shop()
  AND EXISTS (SELECT FROM aircraft_sale_order s WHERE s.shop_id = aircraft_sale.shop_id AND s.sale_id = aircraft_sale.id));
