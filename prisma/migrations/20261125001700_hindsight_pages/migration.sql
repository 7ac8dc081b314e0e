-- Back-tests are computed in the background and kept; a fitted model brings the times that it cannot believe.

-- AlterTable
ALTER TABLE "hours_model" ADD COLUMN     "odd_times" JSONB NOT NULL DEFAULT '[]';

-- CreateTable
CREATE TABLE "hours_backtest" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "number" INTEGER NOT NULL DEFAULT take_number('hours_backtest'::text),
    "model_number" INTEGER NOT NULL,
    "version" TEXT NOT NULL,
    "items" INTEGER NOT NULL,
    "scored" INTEGER NOT NULL,
    "result" JSONB NOT NULL,
    "computed_at" TIMESTAMPTZ(3) NOT NULL,
    "ms" INTEGER NOT NULL,
    "asked_by_id" UUID,

    CONSTRAINT "hours_backtest_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "backtest_run" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "asked_at" TIMESTAMPTZ(3) NOT NULL,
    "asked_by_id" UUID,
    "due_at" TIMESTAMPTZ(3) NOT NULL,
    "started_at" TIMESTAMPTZ(3),
    "moved_at" TIMESTAMPTZ(3),
    "months_done" INTEGER NOT NULL DEFAULT 0,
    "months_all" INTEGER NOT NULL DEFAULT 0,
    "problem" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "backtest_run_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "hours_backtest_shop_id_number_key" ON "hours_backtest"("shop_id", "number");

-- CreateIndex
CREATE UNIQUE INDEX "hours_backtest_shop_id_id_key" ON "hours_backtest"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "backtest_run_shop_id_key" ON "backtest_run"("shop_id");

-- CreateIndex
CREATE UNIQUE INDEX "backtest_run_shop_id_id_key" ON "backtest_run"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "hours_backtest" ADD CONSTRAINT "hours_backtest_shop_id_asked_by_id_fkey" FOREIGN KEY ("shop_id", "asked_by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "backtest_run" ADD CONSTRAINT "backtest_run_shop_id_asked_by_id_fkey" FOREIGN KEY ("shop_id", "asked_by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop(each) FROM unnest('{hours_backtest,backtest_run}'::regclass[]) AS each;
-- Neither is audited: both are computed from what is.
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON hours_backtest FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON hours_backtest FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
GRANT UPDATE, DELETE ON backtest_run TO fairlead_shop;

ALTER TABLE hours_backtest
  ADD CONSTRAINT backtest_counts_sensible CHECK (least(model_number, items, scored, ms) >= 0 AND scored <= items);
ALTER TABLE backtest_run
  ADD CONSTRAINT run_counts_sensible CHECK (months_done BETWEEN 0 AND months_all),
  ADD CONSTRAINT run_has_begun_before_it_moves CHECK (moved_at IS NULL OR started_at IS NOT NULL);
ALTER TABLE hours_model ADD CONSTRAINT odd_times_listed CHECK (jsonb_typeof(odd_times) = 'array');

-- Known before the first worker runs, so that what is asked for early waits for it.
SET LOCAL ROLE fairlead_jobs;
INSERT INTO jobs.known_task (name) VALUES ('backtest_hours') ON CONFLICT DO NOTHING;
RESET ROLE;
