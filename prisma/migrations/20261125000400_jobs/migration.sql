-- The one door from the shop to the job queue. The queue's tables have row-level security and no policies, and their schema
-- is closed to the shop's role; this function runs as the queue's owner instead and does one thing.

SET LOCAL ROLE fairlead_jobs;

-- Only a job that somebody will do can be asked for. The worker and the provisioning step fill this list.
CREATE TABLE jobs.known_task (
  name text PRIMARY KEY CHECK (name ~ '^[a-z][a-z0-9_-]{0,62}$')
);

-- Written in plpgsql because its body is looked up when it runs: the queue's tables come after the migrations.
--
-- The shop of the job is the shop of the transaction, never an argument. Key and queue are kept apart by shop, so that no
-- shop can replace or hold up another's job.
CREATE FUNCTION jobs.enqueue(
  task         text,
  payload      jsonb DEFAULT '{}',
  job_key      text DEFAULT NULL,
  queue        text DEFAULT NULL,
  run_at       timestamptz DEFAULT NULL,
  max_attempts integer DEFAULT 25
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
      job_key      => shop || ':' || task || ':' || job_key
    ) AS job;
  RETURN job_id;
END
$$;

REVOKE ALL ON FUNCTION jobs.enqueue FROM PUBLIC;
GRANT EXECUTE ON FUNCTION jobs.enqueue TO fairlead_shop;
GRANT USAGE ON SCHEMA jobs TO fairlead_shop;

RESET ROLE;
