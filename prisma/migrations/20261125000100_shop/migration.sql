-- What the tables' own defaults call. The tables below are as Prisma draws them from prisma/schema.

-- RFC 9562 version 7: 48 bits of Unix milliseconds, then random bits (PostgreSQL 18 has its own; 15 has not).
CREATE FUNCTION uuid_v7() RETURNS uuid LANGUAGE sql VOLATILE PARALLEL SAFE AS $$
  SELECT (lpad(to_hex(floor(extract(epoch FROM clock_timestamp()) * 1000)::bigint), 12, '0')
    || '7' || substr(random_hex, 14, 3) || substr(random_hex, 17, 16))::uuid
  FROM (SELECT replace(gen_random_uuid()::text, '-', '') AS random_hex) AS source
$$;

-- The shop of this transaction, set by the application when it opens one. Null sees nothing.
CREATE FUNCTION current_shop() RETURNS uuid LANGUAGE sql STABLE PARALLEL SAFE AS $$
  SELECT nullif(current_setting('app.shop_id', true), '')::uuid
$$;

-- The next number of a kind in this shop. The counter's row stays locked to the end of the
-- transaction, so a number that is rolled back is given again: no gaps.
CREATE FUNCTION take_number(wanted text) RETURNS integer
LANGUAGE plpgsql VOLATILE SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE taken integer;
BEGIN
  INSERT INTO counter AS c (shop_id, kind, next) VALUES (current_shop(), wanted, 2)
  ON CONFLICT (shop_id, kind) DO UPDATE SET next = c.next + 1
  RETURNING next - 1 INTO taken;
  RETURN taken;
END $$;
REVOKE ALL ON FUNCTION take_number(text) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION take_number(text) TO fairlead_shop;


-- CreateEnum
CREATE TYPE "sight" AS ENUM ('direct', 'mirror', 'feel');

-- CreateEnum
CREATE TYPE "posture" AS ENUM ('upright', 'bent', 'lying');

-- CreateEnum
CREATE TYPE "reach" AS ENUM ('forearm', 'arm');

-- CreateEnum
CREATE TYPE "inspection_kind" AS ENUM ('hundred_hour', 'annual');

-- CreateEnum
CREATE TYPE "tax_category" AS ENUM ('labour', 'parts', 'supplies');

-- CreateEnum
CREATE TYPE "audit_action" AS ENUM ('insert', 'update', 'delete');

-- CreateEnum
CREATE TYPE "aircraft_kind" AS ENUM ('helicopter_two_seat', 'helicopter_four_seat', 'airplane_single', 'airplane_twin');

-- CreateEnum
CREATE TYPE "record_book_kind" AS ENUM ('airframe', 'engine', 'propeller', 'rotor');

-- CreateEnum
CREATE TYPE "component_kind" AS ENUM ('engine', 'propeller', 'rotor', 'gearbox', 'accessory');

-- CreateEnum
CREATE TYPE "meter" AS ENUM ('tachometer', 'engine_on', 'airborne');

-- CreateEnum
CREATE TYPE "stay_kind" AS ENUM ('planned', 'actual');

-- CreateEnum
CREATE TYPE "shop_standing" AS ENUM ('mechanics', 'repair_station');

-- CreateEnum
CREATE TYPE "billing_rounding" AS ENUM ('up', 'nearest');

-- CreateEnum
CREATE TYPE "role" AS ENUM ('front_desk', 'mechanic', 'inspector', 'manager');

-- CreateEnum
CREATE TYPE "certificate_kind" AS ENUM ('mechanic_airframe', 'mechanic_powerplant', 'inspection_authorization', 'repairman', 'repair_station_inspector', 'private_pilot');

-- CreateEnum
CREATE TYPE "capacity" AS ENUM ('owner', 'operator', 'payer');

-- CreateEnum
CREATE TYPE "pricing" AS ENUM ('fixed', 'time_and_materials', 'not_to_exceed');

-- CreateEnum
CREATE TYPE "channel" AS ENUM ('in_person', 'telephone', 'email', 'owner_page');

-- CreateEnum
CREATE TYPE "choice" AS ENUM ('go_ahead', 'not_now', 'talk_first');

-- CreateEnum
CREATE TYPE "entry_rule" AS ENUM ('maintenance', 'inspection');

-- CreateEnum
CREATE TYPE "movement_kind" AS ENUM ('receive', 'issue', 'return', 'scrap', 'count');

-- CreateEnum
CREATE TYPE "order_event_kind" AS ENUM ('arrived', 'released', 'closed', 'cancelled');

-- CreateEnum
CREATE TYPE "release_outcome" AS ENUM ('airworthy', 'not_airworthy_list_given');

-- CreateEnum
CREATE TYPE "item_event_kind" AS ENUM ('waiting', 'resumed', 'done', 'reopened', 'initialled', 'second_inspected', 'put_off');

-- CreateEnum
CREATE TYPE "waiting_for" AS ENUM ('parts', 'owner', 'bay', 'help', 'inspection');

-- CreateEnum
CREATE TYPE "clock_event_kind" AS ENUM ('start', 'switch', 'stop', 'correction');

-- CreateEnum
CREATE TYPE "finding_class" AS ENUM ('unairworthy', 'discrepancy', 'observation');

-- CreateEnum
CREATE TYPE "finding_event_kind" AS ENUM ('assessed', 'put_off');

-- CreateTable
CREATE TABLE "counter" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "kind" TEXT NOT NULL,
    "next" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "counter_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "invoice" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID NOT NULL,
    "contact_id" UUID NOT NULL,
    "number" INTEGER,
    "currency" CHAR(3) NOT NULL,
    "net_minor" BIGINT NOT NULL,
    "tax_minor" BIGINT NOT NULL,
    "gross_minor" BIGINT NOT NULL,
    "agreed_minor" BIGINT NOT NULL,
    "beyond_minor" BIGINT NOT NULL DEFAULT 0,
    "drafted_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "drafted_by_id" UUID,
    "issued_at" TIMESTAMPTZ(3),
    "issued_by_id" UUID,
    "due_on" DATE,
    "credits_id" UUID,

    CONSTRAINT "invoice_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "invoice_line" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "invoice_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,
    "title" TEXT NOT NULL,
    "category" "tax_category" NOT NULL,
    "quote_line_id" UUID,
    "item_id" UUID,
    "lot_id" UUID,
    "quantity" DECIMAL(12,3) NOT NULL,
    "unit" TEXT NOT NULL,
    "unit_price" DECIMAL(14,4) NOT NULL,
    "net_minor" BIGINT NOT NULL,
    "tax_code" VARCHAR(2) NOT NULL,
    "tax_rate" DECIMAL(7,4) NOT NULL,

    CONSTRAINT "invoice_line_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "payment" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "invoice_id" UUID NOT NULL,
    "amount_minor" BIGINT NOT NULL,
    "method" TEXT NOT NULL,
    "paid_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "recorded_by_id" UUID,

    CONSTRAINT "payment_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "access" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "clearance_mm" INTEGER,
    "sight" "sight",
    "posture" "posture",
    "reach" "reach",
    "swing_deg" INTEGER,
    "held" BOOLEAN,
    "locked_fasteners" INTEGER,

    CONSTRAINT "access_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "task" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "key" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "jasc" CHAR(4) NOT NULL,
    "standard_hours" DECIMAL(7,3),
    "standard_access_id" UUID,
    "critical" BOOLEAN NOT NULL DEFAULT false,
    "cautions" TEXT[],
    "reference" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "task_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "task_place" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "task_id" UUID NOT NULL,
    "model_id" UUID NOT NULL,
    "access_id" UUID NOT NULL,

    CONSTRAINT "task_place_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "package" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "key" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "inspection" "inspection_kind",
    "model_kind" "aircraft_kind",
    "model_id" UUID,
    "revision" INTEGER NOT NULL DEFAULT 1,
    "price_minor" BIGINT,
    "made_from" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "package_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "package_task" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "package_id" UUID NOT NULL,
    "task_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,

    CONSTRAINT "package_task_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "part" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "number" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "unit" TEXT NOT NULL DEFAULT 'each',
    "unit_price" DECIMAL(14,4) NOT NULL,
    "category" "tax_category" NOT NULL DEFAULT 'parts',

    CONSTRAINT "part_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "labour_rate" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "kind" TEXT NOT NULL,
    "rate" DECIMAL(12,4) NOT NULL,
    "valid_from" DATE NOT NULL,

    CONSTRAINT "labour_rate_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "tax_rate" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "category" "tax_category" NOT NULL,
    "code" VARCHAR(2) NOT NULL,
    "rate" DECIMAL(7,4) NOT NULL,
    "valid_from" DATE NOT NULL,

    CONSTRAINT "tax_rate_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "audit" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "at" TIMESTAMPTZ(6) NOT NULL DEFAULT clock_timestamp(),
    "txid" BIGINT NOT NULL,
    "person_id" UUID,
    "request_id" TEXT,
    "table_name" TEXT NOT NULL,
    "row_id" UUID NOT NULL,
    "action" "audit_action" NOT NULL,
    "before" JSONB,
    "after" JSONB,

    CONSTRAINT "audit_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "chain_link" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "seq" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "subject_id" UUID,
    "payload" JSONB NOT NULL,
    "at" TIMESTAMPTZ(6) NOT NULL DEFAULT clock_timestamp(),
    "previous" BYTEA NOT NULL,
    "hash" BYTEA NOT NULL,

    CONSTRAINT "chain_link_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "chain_head" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "seq" INTEGER NOT NULL DEFAULT 0,
    "hash" BYTEA NOT NULL,
    "sealed_below" BIGINT NOT NULL DEFAULT 0,

    CONSTRAINT "chain_head_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "aircraft_model" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "maker" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "kind" "aircraft_kind" NOT NULL,
    "length_mm" INTEGER NOT NULL,
    "span_mm" INTEGER NOT NULL,
    "height_mm" INTEGER NOT NULL,
    "parked_length_mm" INTEGER NOT NULL,
    "parked_width_mm" INTEGER NOT NULL,

    CONSTRAINT "aircraft_model_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "aircraft" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "model_id" UUID NOT NULL,
    "registration" TEXT NOT NULL,
    "serial" TEXT NOT NULL,
    "year" INTEGER,

    CONSTRAINT "aircraft_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "record_book" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "aircraft_id" UUID NOT NULL,
    "kind" "record_book_kind" NOT NULL,
    "title" TEXT NOT NULL,

    CONSTRAINT "record_book_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "component" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "kind" "component_kind" NOT NULL,
    "title" TEXT NOT NULL,
    "part_number" TEXT NOT NULL,
    "serial" TEXT NOT NULL,
    "tis_hundredths" INTEGER NOT NULL,
    "life_limit_hundredths" INTEGER,

    CONSTRAINT "component_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "component_fitting" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "component_id" UUID NOT NULL,
    "aircraft_id" UUID NOT NULL,
    "position" TEXT NOT NULL,
    "fitted_at" TIMESTAMPTZ(3) NOT NULL,
    "removed_at" TIMESTAMPTZ(3),
    "aircraft_tis_hundredths" INTEGER NOT NULL,

    CONSTRAINT "component_fitting_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "meter_reading" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "aircraft_id" UUID NOT NULL,
    "order_id" UUID,
    "meter" "meter" NOT NULL,
    "reading_hundredths" INTEGER NOT NULL,
    "tis_hundredths" INTEGER NOT NULL,
    "read_at" TIMESTAMPTZ(3) NOT NULL,
    "read_by_id" UUID,

    CONSTRAINT "meter_reading_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "hangar" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "name" TEXT NOT NULL,
    "width_mm" INTEGER NOT NULL,
    "depth_mm" INTEGER NOT NULL,
    "door_from_mm" INTEGER NOT NULL,
    "door_width_mm" INTEGER NOT NULL,

    CONSTRAINT "hangar_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "stand" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "hangar_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "x_mm" INTEGER NOT NULL,
    "y_mm" INTEGER NOT NULL,
    "width_mm" INTEGER NOT NULL,
    "depth_mm" INTEGER NOT NULL,
    "heading_deg" INTEGER NOT NULL DEFAULT 180,

    CONSTRAINT "stand_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "stay" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "stand_id" UUID NOT NULL,
    "aircraft_id" UUID NOT NULL,
    "order_id" UUID,
    "kind" "stay_kind" NOT NULL,
    "starts_at" TIMESTAMPTZ(3) NOT NULL,
    "ends_at" TIMESTAMPTZ(3),

    CONSTRAINT "stay_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "history_import" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "file_name" TEXT NOT NULL,
    "file_sha256" CHAR(64) NOT NULL,
    "rows" INTEGER NOT NULL,
    "imported_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "history_import_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "history_item" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "import_id" UUID NOT NULL,
    "row_hash" CHAR(64) NOT NULL,
    "completed_on" DATE NOT NULL,
    "task" TEXT NOT NULL,
    "jasc" CHAR(4),
    "standard_hours" DECIMAL(7,3),
    "model" TEXT NOT NULL,
    "registration" TEXT NOT NULL,
    "mechanics" JSONB NOT NULL,
    "hours" DOUBLE PRECISION NOT NULL,
    "censored" BOOLEAN NOT NULL DEFAULT false,
    "access_id" UUID,

    CONSTRAINT "history_item_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "shop" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "name" TEXT NOT NULL,
    "place" TEXT NOT NULL,
    "time_zone" TEXT NOT NULL,
    "currency" CHAR(3) NOT NULL,
    "standing" "shop_standing" NOT NULL DEFAULT 'mechanics',
    "certificate_number" TEXT,
    "clearance_mm" INTEGER NOT NULL DEFAULT 1000,
    "billing_step" DECIMAL(4,2) NOT NULL DEFAULT 0.1,
    "billing_rounding" "billing_rounding" NOT NULL DEFAULT 'up',
    "time_in_service_basis" TEXT NOT NULL,

    CONSTRAINT "shop_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "person" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "name" TEXT NOT NULL,
    "initials" TEXT NOT NULL,
    "roles" "role"[],
    "apprentice" BOOLEAN NOT NULL DEFAULT false,
    "active" BOOLEAN NOT NULL DEFAULT true,

    CONSTRAINT "person_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "certificate" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "person_id" UUID NOT NULL,
    "kind" "certificate_kind" NOT NULL,
    "number" TEXT NOT NULL,
    "valid_from" DATE NOT NULL,
    "valid_until" DATE,

    CONSTRAINT "certificate_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "contact" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "name" TEXT NOT NULL,
    "email" TEXT,
    "phone" TEXT,
    "address" TEXT,

    CONSTRAINT "contact_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "aircraft_contact" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "aircraft_id" UUID NOT NULL,
    "contact_id" UUID NOT NULL,
    "capacity" "capacity" NOT NULL,
    "may_authorise_minor" BIGINT,
    "since" DATE NOT NULL,
    "until" DATE,

    CONSTRAINT "aircraft_contact_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "quote" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "number" INTEGER NOT NULL DEFAULT take_number('quote'::text),
    "aircraft_id" UUID NOT NULL,
    "contact_id" UUID NOT NULL,
    "package_id" UUID,
    "order_id" UUID,
    "finding_id" UUID,
    "title" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "quote_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "quote_revision" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "quote_id" UUID NOT NULL,
    "revision" INTEGER NOT NULL,
    "drafted_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "drafted_by_id" UUID,
    "expires_on" DATE NOT NULL,
    "terms" TEXT NOT NULL DEFAULT '',
    "currency" CHAR(3) NOT NULL,
    "low_minor" BIGINT NOT NULL,
    "likely_minor" BIGINT NOT NULL,
    "p80_minor" BIGINT NOT NULL,
    "high_minor" BIGINT NOT NULL,
    "tax_minor" BIGINT NOT NULL,
    "hours_p10" DECIMAL(12,6) NOT NULL,
    "hours_p50" DECIMAL(12,6) NOT NULL,
    "hours_mean" DECIMAL(12,6) NOT NULL,
    "hours_p80" DECIMAL(12,6) NOT NULL,
    "hours_p90" DECIMAL(12,6) NOT NULL,

    CONSTRAINT "quote_revision_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "quote_line" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "revision_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,
    "pricing" "pricing" NOT NULL,
    "task_id" UUID,
    "part_id" UUID,
    "access_id" UUID,
    "title" TEXT NOT NULL,
    "category" "tax_category" NOT NULL,
    "tax_code" VARCHAR(2) NOT NULL,
    "tax_rate" DECIMAL(7,4) NOT NULL,
    "quantity" DECIMAL(12,3) NOT NULL,
    "unit_price" DECIMAL(14,4) NOT NULL,
    "low_minor" BIGINT NOT NULL,
    "likely_minor" BIGINT NOT NULL,
    "p80_minor" BIGINT NOT NULL,
    "high_minor" BIGINT NOT NULL,
    "hours_p10" DECIMAL(12,6),
    "hours_p50" DECIMAL(12,6),
    "hours_mean" DECIMAL(12,6),
    "hours_p80" DECIMAL(12,6),
    "hours_p90" DECIMAL(12,6),
    "jobs" INTEGER,
    "because" JSONB,
    "model_version" TEXT,

    CONSTRAINT "quote_line_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "quote_sending" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "revision_id" UUID NOT NULL,
    "sent_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "sent_by_id" UUID,
    "channel" "channel" NOT NULL,

    CONSTRAINT "quote_sending_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "decision" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "revision_id" UUID NOT NULL,
    "contact_id" UUID NOT NULL,
    "choice" "choice" NOT NULL,
    "channel" "channel" NOT NULL,
    "words_shown" TEXT NOT NULL,
    "ceiling_minor" BIGINT,
    "currency" CHAR(3) NOT NULL,
    "decided_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "recorded_by_id" UUID,
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "decision_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "owner_link" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID,
    "quote_id" UUID,
    "contact_id" UUID NOT NULL,
    "secret_hash" BYTEA NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "revoked_at" TIMESTAMPTZ(3),

    CONSTRAINT "owner_link_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "record_entry" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID NOT NULL,
    "book_id" UUID NOT NULL,
    "rule" "entry_rule" NOT NULL,
    "inspection" "inspection_kind",
    "text" TEXT NOT NULL,
    "completed_on" DATE NOT NULL,
    "tis_hundredths" INTEGER NOT NULL,
    "outcome" "release_outcome" NOT NULL,
    "signed_by_id" UUID NOT NULL,
    "signed_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "signature" TEXT NOT NULL,
    "certificate_kind" "certificate_kind" NOT NULL,
    "certificate_number" TEXT NOT NULL,
    "corrects_id" UUID,

    CONSTRAINT "record_entry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "entry_item" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "entry_id" UUID NOT NULL,
    "item_id" UUID NOT NULL,

    CONSTRAINT "entry_item_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "entry_discrepancy" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "entry_id" UUID NOT NULL,
    "finding_id" UUID NOT NULL,
    "class" "finding_class" NOT NULL,
    "words" TEXT NOT NULL,

    CONSTRAINT "entry_discrepancy_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "lot" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "part_id" UUID NOT NULL,
    "supplier" TEXT NOT NULL,
    "batch" TEXT NOT NULL,
    "tag" TEXT NOT NULL DEFAULT '',
    "received_on" DATE NOT NULL,
    "shelf_life_until" DATE,
    "unit_cost" DECIMAL(14,4) NOT NULL,
    "bin" TEXT NOT NULL DEFAULT '',
    "on_hand" DECIMAL(12,3) NOT NULL DEFAULT 0,

    CONSTRAINT "lot_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "stock_movement" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "lot_id" UUID NOT NULL,
    "item_id" UUID,
    "kind" "movement_kind" NOT NULL,
    "quantity" DECIMAL(12,3) NOT NULL,
    "reason" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID,

    CONSTRAINT "stock_movement_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "work_order" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "number" INTEGER NOT NULL DEFAULT take_number('order'::text),
    "aircraft_id" UUID NOT NULL,
    "title" TEXT NOT NULL,
    "inspection" "inspection_kind",
    "planned_for" TIMESTAMPTZ(3),
    "opened_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "opened_by_id" UUID,

    CONSTRAINT "work_order_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "order_event" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID NOT NULL,
    "kind" "order_event_kind" NOT NULL,
    "outcome" "release_outcome",
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID,
    "note" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "order_event_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "squawk" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID NOT NULL,
    "words" TEXT NOT NULL,
    "reported_by" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "squawk_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "received_thing" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID NOT NULL,
    "what" TEXT NOT NULL,
    "received_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "returned_at" TIMESTAMPTZ(3),

    CONSTRAINT "received_thing_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "work_item" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,
    "task_id" UUID,
    "finding_id" UUID,
    "quote_line_id" UUID,
    "title" TEXT NOT NULL,
    "jasc" CHAR(4) NOT NULL,
    "critical" BOOLEAN NOT NULL DEFAULT false,
    "cautions" TEXT[],
    "reference" TEXT NOT NULL DEFAULT '',
    "planned_access_id" UUID,
    "opened_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "work_item_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "item_event" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "item_id" UUID NOT NULL,
    "kind" "item_event_kind" NOT NULL,
    "waiting_for" "waiting_for",
    "found_access_id" UUID,
    "work_done" TEXT NOT NULL DEFAULT '',
    "note" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "item_event_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "caution_reading" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "item_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "caution_reading_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "clock_event" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "person_id" UUID NOT NULL,
    "kind" "clock_event_kind" NOT NULL,
    "item_id" UUID,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "received_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "client_event_id" UUID NOT NULL,
    "corrects_id" UUID,
    "reason" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "clock_event_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "stretch" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "person_id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "started_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3),

    CONSTRAINT "stretch_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "finding" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "item_id" UUID,
    "title" TEXT NOT NULL,
    "words" TEXT NOT NULL DEFAULT '',
    "zone" TEXT NOT NULL DEFAULT '',
    "provisional_class" "finding_class" NOT NULL,
    "found_at" TIMESTAMPTZ(3) NOT NULL,
    "found_by_id" UUID NOT NULL,
    "client_event_id" UUID NOT NULL,

    CONSTRAINT "finding_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "finding_event" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "finding_id" UUID NOT NULL,
    "kind" "finding_event_kind" NOT NULL,
    "class" "finding_class",
    "meaning" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "finding_event_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "photo" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "sha256" CHAR(64) NOT NULL,
    "mime" TEXT NOT NULL,
    "width" INTEGER NOT NULL,
    "height" INTEGER NOT NULL,
    "bytes" INTEGER NOT NULL,
    "words" TEXT NOT NULL DEFAULT '',
    "added_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "added_by_id" UUID,

    CONSTRAINT "photo_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "finding_photo" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "finding_id" UUID NOT NULL,
    "photo_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,

    CONSTRAINT "finding_photo_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "counter_shop_id_kind_key" ON "counter"("shop_id", "kind");

-- CreateIndex
CREATE UNIQUE INDEX "counter_shop_id_id_key" ON "counter"("shop_id", "id");

-- CreateIndex
CREATE INDEX "invoice_shop_id_order_id_idx" ON "invoice"("shop_id", "order_id");

-- CreateIndex
CREATE UNIQUE INDEX "invoice_shop_id_number_key" ON "invoice"("shop_id", "number");

-- CreateIndex
CREATE UNIQUE INDEX "invoice_shop_id_id_key" ON "invoice"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "invoice_line_shop_id_invoice_id_position_key" ON "invoice_line"("shop_id", "invoice_id", "position");

-- CreateIndex
CREATE UNIQUE INDEX "invoice_line_shop_id_id_key" ON "invoice_line"("shop_id", "id");

-- CreateIndex
CREATE INDEX "payment_shop_id_invoice_id_idx" ON "payment"("shop_id", "invoice_id");

-- CreateIndex
CREATE UNIQUE INDEX "payment_shop_id_id_key" ON "payment"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "access_shop_id_id_key" ON "access"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "task_shop_id_key_key" ON "task"("shop_id", "key");

-- CreateIndex
CREATE UNIQUE INDEX "task_shop_id_id_key" ON "task"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "task_place_shop_id_task_id_model_id_key" ON "task_place"("shop_id", "task_id", "model_id");

-- CreateIndex
CREATE UNIQUE INDEX "task_place_shop_id_id_key" ON "task_place"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "package_shop_id_key_key" ON "package"("shop_id", "key");

-- CreateIndex
CREATE UNIQUE INDEX "package_shop_id_id_key" ON "package"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "package_task_shop_id_package_id_task_id_key" ON "package_task"("shop_id", "package_id", "task_id");

-- CreateIndex
CREATE UNIQUE INDEX "package_task_shop_id_id_key" ON "package_task"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "part_shop_id_number_key" ON "part"("shop_id", "number");

-- CreateIndex
CREATE UNIQUE INDEX "part_shop_id_id_key" ON "part"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "labour_rate_shop_id_kind_valid_from_key" ON "labour_rate"("shop_id", "kind", "valid_from");

-- CreateIndex
CREATE UNIQUE INDEX "labour_rate_shop_id_id_key" ON "labour_rate"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "tax_rate_shop_id_category_valid_from_key" ON "tax_rate"("shop_id", "category", "valid_from");

-- CreateIndex
CREATE UNIQUE INDEX "tax_rate_shop_id_id_key" ON "tax_rate"("shop_id", "id");

-- CreateIndex
CREATE INDEX "audit_shop_id_txid_idx" ON "audit"("shop_id", "txid");

-- CreateIndex
CREATE INDEX "audit_shop_id_table_name_row_id_idx" ON "audit"("shop_id", "table_name", "row_id");

-- CreateIndex
CREATE UNIQUE INDEX "audit_shop_id_id_key" ON "audit"("shop_id", "id");

-- CreateIndex
CREATE INDEX "chain_link_shop_id_kind_subject_id_idx" ON "chain_link"("shop_id", "kind", "subject_id");

-- CreateIndex
CREATE UNIQUE INDEX "chain_link_shop_id_seq_key" ON "chain_link"("shop_id", "seq");

-- CreateIndex
CREATE UNIQUE INDEX "chain_link_shop_id_id_key" ON "chain_link"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "chain_head_shop_id_key" ON "chain_head"("shop_id");

-- CreateIndex
CREATE UNIQUE INDEX "chain_head_shop_id_id_key" ON "chain_head"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "aircraft_model_shop_id_maker_name_key" ON "aircraft_model"("shop_id", "maker", "name");

-- CreateIndex
CREATE UNIQUE INDEX "aircraft_model_shop_id_id_key" ON "aircraft_model"("shop_id", "id");

-- CreateIndex
CREATE INDEX "aircraft_shop_id_model_id_idx" ON "aircraft"("shop_id", "model_id");

-- CreateIndex
CREATE UNIQUE INDEX "aircraft_shop_id_registration_key" ON "aircraft"("shop_id", "registration");

-- CreateIndex
CREATE UNIQUE INDEX "aircraft_shop_id_id_key" ON "aircraft"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "record_book_shop_id_aircraft_id_title_key" ON "record_book"("shop_id", "aircraft_id", "title");

-- CreateIndex
CREATE UNIQUE INDEX "record_book_shop_id_id_key" ON "record_book"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "component_shop_id_part_number_serial_key" ON "component"("shop_id", "part_number", "serial");

-- CreateIndex
CREATE UNIQUE INDEX "component_shop_id_id_key" ON "component"("shop_id", "id");

-- CreateIndex
CREATE INDEX "component_fitting_shop_id_aircraft_id_idx" ON "component_fitting"("shop_id", "aircraft_id");

-- CreateIndex
CREATE UNIQUE INDEX "component_fitting_shop_id_id_key" ON "component_fitting"("shop_id", "id");

-- CreateIndex
CREATE INDEX "meter_reading_shop_id_aircraft_id_read_at_idx" ON "meter_reading"("shop_id", "aircraft_id", "read_at");

-- CreateIndex
CREATE UNIQUE INDEX "meter_reading_shop_id_id_key" ON "meter_reading"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "hangar_shop_id_name_key" ON "hangar"("shop_id", "name");

-- CreateIndex
CREATE UNIQUE INDEX "hangar_shop_id_id_key" ON "hangar"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "stand_shop_id_hangar_id_name_key" ON "stand"("shop_id", "hangar_id", "name");

-- CreateIndex
CREATE UNIQUE INDEX "stand_shop_id_id_key" ON "stand"("shop_id", "id");

-- CreateIndex
CREATE INDEX "stay_shop_id_stand_id_starts_at_idx" ON "stay"("shop_id", "stand_id", "starts_at");

-- CreateIndex
CREATE INDEX "stay_shop_id_aircraft_id_idx" ON "stay"("shop_id", "aircraft_id");

-- CreateIndex
CREATE UNIQUE INDEX "stay_shop_id_id_key" ON "stay"("shop_id", "id");

-- CreateIndex
CREATE INDEX "history_import_shop_id_file_sha256_idx" ON "history_import"("shop_id", "file_sha256");

-- CreateIndex
CREATE UNIQUE INDEX "history_import_shop_id_id_key" ON "history_import"("shop_id", "id");

-- CreateIndex
CREATE INDEX "history_item_shop_id_task_idx" ON "history_item"("shop_id", "task");

-- CreateIndex
CREATE UNIQUE INDEX "history_item_shop_id_row_hash_key" ON "history_item"("shop_id", "row_hash");

-- CreateIndex
CREATE UNIQUE INDEX "history_item_shop_id_id_key" ON "history_item"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "person_shop_id_initials_key" ON "person"("shop_id", "initials");

-- CreateIndex
CREATE UNIQUE INDEX "person_shop_id_id_key" ON "person"("shop_id", "id");

-- CreateIndex
CREATE INDEX "certificate_shop_id_person_id_idx" ON "certificate"("shop_id", "person_id");

-- CreateIndex
CREATE UNIQUE INDEX "certificate_shop_id_id_key" ON "certificate"("shop_id", "id");

-- CreateIndex
CREATE INDEX "contact_shop_id_name_idx" ON "contact"("shop_id", "name");

-- CreateIndex
CREATE UNIQUE INDEX "contact_shop_id_id_key" ON "contact"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "aircraft_contact_shop_id_aircraft_id_contact_id_capacity_key" ON "aircraft_contact"("shop_id", "aircraft_id", "contact_id", "capacity");

-- CreateIndex
CREATE UNIQUE INDEX "aircraft_contact_shop_id_id_key" ON "aircraft_contact"("shop_id", "id");

-- CreateIndex
CREATE INDEX "quote_shop_id_aircraft_id_idx" ON "quote"("shop_id", "aircraft_id");

-- CreateIndex
CREATE INDEX "quote_shop_id_order_id_idx" ON "quote"("shop_id", "order_id");

-- CreateIndex
CREATE INDEX "quote_shop_id_finding_id_idx" ON "quote"("shop_id", "finding_id");

-- CreateIndex
CREATE UNIQUE INDEX "quote_shop_id_number_key" ON "quote"("shop_id", "number");

-- CreateIndex
CREATE UNIQUE INDEX "quote_shop_id_id_key" ON "quote"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "quote_revision_shop_id_quote_id_revision_key" ON "quote_revision"("shop_id", "quote_id", "revision");

-- CreateIndex
CREATE UNIQUE INDEX "quote_revision_shop_id_id_key" ON "quote_revision"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "quote_line_shop_id_revision_id_position_key" ON "quote_line"("shop_id", "revision_id", "position");

-- CreateIndex
CREATE UNIQUE INDEX "quote_line_shop_id_id_key" ON "quote_line"("shop_id", "id");

-- CreateIndex
CREATE INDEX "quote_sending_shop_id_revision_id_idx" ON "quote_sending"("shop_id", "revision_id");

-- CreateIndex
CREATE UNIQUE INDEX "quote_sending_shop_id_id_key" ON "quote_sending"("shop_id", "id");

-- CreateIndex
CREATE INDEX "decision_shop_id_revision_id_idx" ON "decision"("shop_id", "revision_id");

-- CreateIndex
CREATE UNIQUE INDEX "decision_shop_id_id_key" ON "decision"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "owner_link_secret_hash_key" ON "owner_link"("secret_hash");

-- CreateIndex
CREATE UNIQUE INDEX "owner_link_shop_id_id_key" ON "owner_link"("shop_id", "id");

-- CreateIndex
CREATE INDEX "record_entry_shop_id_order_id_idx" ON "record_entry"("shop_id", "order_id");

-- CreateIndex
CREATE INDEX "record_entry_shop_id_book_id_idx" ON "record_entry"("shop_id", "book_id");

-- CreateIndex
CREATE UNIQUE INDEX "record_entry_shop_id_id_key" ON "record_entry"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "entry_item_shop_id_entry_id_item_id_key" ON "entry_item"("shop_id", "entry_id", "item_id");

-- CreateIndex
CREATE UNIQUE INDEX "entry_item_shop_id_id_key" ON "entry_item"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "entry_discrepancy_shop_id_entry_id_finding_id_key" ON "entry_discrepancy"("shop_id", "entry_id", "finding_id");

-- CreateIndex
CREATE UNIQUE INDEX "entry_discrepancy_shop_id_id_key" ON "entry_discrepancy"("shop_id", "id");

-- CreateIndex
CREATE INDEX "lot_shop_id_part_id_idx" ON "lot"("shop_id", "part_id");

-- CreateIndex
CREATE UNIQUE INDEX "lot_shop_id_id_key" ON "lot"("shop_id", "id");

-- CreateIndex
CREATE INDEX "stock_movement_shop_id_lot_id_idx" ON "stock_movement"("shop_id", "lot_id");

-- CreateIndex
CREATE INDEX "stock_movement_shop_id_item_id_idx" ON "stock_movement"("shop_id", "item_id");

-- CreateIndex
CREATE UNIQUE INDEX "stock_movement_shop_id_id_key" ON "stock_movement"("shop_id", "id");

-- CreateIndex
CREATE INDEX "work_order_shop_id_aircraft_id_idx" ON "work_order"("shop_id", "aircraft_id");

-- CreateIndex
CREATE UNIQUE INDEX "work_order_shop_id_number_key" ON "work_order"("shop_id", "number");

-- CreateIndex
CREATE UNIQUE INDEX "work_order_shop_id_id_key" ON "work_order"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "order_event_shop_id_order_id_kind_key" ON "order_event"("shop_id", "order_id", "kind");

-- CreateIndex
CREATE UNIQUE INDEX "order_event_shop_id_id_key" ON "order_event"("shop_id", "id");

-- CreateIndex
CREATE INDEX "squawk_shop_id_order_id_idx" ON "squawk"("shop_id", "order_id");

-- CreateIndex
CREATE UNIQUE INDEX "squawk_shop_id_id_key" ON "squawk"("shop_id", "id");

-- CreateIndex
CREATE INDEX "received_thing_shop_id_order_id_idx" ON "received_thing"("shop_id", "order_id");

-- CreateIndex
CREATE UNIQUE INDEX "received_thing_shop_id_id_key" ON "received_thing"("shop_id", "id");

-- CreateIndex
CREATE INDEX "work_item_shop_id_task_id_idx" ON "work_item"("shop_id", "task_id");

-- CreateIndex
CREATE INDEX "work_item_shop_id_finding_id_idx" ON "work_item"("shop_id", "finding_id");

-- CreateIndex
CREATE UNIQUE INDEX "work_item_shop_id_order_id_position_key" ON "work_item"("shop_id", "order_id", "position");

-- CreateIndex
CREATE UNIQUE INDEX "work_item_shop_id_id_key" ON "work_item"("shop_id", "id");

-- CreateIndex
CREATE INDEX "item_event_shop_id_item_id_at_idx" ON "item_event"("shop_id", "item_id", "at");

-- CreateIndex
CREATE UNIQUE INDEX "item_event_shop_id_id_key" ON "item_event"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "caution_reading_shop_id_item_id_person_id_key" ON "caution_reading"("shop_id", "item_id", "person_id");

-- CreateIndex
CREATE UNIQUE INDEX "caution_reading_shop_id_id_key" ON "caution_reading"("shop_id", "id");

-- CreateIndex
CREATE INDEX "clock_event_shop_id_person_id_at_idx" ON "clock_event"("shop_id", "person_id", "at");

-- CreateIndex
CREATE UNIQUE INDEX "clock_event_shop_id_client_event_id_key" ON "clock_event"("shop_id", "client_event_id");

-- CreateIndex
CREATE UNIQUE INDEX "clock_event_shop_id_id_key" ON "clock_event"("shop_id", "id");

-- CreateIndex
CREATE INDEX "stretch_shop_id_item_id_idx" ON "stretch"("shop_id", "item_id");

-- CreateIndex
CREATE INDEX "stretch_shop_id_person_id_started_at_idx" ON "stretch"("shop_id", "person_id", "started_at");

-- CreateIndex
CREATE UNIQUE INDEX "stretch_shop_id_id_key" ON "stretch"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "finding_shop_id_client_event_id_key" ON "finding"("shop_id", "client_event_id");

-- CreateIndex
CREATE UNIQUE INDEX "finding_shop_id_order_id_number_key" ON "finding"("shop_id", "order_id", "number");

-- CreateIndex
CREATE UNIQUE INDEX "finding_shop_id_id_key" ON "finding"("shop_id", "id");

-- CreateIndex
CREATE INDEX "finding_event_shop_id_finding_id_idx" ON "finding_event"("shop_id", "finding_id");

-- CreateIndex
CREATE UNIQUE INDEX "finding_event_shop_id_id_key" ON "finding_event"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "photo_shop_id_id_key" ON "photo"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "finding_photo_shop_id_finding_id_photo_id_key" ON "finding_photo"("shop_id", "finding_id", "photo_id");

-- CreateIndex
CREATE UNIQUE INDEX "finding_photo_shop_id_id_key" ON "finding_photo"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "counter" ADD CONSTRAINT "counter_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "invoice" ADD CONSTRAINT "invoice_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "invoice" ADD CONSTRAINT "invoice_shop_id_contact_id_fkey" FOREIGN KEY ("shop_id", "contact_id") REFERENCES "contact"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "invoice" ADD CONSTRAINT "invoice_shop_id_credits_id_fkey" FOREIGN KEY ("shop_id", "credits_id") REFERENCES "invoice"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "invoice_line" ADD CONSTRAINT "invoice_line_shop_id_invoice_id_fkey" FOREIGN KEY ("shop_id", "invoice_id") REFERENCES "invoice"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "invoice_line" ADD CONSTRAINT "invoice_line_shop_id_quote_line_id_fkey" FOREIGN KEY ("shop_id", "quote_line_id") REFERENCES "quote_line"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "invoice_line" ADD CONSTRAINT "invoice_line_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "invoice_line" ADD CONSTRAINT "invoice_line_shop_id_lot_id_fkey" FOREIGN KEY ("shop_id", "lot_id") REFERENCES "lot"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "payment" ADD CONSTRAINT "payment_shop_id_invoice_id_fkey" FOREIGN KEY ("shop_id", "invoice_id") REFERENCES "invoice"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "access" ADD CONSTRAINT "access_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task" ADD CONSTRAINT "task_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task" ADD CONSTRAINT "task_shop_id_standard_access_id_fkey" FOREIGN KEY ("shop_id", "standard_access_id") REFERENCES "access"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task_place" ADD CONSTRAINT "task_place_shop_id_task_id_fkey" FOREIGN KEY ("shop_id", "task_id") REFERENCES "task"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task_place" ADD CONSTRAINT "task_place_shop_id_model_id_fkey" FOREIGN KEY ("shop_id", "model_id") REFERENCES "aircraft_model"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "task_place" ADD CONSTRAINT "task_place_shop_id_access_id_fkey" FOREIGN KEY ("shop_id", "access_id") REFERENCES "access"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "package" ADD CONSTRAINT "package_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "package" ADD CONSTRAINT "package_shop_id_model_id_fkey" FOREIGN KEY ("shop_id", "model_id") REFERENCES "aircraft_model"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "package_task" ADD CONSTRAINT "package_task_shop_id_package_id_fkey" FOREIGN KEY ("shop_id", "package_id") REFERENCES "package"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "package_task" ADD CONSTRAINT "package_task_shop_id_task_id_fkey" FOREIGN KEY ("shop_id", "task_id") REFERENCES "task"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "part" ADD CONSTRAINT "part_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "labour_rate" ADD CONSTRAINT "labour_rate_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "tax_rate" ADD CONSTRAINT "tax_rate_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "aircraft_model" ADD CONSTRAINT "aircraft_model_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "aircraft" ADD CONSTRAINT "aircraft_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "aircraft" ADD CONSTRAINT "aircraft_shop_id_model_id_fkey" FOREIGN KEY ("shop_id", "model_id") REFERENCES "aircraft_model"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "record_book" ADD CONSTRAINT "record_book_shop_id_aircraft_id_fkey" FOREIGN KEY ("shop_id", "aircraft_id") REFERENCES "aircraft"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "component" ADD CONSTRAINT "component_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "component_fitting" ADD CONSTRAINT "component_fitting_shop_id_component_id_fkey" FOREIGN KEY ("shop_id", "component_id") REFERENCES "component"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "component_fitting" ADD CONSTRAINT "component_fitting_shop_id_aircraft_id_fkey" FOREIGN KEY ("shop_id", "aircraft_id") REFERENCES "aircraft"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "meter_reading" ADD CONSTRAINT "meter_reading_shop_id_aircraft_id_fkey" FOREIGN KEY ("shop_id", "aircraft_id") REFERENCES "aircraft"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "meter_reading" ADD CONSTRAINT "meter_reading_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "hangar" ADD CONSTRAINT "hangar_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "stand" ADD CONSTRAINT "stand_shop_id_hangar_id_fkey" FOREIGN KEY ("shop_id", "hangar_id") REFERENCES "hangar"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "stay" ADD CONSTRAINT "stay_shop_id_stand_id_fkey" FOREIGN KEY ("shop_id", "stand_id") REFERENCES "stand"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "stay" ADD CONSTRAINT "stay_shop_id_aircraft_id_fkey" FOREIGN KEY ("shop_id", "aircraft_id") REFERENCES "aircraft"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "stay" ADD CONSTRAINT "stay_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "history_import" ADD CONSTRAINT "history_import_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "history_item" ADD CONSTRAINT "history_item_shop_id_import_id_fkey" FOREIGN KEY ("shop_id", "import_id") REFERENCES "history_import"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "history_item" ADD CONSTRAINT "history_item_shop_id_access_id_fkey" FOREIGN KEY ("shop_id", "access_id") REFERENCES "access"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "person" ADD CONSTRAINT "person_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "certificate" ADD CONSTRAINT "certificate_shop_id_person_id_fkey" FOREIGN KEY ("shop_id", "person_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "contact" ADD CONSTRAINT "contact_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "aircraft_contact" ADD CONSTRAINT "aircraft_contact_shop_id_aircraft_id_fkey" FOREIGN KEY ("shop_id", "aircraft_id") REFERENCES "aircraft"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "aircraft_contact" ADD CONSTRAINT "aircraft_contact_shop_id_contact_id_fkey" FOREIGN KEY ("shop_id", "contact_id") REFERENCES "contact"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "quote" ADD CONSTRAINT "quote_shop_id_aircraft_id_fkey" FOREIGN KEY ("shop_id", "aircraft_id") REFERENCES "aircraft"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "quote" ADD CONSTRAINT "quote_shop_id_contact_id_fkey" FOREIGN KEY ("shop_id", "contact_id") REFERENCES "contact"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "quote" ADD CONSTRAINT "quote_shop_id_package_id_fkey" FOREIGN KEY ("shop_id", "package_id") REFERENCES "package"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "quote" ADD CONSTRAINT "quote_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "quote" ADD CONSTRAINT "quote_shop_id_finding_id_fkey" FOREIGN KEY ("shop_id", "finding_id") REFERENCES "finding"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "quote_revision" ADD CONSTRAINT "quote_revision_shop_id_quote_id_fkey" FOREIGN KEY ("shop_id", "quote_id") REFERENCES "quote"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "quote_line" ADD CONSTRAINT "quote_line_shop_id_revision_id_fkey" FOREIGN KEY ("shop_id", "revision_id") REFERENCES "quote_revision"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "quote_line" ADD CONSTRAINT "quote_line_shop_id_task_id_fkey" FOREIGN KEY ("shop_id", "task_id") REFERENCES "task"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "quote_line" ADD CONSTRAINT "quote_line_shop_id_part_id_fkey" FOREIGN KEY ("shop_id", "part_id") REFERENCES "part"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "quote_line" ADD CONSTRAINT "quote_line_shop_id_access_id_fkey" FOREIGN KEY ("shop_id", "access_id") REFERENCES "access"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "quote_sending" ADD CONSTRAINT "quote_sending_shop_id_revision_id_fkey" FOREIGN KEY ("shop_id", "revision_id") REFERENCES "quote_revision"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "decision" ADD CONSTRAINT "decision_shop_id_revision_id_fkey" FOREIGN KEY ("shop_id", "revision_id") REFERENCES "quote_revision"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "decision" ADD CONSTRAINT "decision_shop_id_contact_id_fkey" FOREIGN KEY ("shop_id", "contact_id") REFERENCES "contact"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "owner_link" ADD CONSTRAINT "owner_link_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "record_entry" ADD CONSTRAINT "record_entry_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "record_entry" ADD CONSTRAINT "record_entry_shop_id_book_id_fkey" FOREIGN KEY ("shop_id", "book_id") REFERENCES "record_book"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "record_entry" ADD CONSTRAINT "record_entry_shop_id_signed_by_id_fkey" FOREIGN KEY ("shop_id", "signed_by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "record_entry" ADD CONSTRAINT "record_entry_shop_id_corrects_id_fkey" FOREIGN KEY ("shop_id", "corrects_id") REFERENCES "record_entry"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "entry_item" ADD CONSTRAINT "entry_item_shop_id_entry_id_fkey" FOREIGN KEY ("shop_id", "entry_id") REFERENCES "record_entry"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "entry_item" ADD CONSTRAINT "entry_item_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "entry_discrepancy" ADD CONSTRAINT "entry_discrepancy_shop_id_entry_id_fkey" FOREIGN KEY ("shop_id", "entry_id") REFERENCES "record_entry"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "entry_discrepancy" ADD CONSTRAINT "entry_discrepancy_shop_id_finding_id_fkey" FOREIGN KEY ("shop_id", "finding_id") REFERENCES "finding"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot" ADD CONSTRAINT "lot_shop_id_part_id_fkey" FOREIGN KEY ("shop_id", "part_id") REFERENCES "part"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "stock_movement" ADD CONSTRAINT "stock_movement_shop_id_lot_id_fkey" FOREIGN KEY ("shop_id", "lot_id") REFERENCES "lot"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "stock_movement" ADD CONSTRAINT "stock_movement_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "work_order" ADD CONSTRAINT "work_order_shop_id_aircraft_id_fkey" FOREIGN KEY ("shop_id", "aircraft_id") REFERENCES "aircraft"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "order_event" ADD CONSTRAINT "order_event_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "squawk" ADD CONSTRAINT "squawk_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "received_thing" ADD CONSTRAINT "received_thing_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "work_item" ADD CONSTRAINT "work_item_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "work_item" ADD CONSTRAINT "work_item_shop_id_task_id_fkey" FOREIGN KEY ("shop_id", "task_id") REFERENCES "task"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "work_item" ADD CONSTRAINT "work_item_shop_id_finding_id_fkey" FOREIGN KEY ("shop_id", "finding_id") REFERENCES "finding"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "work_item" ADD CONSTRAINT "work_item_shop_id_quote_line_id_fkey" FOREIGN KEY ("shop_id", "quote_line_id") REFERENCES "quote_line"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "work_item" ADD CONSTRAINT "work_item_shop_id_planned_access_id_fkey" FOREIGN KEY ("shop_id", "planned_access_id") REFERENCES "access"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "item_event" ADD CONSTRAINT "item_event_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "item_event" ADD CONSTRAINT "item_event_shop_id_found_access_id_fkey" FOREIGN KEY ("shop_id", "found_access_id") REFERENCES "access"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "item_event" ADD CONSTRAINT "item_event_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "caution_reading" ADD CONSTRAINT "caution_reading_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "clock_event" ADD CONSTRAINT "clock_event_shop_id_person_id_fkey" FOREIGN KEY ("shop_id", "person_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "clock_event" ADD CONSTRAINT "clock_event_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "clock_event" ADD CONSTRAINT "clock_event_shop_id_corrects_id_fkey" FOREIGN KEY ("shop_id", "corrects_id") REFERENCES "clock_event"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "stretch" ADD CONSTRAINT "stretch_shop_id_person_id_fkey" FOREIGN KEY ("shop_id", "person_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "stretch" ADD CONSTRAINT "stretch_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "finding" ADD CONSTRAINT "finding_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "finding" ADD CONSTRAINT "finding_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "finding" ADD CONSTRAINT "finding_shop_id_found_by_id_fkey" FOREIGN KEY ("shop_id", "found_by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "finding_event" ADD CONSTRAINT "finding_event_shop_id_finding_id_fkey" FOREIGN KEY ("shop_id", "finding_id") REFERENCES "finding"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "photo" ADD CONSTRAINT "photo_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "finding_photo" ADD CONSTRAINT "finding_photo_shop_id_finding_id_fkey" FOREIGN KEY ("shop_id", "finding_id") REFERENCES "finding"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "finding_photo" ADD CONSTRAINT "finding_photo_shop_id_photo_id_fkey" FOREIGN KEY ("shop_id", "photo_id") REFERENCES "photo"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;
