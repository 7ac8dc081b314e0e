-- When the shop's hours were last fitted, whether or not the fit said anything new; and who waits for a fit.

-- CreateTable
CREATE TABLE "refit_run" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "ended_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "refit_run_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "refit_run_shop_id_key" ON "refit_run"("shop_id");

-- CreateIndex
CREATE UNIQUE INDEX "refit_run_shop_id_id_key" ON "refit_run"("shop_id", "id");

SELECT keep_to_one_shop('refit_run');
-- A workbench, not audited: it says when the worker was done, and nothing else.
GRANT UPDATE ON refit_run TO fairlead_shop;

-- Shops that have clocked something and have no model of this version of the program: its first start, or one after an update.
CREATE FUNCTION shops_to_fit(wanted text) RETURNS SETOF uuid
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT s.id FROM shop s
  WHERE NOT EXISTS (SELECT FROM hours_model m WHERE m.shop_id = s.id AND m.version = wanted AND m.items > 0)
    AND (EXISTS (SELECT FROM history_item h WHERE h.shop_id = s.id)
      OR EXISTS (SELECT FROM item_event e WHERE e.shop_id = s.id AND e.kind = 'done'))
  ORDER BY s.id
$$;
REVOKE ALL ON FUNCTION shops_to_fit(text) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION shops_to_fit(text) TO fairlead_jobs;

-- A request under a known key replaces what waits, or leaves it the moment that it has.
SET LOCAL ROLE fairlead_jobs;
DROP FUNCTION jobs.enqueue(text, jsonb, text, text, timestamptz, integer);
CREATE FUNCTION jobs.enqueue(
  task         text,
  payload      jsonb DEFAULT '{}',
  job_key      text DEFAULT NULL,
  queue        text DEFAULT NULL,
  run_at       timestamptz DEFAULT NULL,
  max_attempts integer DEFAULT 25,
  key_mode     text DEFAULT 'replace'
) RETURNS bigint
LANGUAGE plpgsql
SECURITY DEFINER
SET search_path = pg_catalog, pg_temp
AS $$
DECLARE
  shop   text := nullif(current_setting('app.shop_id', true), '');
  job_id bigint;
BEGIN
  IF shop IS NULL THEN
    RAISE EXCEPTION 'No job can be asked for outside a shop: app.shop_id is not set in this transaction'
      USING ERRCODE = 'insufficient_privilege';
  END IF;
  IF NOT EXISTS (SELECT FROM jobs.known_task AS known WHERE known.name = task) THEN
    RAISE EXCEPTION 'There is no job called "%"', task USING ERRCODE = 'invalid_parameter_value';
  END IF;
  IF jsonb_typeof(payload) IS DISTINCT FROM 'object' THEN
    RAISE EXCEPTION 'The payload of job "%" must be an object and is %', task, coalesce(jsonb_typeof(payload), 'missing')
      USING ERRCODE = 'invalid_parameter_value';
  END IF;
  SELECT job.id INTO job_id
    FROM graphile_worker.add_job(
      identifier   => task,
      payload      => (payload || jsonb_build_object('shopId', shop))::json,
      queue_name   => shop || ':' || queue,
      run_at       => run_at,
      max_attempts => max_attempts,
      job_key      => shop || ':' || task || ':' || job_key,
      job_key_mode => key_mode
    ) AS job;
  RETURN job_id;
END
$$;
REVOKE ALL ON FUNCTION jobs.enqueue FROM PUBLIC;
GRANT EXECUTE ON FUNCTION jobs.enqueue TO fairlead_shop;
RESET ROLE;
