-- Money taken for an order before there is an invoice, what of it was set against one, and what was paid back.
-- AlterTable
ALTER TABLE "payment" ADD COLUMN     "deposit_id" UUID;

-- CreateTable
CREATE TABLE "deposit" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "number" INTEGER NOT NULL DEFAULT take_number('receipt'::text),
    "order_id" UUID NOT NULL,
    "contact_id" UUID NOT NULL,
    "currency" CHAR(3) NOT NULL,
    "amount_minor" BIGINT NOT NULL,
    "method" TEXT NOT NULL,
    "paid_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "recorded_by_id" UUID,

    CONSTRAINT "deposit_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "deposit_refund" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "deposit_id" UUID NOT NULL,
    "amount_minor" BIGINT NOT NULL,
    "method" TEXT NOT NULL,
    "paid_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "recorded_by_id" UUID,

    CONSTRAINT "deposit_refund_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "deposit_shop_id_order_id_idx" ON "deposit"("shop_id", "order_id");

-- CreateIndex
CREATE INDEX "deposit_shop_id_contact_id_idx" ON "deposit"("shop_id", "contact_id");

-- CreateIndex
CREATE UNIQUE INDEX "deposit_shop_id_number_key" ON "deposit"("shop_id", "number");

-- CreateIndex
CREATE UNIQUE INDEX "deposit_shop_id_id_key" ON "deposit"("shop_id", "id");

-- CreateIndex
CREATE INDEX "deposit_refund_shop_id_deposit_id_idx" ON "deposit_refund"("shop_id", "deposit_id");

-- CreateIndex
CREATE UNIQUE INDEX "deposit_refund_shop_id_id_key" ON "deposit_refund"("shop_id", "id");

-- CreateIndex
CREATE INDEX "payment_shop_id_deposit_id_idx" ON "payment"("shop_id", "deposit_id");

-- AddForeignKey
ALTER TABLE "payment" ADD CONSTRAINT "payment_shop_id_deposit_id_fkey" FOREIGN KEY ("shop_id", "deposit_id") REFERENCES "deposit"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "deposit" ADD CONSTRAINT "deposit_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "deposit" ADD CONSTRAINT "deposit_shop_id_contact_id_fkey" FOREIGN KEY ("shop_id", "contact_id") REFERENCES "contact"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "deposit_refund" ADD CONSTRAINT "deposit_refund_shop_id_deposit_id_fkey" FOREIGN KEY ("shop_id", "deposit_id") REFERENCES "deposit"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;


SELECT keep_to_one_shop(each), keep_audit_of(each) FROM unnest('{deposit,deposit_refund}'::regclass[]) AS each;
DO $$
DECLARE fact text;
BEGIN
  FOREACH fact IN ARRAY ARRAY['deposit', 'deposit_refund'] LOOP
    EXECUTE format('CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', fact);
    EXECUTE format('CREATE TRIGGER never_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', fact);
  END LOOP;
END $$;

ALTER TABLE deposit ADD CONSTRAINT deposit_above_zero CHECK (amount_minor > 0);
ALTER TABLE deposit_refund ADD CONSTRAINT deposit_refund_above_zero CHECK (amount_minor > 0);

-- No money of a deposit is ever used twice, whoever forgets: the deposit's row is held while what is left of it is counted.
CREATE FUNCTION deposit_covers_its_uses() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE d deposit; used bigint; refunded bigint;
BEGIN
  IF NEW.deposit_id IS NULL THEN RETURN NULL; END IF;
  SELECT * INTO d FROM deposit WHERE shop_id = NEW.shop_id AND id = NEW.deposit_id FOR UPDATE;
  SELECT coalesce(sum(amount_minor), 0) INTO used FROM payment WHERE shop_id = d.shop_id AND deposit_id = d.id;
  SELECT coalesce(sum(amount_minor), 0) INTO refunded FROM deposit_refund WHERE shop_id = d.shop_id AND deposit_id = d.id;
  IF used < 0 OR used + refunded > d.amount_minor THEN
    RAISE EXCEPTION 'Deposit % holds %: % were set against invoices and % paid back', d.number, d.amount_minor, used, refunded
      USING ERRCODE = 'FL002';
  END IF;
  IF TG_TABLE_NAME = 'payment' AND NOT EXISTS (SELECT FROM invoice v WHERE v.shop_id = NEW.shop_id
      AND v.id = (to_jsonb(NEW) ->> 'invoice_id')::uuid AND v.order_id = d.order_id AND v.currency = d.currency) THEN
    RAISE EXCEPTION 'Deposit % is for another order, or in another currency, than this invoice', d.number USING ERRCODE = 'FL002';
  END IF;
  RETURN NULL;
END $$;
CREATE TRIGGER deposit_covers AFTER INSERT ON payment FOR EACH ROW EXECUTE FUNCTION deposit_covers_its_uses();
CREATE TRIGGER deposit_covers AFTER INSERT ON deposit_refund FOR EACH ROW EXECUTE FUNCTION deposit_covers_its_uses();
