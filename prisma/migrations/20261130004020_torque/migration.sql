-- Tools with their calibration, fasteners torqued with them, and compression checks.
-- CreateEnum
CREATE TYPE "tool_kind" AS ENUM ('torque_wrench', 'test_gear');

-- CreateEnum
CREATE TYPE "torque_unit" AS ENUM ('in_lb', 'ft_lb', 'n_m');

-- CreateEnum
CREATE TYPE "torque_source" AS ENUM ('maker', 'general');

-- CreateEnum
CREATE TYPE "nut_kind" AS ENUM ('tension', 'shear');

-- CreateTable
CREATE TABLE "tool" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "kind" "tool_kind" NOT NULL,
    "name" TEXT NOT NULL,
    "number" TEXT NOT NULL,
    "added_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "retired_at" TIMESTAMPTZ(3),

    CONSTRAINT "tool_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "tool_calibration" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "tool_id" UUID NOT NULL,
    "due_on" DATE NOT NULL,
    "words" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "tool_calibration_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "torque_record" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "item_id" UUID NOT NULL,
    "fastener" TEXT NOT NULL,
    "torque" DECIMAL(9,2) NOT NULL,
    "unit" "torque_unit" NOT NULL,
    "drag" DECIMAL(9,2) NOT NULL DEFAULT 0,
    "lever" DECIMAL(8,2),
    "extension" DECIMAL(8,2),
    "setting" DECIMAL(9,2) NOT NULL,
    "source" "torque_source" NOT NULL,
    "thread" TEXT NOT NULL DEFAULT '',
    "nut" "nut_kind",
    "tool_id" UUID NOT NULL,
    "good_until" DATE NOT NULL,
    "lapsed" BOOLEAN NOT NULL,
    "reason" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,
    "client_event_id" UUID NOT NULL,

    CONSTRAINT "torque_record_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "compression_check" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "item_id" UUID NOT NULL,
    "engine" TEXT NOT NULL DEFAULT '',
    "supply" INTEGER NOT NULL,
    "held" INTEGER[],
    "note" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,
    "client_event_id" UUID NOT NULL,

    CONSTRAINT "compression_check_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "tool_shop_id_number_key" ON "tool"("shop_id", "number");

-- CreateIndex
CREATE UNIQUE INDEX "tool_shop_id_id_key" ON "tool"("shop_id", "id");

-- CreateIndex
CREATE INDEX "tool_calibration_shop_id_tool_id_idx" ON "tool_calibration"("shop_id", "tool_id");

-- CreateIndex
CREATE UNIQUE INDEX "tool_calibration_shop_id_id_key" ON "tool_calibration"("shop_id", "id");

-- CreateIndex
CREATE INDEX "torque_record_shop_id_item_id_idx" ON "torque_record"("shop_id", "item_id");

-- CreateIndex
CREATE UNIQUE INDEX "torque_record_shop_id_client_event_id_key" ON "torque_record"("shop_id", "client_event_id");

-- CreateIndex
CREATE UNIQUE INDEX "torque_record_shop_id_id_key" ON "torque_record"("shop_id", "id");

-- CreateIndex
CREATE INDEX "compression_check_shop_id_item_id_idx" ON "compression_check"("shop_id", "item_id");

-- CreateIndex
CREATE UNIQUE INDEX "compression_check_shop_id_client_event_id_key" ON "compression_check"("shop_id", "client_event_id");

-- CreateIndex
CREATE UNIQUE INDEX "compression_check_shop_id_id_key" ON "compression_check"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "tool" ADD CONSTRAINT "tool_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "tool_calibration" ADD CONSTRAINT "tool_calibration_shop_id_tool_id_fkey" FOREIGN KEY ("shop_id", "tool_id") REFERENCES "tool"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "tool_calibration" ADD CONSTRAINT "tool_calibration_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "torque_record" ADD CONSTRAINT "torque_record_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "torque_record" ADD CONSTRAINT "torque_record_shop_id_tool_id_fkey" FOREIGN KEY ("shop_id", "tool_id") REFERENCES "tool"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "torque_record" ADD CONSTRAINT "torque_record_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "compression_check" ADD CONSTRAINT "compression_check_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "compression_check" ADD CONSTRAINT "compression_check_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop(each) FROM unnest('{tool,tool_calibration,torque_record,compression_check}'::regclass[]) AS each;
SELECT keep_audit_of(each) FROM unnest('{tool,tool_calibration,torque_record,compression_check}'::regclass[]) AS each;
GRANT UPDATE (retired_at) ON tool TO fairlead_shop;
DO $$
DECLARE fact text;
BEGIN
  FOREACH fact IN ARRAY ARRAY['tool_calibration', 'torque_record', 'compression_check'] LOOP
    EXECUTE format('CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', fact);
    EXECUTE format('CREATE TRIGGER never_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', fact);
  END LOOP;
END $$;

ALTER TABLE tool ADD CONSTRAINT tool_is_named CHECK (length(name) BETWEEN 1 AND 120 AND length(number) BETWEEN 1 AND 60);
ALTER TABLE torque_record
  ADD CONSTRAINT torque_positive CHECK (torque > 0 AND drag >= 0 AND setting > 0),
  ADD CONSTRAINT torque_arm_whole CHECK (num_nonnulls(lever, extension) <> 1 AND (lever IS NULL OR (lever > 0 AND lever + extension > 0))),
  ADD CONSTRAINT general_torque_names_thread CHECK ((source = 'general') = (thread <> '' AND nut IS NOT NULL)),
  ADD CONSTRAINT lapsed_tool_has_reason CHECK (NOT lapsed OR reason <> '');
ALTER TABLE compression_check
  ADD CONSTRAINT compression_sensible CHECK (supply BETWEEN 1 AND 200 AND cardinality(held) BETWEEN 1 AND 18 AND 0 <= ALL (held) AND supply >= ALL (held));
