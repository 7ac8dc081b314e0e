-- What the shop orders: numbered without gaps, its lines fixed once it is sent. What came of it are lots that name their line.

-- CreateEnum
CREATE TYPE "purchase_event_kind" AS ENUM ('sent', 'cancelled');

-- CreateEnum
CREATE TYPE "purchase_channel" AS ENUM ('email', 'telephone', 'other');

-- AlterTable
ALTER TABLE "lot" ADD COLUMN     "purchase_line_id" UUID;

-- CreateTable
CREATE TABLE "purchase_order" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "number" INTEGER NOT NULL DEFAULT take_number('purchase'::text),
    "supplier" TEXT NOT NULL,
    "supplier_email" TEXT NOT NULL DEFAULT '',
    "expected_on" DATE,
    "note" TEXT NOT NULL DEFAULT '',
    "currency" CHAR(3) NOT NULL,
    "drafted_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "purchase_order_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "purchase_line" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,
    "part_id" UUID NOT NULL,
    "quantity" DECIMAL(12,3) NOT NULL,
    "unit_cost" DECIMAL(14,4) NOT NULL,

    CONSTRAINT "purchase_line_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "purchase_event" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID NOT NULL,
    "kind" "purchase_event_kind" NOT NULL,
    "channel" "purchase_channel",
    "reason" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "purchase_event_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "purchase_order_shop_id_number_key" ON "purchase_order"("shop_id", "number");

-- CreateIndex
CREATE UNIQUE INDEX "purchase_order_shop_id_id_key" ON "purchase_order"("shop_id", "id");

-- CreateIndex
CREATE INDEX "purchase_line_shop_id_part_id_idx" ON "purchase_line"("shop_id", "part_id");

-- CreateIndex
CREATE UNIQUE INDEX "purchase_line_shop_id_order_id_position_key" ON "purchase_line"("shop_id", "order_id", "position");

-- CreateIndex
CREATE UNIQUE INDEX "purchase_line_shop_id_id_key" ON "purchase_line"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "purchase_event_shop_id_order_id_kind_key" ON "purchase_event"("shop_id", "order_id", "kind");

-- CreateIndex
CREATE UNIQUE INDEX "purchase_event_shop_id_id_key" ON "purchase_event"("shop_id", "id");

-- CreateIndex
CREATE INDEX "lot_shop_id_purchase_line_id_idx" ON "lot"("shop_id", "purchase_line_id");

-- AddForeignKey
ALTER TABLE "lot" ADD CONSTRAINT "lot_shop_id_purchase_line_id_fkey" FOREIGN KEY ("shop_id", "purchase_line_id") REFERENCES "purchase_line"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "purchase_order" ADD CONSTRAINT "purchase_order_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "purchase_line" ADD CONSTRAINT "purchase_line_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "purchase_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "purchase_line" ADD CONSTRAINT "purchase_line_shop_id_part_id_fkey" FOREIGN KEY ("shop_id", "part_id") REFERENCES "part"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "purchase_event" ADD CONSTRAINT "purchase_event_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "purchase_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "purchase_event" ADD CONSTRAINT "purchase_event_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop(each) FROM unnest('{purchase_order,purchase_line,purchase_event}'::regclass[]) AS each;
SELECT keep_audit_of(each) FROM unnest('{purchase_order,purchase_line,purchase_event}'::regclass[]) AS each;
DO $$
DECLARE fact text;
BEGIN
  FOREACH fact IN ARRAY ARRAY['purchase_order', 'purchase_line', 'purchase_event'] LOOP
    EXECUTE format('CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', fact);
    EXECUTE format('CREATE TRIGGER never_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', fact);
  END LOOP;
END $$;

ALTER TABLE purchase_order ADD CONSTRAINT purchase_currency_iso_4217 CHECK (currency ~ '^[A-Z]{3}$');
ALTER TABLE purchase_line
  ADD CONSTRAINT purchase_line_wants_something CHECK (quantity > 0),
  ADD CONSTRAINT purchase_line_cost_not_negative CHECK (unit_cost >= 0);
ALTER TABLE purchase_event
  ADD CONSTRAINT sent_by_some_way CHECK ((kind = 'sent') = (channel IS NOT NULL)),
  ADD CONSTRAINT purchase_cancelled_for_a_reason CHECK (kind <> 'cancelled' OR reason <> '');

-- What was sent is what was sent.
CREATE FUNCTION sent_purchase_is_closed() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (SELECT FROM purchase_event e WHERE e.shop_id = NEW.shop_id AND e.order_id = NEW.order_id) THEN
    RAISE EXCEPTION 'This purchase order was sent or cancelled: a change is a new one' USING ERRCODE = 'FL001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER sent_is_closed BEFORE INSERT ON purchase_line FOR EACH ROW EXECUTE FUNCTION sent_purchase_is_closed();
