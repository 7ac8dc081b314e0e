-- What falls due on an aircraft, what was done about it, and the addresses from which calendars read it.
-- CreateEnum
CREATE TYPE "due_kind" AS ENUM ('inspection', 'directive', 'bulletin', 'limit', 'overhaul');

-- CreateEnum
CREATE TYPE "due_rule" AS ENUM ('hundred_hour', 'annual', 'calendar_months', 'recurring', 'life_limit', 'once');

-- CreateEnum
CREATE TYPE "due_event_kind" AS ENUM ('complied', 'ended');

-- CreateTable
CREATE TABLE "due_item" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "aircraft_id" UUID NOT NULL,
    "component_id" UUID,
    "task_id" UUID,
    "kind" "due_kind" NOT NULL,
    "title" TEXT NOT NULL,
    "number" TEXT NOT NULL DEFAULT '',
    "revision" TEXT NOT NULL DEFAULT '',
    "source" TEXT NOT NULL,
    "rule" "due_rule" NOT NULL,
    "every_hundredths" INTEGER,
    "every_months" INTEGER,
    "every_calendar_months" INTEGER,
    "every_days" INTEGER,
    "limit_hundredths" INTEGER,
    "limit_date" DATE,
    "whichever_last" BOOLEAN NOT NULL DEFAULT false,
    "added_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "added_by_id" UUID NOT NULL,

    CONSTRAINT "due_item_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "due_event" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "item_id" UUID NOT NULL,
    "kind" "due_event_kind" NOT NULL,
    "done_on" DATE NOT NULL,
    "tis_hundredths" INTEGER,
    "due_at_hundredths" INTEGER,
    "method" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "due_event_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "due_feed" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "aircraft_id" UUID,
    "secret_hash" BYTEA NOT NULL,
    "made_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "made_by_id" UUID NOT NULL,
    "revoked_at" TIMESTAMPTZ(3),

    CONSTRAINT "due_feed_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "due_item_shop_id_aircraft_id_idx" ON "due_item"("shop_id", "aircraft_id");

-- CreateIndex
CREATE UNIQUE INDEX "due_item_shop_id_id_key" ON "due_item"("shop_id", "id");

-- CreateIndex
CREATE INDEX "due_event_shop_id_item_id_idx" ON "due_event"("shop_id", "item_id");

-- CreateIndex
CREATE UNIQUE INDEX "due_event_shop_id_id_key" ON "due_event"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "due_feed_secret_hash_key" ON "due_feed"("secret_hash");

-- CreateIndex
CREATE INDEX "due_feed_shop_id_aircraft_id_idx" ON "due_feed"("shop_id", "aircraft_id");

-- CreateIndex
CREATE UNIQUE INDEX "due_feed_shop_id_id_key" ON "due_feed"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "due_item" ADD CONSTRAINT "due_item_shop_id_aircraft_id_fkey" FOREIGN KEY ("shop_id", "aircraft_id") REFERENCES "aircraft"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "due_item" ADD CONSTRAINT "due_item_shop_id_component_id_fkey" FOREIGN KEY ("shop_id", "component_id") REFERENCES "component"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "due_item" ADD CONSTRAINT "due_item_shop_id_task_id_fkey" FOREIGN KEY ("shop_id", "task_id") REFERENCES "task"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "due_item" ADD CONSTRAINT "due_item_shop_id_added_by_id_fkey" FOREIGN KEY ("shop_id", "added_by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "due_event" ADD CONSTRAINT "due_event_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "due_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "due_event" ADD CONSTRAINT "due_event_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "due_feed" ADD CONSTRAINT "due_feed_shop_id_aircraft_id_fkey" FOREIGN KEY ("shop_id", "aircraft_id") REFERENCES "aircraft"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;


SELECT keep_to_one_shop(each), keep_audit_of(each) FROM unnest('{due_item,due_event,due_feed}'::regclass[]) AS each;
DO $$
DECLARE fact text;
BEGIN
  FOREACH fact IN ARRAY ARRAY['due_item', 'due_event'] LOOP
    EXECUTE format('CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', fact);
    EXECUTE format('CREATE TRIGGER never_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', fact);
  END LOOP;
END $$;
GRANT UPDATE (revoked_at) ON due_feed TO fairlead_shop;

ALTER TABLE due_item ADD CONSTRAINT due_terms_sensible CHECK (
  coalesce(every_hundredths, 1) > 0 AND coalesce(every_months, 1) > 0 AND coalesce(every_calendar_months, 1) > 0
  AND coalesce(every_days, 1) > 0 AND coalesce(limit_hundredths, 1) > 0
  AND CASE rule
    WHEN 'calendar_months' THEN every_calendar_months IS NOT NULL
    WHEN 'recurring' THEN num_nonnulls(every_hundredths, every_months, every_calendar_months, every_days) > 0
    WHEN 'life_limit' THEN limit_hundredths IS NOT NULL OR limit_date IS NOT NULL
    WHEN 'once' THEN limit_hundredths IS NOT NULL OR limit_date IS NOT NULL
    ELSE true END);
ALTER TABLE due_event ADD CONSTRAINT due_event_hours_not_below_zero CHECK (coalesce(tis_hundredths, 0) >= 0 AND coalesce(due_at_hundredths, 0) >= 0);

-- A calendar program sends no cookie: the address is the key. Told by its hash, once.
CREATE FUNCTION resolve_due_feed(hash bytea) RETURNS TABLE (shop_id uuid, aircraft_id uuid)
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT f.shop_id, f.aircraft_id FROM due_feed f WHERE f.secret_hash = hash AND f.revoked_at IS NULL
$$;
REVOKE ALL ON FUNCTION resolve_due_feed(bytea) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION resolve_due_feed(bytea) TO fairlead_link;
