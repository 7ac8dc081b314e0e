-- What has to reach the authority within hours, who sent it; and maintenance data whose revision is looked up.
-- CreateEnum
CREATE TYPE "duty_kind" AS ENUM ('major_form', 'defect_report');

-- CreateTable
CREATE TABLE "duty" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID NOT NULL,
    "kind" "duty_kind" NOT NULL,
    "words" TEXT NOT NULL,
    "runs_from" TIMESTAMPTZ(3) NOT NULL,
    "due_at" TIMESTAMPTZ(3) NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "duty_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "duty_done" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "duty_id" UUID NOT NULL,
    "words" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "duty_done_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "data_source" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "title" TEXT NOT NULL,
    "every_days" INTEGER NOT NULL,
    "added_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "added_by_id" UUID NOT NULL,

    CONSTRAINT "data_source_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "data_check" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "source_id" UUID NOT NULL,
    "revision" TEXT NOT NULL,
    "checked_on" DATE NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "data_check_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "duty_shop_id_order_id_idx" ON "duty"("shop_id", "order_id");

-- CreateIndex
CREATE UNIQUE INDEX "duty_shop_id_id_key" ON "duty"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "duty_done_shop_id_duty_id_key" ON "duty_done"("shop_id", "duty_id");

-- CreateIndex
CREATE UNIQUE INDEX "duty_done_shop_id_id_key" ON "duty_done"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "data_source_shop_id_title_key" ON "data_source"("shop_id", "title");

-- CreateIndex
CREATE UNIQUE INDEX "data_source_shop_id_id_key" ON "data_source"("shop_id", "id");

-- CreateIndex
CREATE INDEX "data_check_shop_id_source_id_idx" ON "data_check"("shop_id", "source_id");

-- CreateIndex
CREATE UNIQUE INDEX "data_check_shop_id_id_key" ON "data_check"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "duty" ADD CONSTRAINT "duty_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "duty" ADD CONSTRAINT "duty_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "duty_done" ADD CONSTRAINT "duty_done_shop_id_duty_id_fkey" FOREIGN KEY ("shop_id", "duty_id") REFERENCES "duty"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "duty_done" ADD CONSTRAINT "duty_done_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "data_source" ADD CONSTRAINT "data_source_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "data_check" ADD CONSTRAINT "data_check_shop_id_source_id_fkey" FOREIGN KEY ("shop_id", "source_id") REFERENCES "data_source"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "data_check" ADD CONSTRAINT "data_check_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop(each), keep_audit_of(each) FROM unnest('{duty,duty_done,data_source,data_check}'::regclass[]) AS each;
DO $$
DECLARE fact text;
BEGIN
  FOREACH fact IN ARRAY ARRAY['duty', 'duty_done', 'data_source', 'data_check'] LOOP
    EXECUTE format('CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', fact);
    EXECUTE format('CREATE TRIGGER never_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', fact);
  END LOOP;
END $$;
ALTER TABLE duty ADD CONSTRAINT duty_runs_its_hours CHECK (due_at = runs_from + CASE kind WHEN 'major_form' THEN interval '48 hours' ELSE interval '96 hours' END);
ALTER TABLE data_source ADD CONSTRAINT data_looked_up_at_times CHECK (every_days BETWEEN 1 AND 3660);
