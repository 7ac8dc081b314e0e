-- Hours come from a fitted model: kept, numbered, named by every quote that it made. Its access priors are a table that the
-- manager edits, and what a person decided about an odd time is kept beside the clock's own events.

-- CreateEnum
CREATE TYPE "time_verdict" AS ENUM ('stands', 'left_out', 'taken_as', 'other_task');

-- AlterTable
ALTER TABLE "quote_line" ADD COLUMN     "asked" JSONB;

-- AlterTable
ALTER TABLE "quote_revision" ADD COLUMN     "hours_model_id" UUID,
ADD COLUMN     "hours_seed" INTEGER;

-- CreateTable
CREATE TABLE "hours_priors" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "revision" INTEGER NOT NULL DEFAULT take_number('hours_priors'::text),
    "access" JSONB NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "saved_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "saved_by_id" UUID NOT NULL,

    CONSTRAINT "hours_priors_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "hours_model" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "number" INTEGER NOT NULL DEFAULT take_number('hours_model'::text),
    "fitted_at" TIMESTAMPTZ(3) NOT NULL,
    "version" TEXT NOT NULL,
    "content" BYTEA NOT NULL,
    "sha256" CHAR(64) NOT NULL,
    "priors_id" UUID,
    "items" INTEGER NOT NULL,
    "censored" INTEGER NOT NULL,
    "odd" INTEGER NOT NULL,
    "residual_sd" DOUBLE PRECISION NOT NULL,
    "settled" BOOLEAN NOT NULL,
    "fit_ms" INTEGER NOT NULL,

    CONSTRAINT "hours_model_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "time_review" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "item_id" UUID,
    "history_item_id" UUID,
    "verdict" "time_verdict" NOT NULL,
    "hours" DOUBLE PRECISION,
    "task" TEXT,
    "proposed" JSONB NOT NULL,
    "reason" TEXT NOT NULL,
    "decided_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "decided_by_id" UUID NOT NULL,

    CONSTRAINT "time_review_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "hours_priors_shop_id_revision_key" ON "hours_priors"("shop_id", "revision");

-- CreateIndex
CREATE UNIQUE INDEX "hours_priors_shop_id_id_key" ON "hours_priors"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "hours_model_shop_id_number_key" ON "hours_model"("shop_id", "number");

-- CreateIndex
CREATE UNIQUE INDEX "hours_model_shop_id_id_key" ON "hours_model"("shop_id", "id");

-- CreateIndex
CREATE INDEX "time_review_shop_id_item_id_idx" ON "time_review"("shop_id", "item_id");

-- CreateIndex
CREATE INDEX "time_review_shop_id_history_item_id_idx" ON "time_review"("shop_id", "history_item_id");

-- CreateIndex
CREATE UNIQUE INDEX "time_review_shop_id_id_key" ON "time_review"("shop_id", "id");

-- CreateIndex
CREATE INDEX "quote_revision_shop_id_hours_model_id_idx" ON "quote_revision"("shop_id", "hours_model_id");

-- AddForeignKey
ALTER TABLE "hours_priors" ADD CONSTRAINT "hours_priors_shop_id_saved_by_id_fkey" FOREIGN KEY ("shop_id", "saved_by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "hours_model" ADD CONSTRAINT "hours_model_shop_id_priors_id_fkey" FOREIGN KEY ("shop_id", "priors_id") REFERENCES "hours_priors"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "time_review" ADD CONSTRAINT "time_review_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "time_review" ADD CONSTRAINT "time_review_shop_id_history_item_id_fkey" FOREIGN KEY ("shop_id", "history_item_id") REFERENCES "history_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "time_review" ADD CONSTRAINT "time_review_shop_id_decided_by_id_fkey" FOREIGN KEY ("shop_id", "decided_by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "quote_revision" ADD CONSTRAINT "quote_revision_shop_id_hours_model_id_fkey" FOREIGN KEY ("shop_id", "hours_model_id") REFERENCES "hours_model"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop(each) FROM unnest('{hours_priors,hours_model,time_review}'::regclass[]) AS each;
-- Not the model: it is computed, large, and its digest stands beside it.
SELECT keep_audit_of(each) FROM unnest('{hours_priors,time_review}'::regclass[]) AS each;

CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON hours_priors FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON time_review FOR EACH ROW EXECUTE FUNCTION refuse_change();
-- A model that no quote names may be put away; none is ever changed.
CREATE TRIGGER never_changed BEFORE UPDATE ON hours_model FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON hours_priors FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON time_review FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON hours_model FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
GRANT DELETE ON hours_model TO fairlead_shop;

ALTER TABLE hours_model
  ADD CONSTRAINT model_counts_sensible CHECK (least(items, censored, odd, fit_ms) >= 0 AND censored <= items AND residual_sd > 0),
  ADD CONSTRAINT model_has_digest CHECK (sha256 ~ '^[0-9a-f]{64}$');
ALTER TABLE time_review
  ADD CONSTRAINT review_of_one_time CHECK (num_nonnulls(item_id, history_item_id) = 1),
  ADD CONSTRAINT review_says_what_for CHECK ((verdict = 'taken_as') = (hours IS NOT NULL) AND (verdict = 'other_task') = (task IS NOT NULL)),
  ADD CONSTRAINT review_hours_sensible CHECK (hours IS NULL OR (hours > 0 AND hours < 'infinity')),
  ADD CONSTRAINT review_has_reason CHECK (length(reason) BETWEEN 3 AND 2000);

-- Where each past job comes from, so that a person can decide about it; and work given up is a lower bound.
CREATE OR REPLACE VIEW labour_history WITH (security_invoker = true) AS
  SELECT h.shop_id, h.completed_on, h.task, h.jasc, h.standard_hours::float8 AS standard_hours, h.model, h.registration,
    h.mechanics, h.hours, h.censored, a.clearance_mm, a.sight, a.posture, a.reach, a.swing_deg, a.held, a.locked_fasteners,
    h.id AS history_item_id, NULL::uuid AS item_id
  FROM history_item h LEFT JOIN access a ON a.shop_id = h.shop_id AND a.id = h.access_id
  UNION ALL
  SELECT i.shop_id, last.at::date, t.key, i.jasc, t.standard_hours::float8, m.maker || ' ' || m.name, c.registration,
    worked.mechanics, worked.hours, last.kind = 'put_off', a.clearance_mm, a.sight, a.posture, a.reach, a.swing_deg, a.held, a.locked_fasteners,
    NULL::uuid, i.id
  FROM work_item i
  JOIN task t ON t.shop_id = i.shop_id AND t.id = i.task_id
  JOIN work_order o ON o.shop_id = i.shop_id AND o.id = i.order_id
  JOIN aircraft c ON c.shop_id = o.shop_id AND c.id = o.aircraft_id
  JOIN aircraft_model m ON m.shop_id = c.shop_id AND m.id = c.model_id
  JOIN LATERAL (SELECT e.kind, e.at, e.found_access_id FROM item_event e
    WHERE e.shop_id = i.shop_id AND e.item_id = i.id AND e.kind IN ('done', 'reopened', 'put_off') ORDER BY e.at DESC, e.id DESC LIMIT 1) last
    ON last.kind IN ('done', 'put_off')
  JOIN LATERAL (SELECT sum(p.hours) AS hours, jsonb_agg(jsonb_build_object('name', n.name, 'share', p.hours) ORDER BY n.name, n.id) AS mechanics
    FROM (SELECT s.person_id, sum(extract(epoch FROM s.ended_at - s.started_at))::float8 / 3600 AS hours FROM stretch s
      WHERE s.shop_id = i.shop_id AND s.item_id = i.id AND s.ended_at IS NOT NULL GROUP BY s.person_id) p
    JOIN person n ON n.shop_id = i.shop_id AND n.id = p.person_id) worked ON worked.hours > 0
  LEFT JOIN access a ON a.shop_id = i.shop_id AND a.id = coalesce(last.found_access_id, i.planned_access_id);

-- Known before the first worker runs, so that what closes early waits for it.
SET LOCAL ROLE fairlead_jobs;
INSERT INTO jobs.known_task (name) VALUES ('refit_hours') ON CONFLICT DO NOTHING;
RESET ROLE;
