-- The flight that 14 CFR 91.407(b) asks for after work that may have changed how an aircraft flies.
-- CreateEnum
CREATE TYPE "flight_check_kind" AS ENUM ('asked', 'flown', 'ground_tests', 'withdrawn');

-- CreateTable
CREATE TABLE "flight_check" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID NOT NULL,
    "kind" "flight_check_kind" NOT NULL,
    "words" TEXT NOT NULL,
    "pilot_name" TEXT,
    "pilot_certificate" TEXT,
    "flown_on" DATE,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "flight_check_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "flight_check_shop_id_order_id_idx" ON "flight_check"("shop_id", "order_id");

-- CreateIndex
CREATE UNIQUE INDEX "flight_check_shop_id_id_key" ON "flight_check"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "flight_check" ADD CONSTRAINT "flight_check_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "flight_check" ADD CONSTRAINT "flight_check_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop('flight_check');
SELECT keep_audit_of('flight_check');
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON flight_check FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON flight_check FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

ALTER TABLE flight_check ADD CONSTRAINT flown_by_somebody
  CHECK ((kind = 'flown') = (num_nonnulls(pilot_name, pilot_certificate, flown_on) = 3)
    AND (kind = 'flown' OR num_nonnulls(pilot_name, pilot_certificate, flown_on) = 0));
