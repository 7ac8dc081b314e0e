-- What is open on an aircraft, and what was counted out to it: facts, each appended by whoever did it.
-- CreateEnum
CREATE TYPE "open_kind" AS ENUM ('opened', 'removed');

-- CreateEnum
CREATE TYPE "open_line_event_kind" AS ENUM ('closed', 'reopened', 'struck_out');

-- CreateEnum
CREATE TYPE "tool_count_kind" AS ENUM ('out', 'back', 'accounted_for');

-- CreateTable
CREATE TABLE "open_line" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID NOT NULL,
    "item_id" UUID,
    "kind" "open_kind" NOT NULL,
    "words" TEXT NOT NULL,
    "place" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,
    "client_event_id" UUID NOT NULL,

    CONSTRAINT "open_line_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "open_line_event" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "line_id" UUID NOT NULL,
    "kind" "open_line_event_kind" NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,
    "client_event_id" UUID NOT NULL,

    CONSTRAINT "open_line_event_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "tool_count" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID NOT NULL,
    "item_id" UUID,
    "kind" "tool_count_kind" NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,
    "client_event_id" UUID NOT NULL,

    CONSTRAINT "tool_count_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "tool_count_line" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "count_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "number" INTEGER NOT NULL,

    CONSTRAINT "tool_count_line_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "open_line_shop_id_order_id_idx" ON "open_line"("shop_id", "order_id");

-- CreateIndex
CREATE UNIQUE INDEX "open_line_shop_id_client_event_id_key" ON "open_line"("shop_id", "client_event_id");

-- CreateIndex
CREATE UNIQUE INDEX "open_line_shop_id_id_key" ON "open_line"("shop_id", "id");

-- CreateIndex
CREATE INDEX "open_line_event_shop_id_line_id_idx" ON "open_line_event"("shop_id", "line_id");

-- CreateIndex
CREATE UNIQUE INDEX "open_line_event_shop_id_client_event_id_key" ON "open_line_event"("shop_id", "client_event_id");

-- CreateIndex
CREATE UNIQUE INDEX "open_line_event_shop_id_id_key" ON "open_line_event"("shop_id", "id");

-- CreateIndex
CREATE INDEX "tool_count_shop_id_order_id_idx" ON "tool_count"("shop_id", "order_id");

-- CreateIndex
CREATE UNIQUE INDEX "tool_count_shop_id_client_event_id_key" ON "tool_count"("shop_id", "client_event_id");

-- CreateIndex
CREATE UNIQUE INDEX "tool_count_shop_id_id_key" ON "tool_count"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "tool_count_line_shop_id_count_id_name_key" ON "tool_count_line"("shop_id", "count_id", "name");

-- CreateIndex
CREATE UNIQUE INDEX "tool_count_line_shop_id_id_key" ON "tool_count_line"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "open_line" ADD CONSTRAINT "open_line_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "open_line" ADD CONSTRAINT "open_line_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "open_line" ADD CONSTRAINT "open_line_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "open_line_event" ADD CONSTRAINT "open_line_event_shop_id_line_id_fkey" FOREIGN KEY ("shop_id", "line_id") REFERENCES "open_line"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "open_line_event" ADD CONSTRAINT "open_line_event_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "tool_count" ADD CONSTRAINT "tool_count_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "tool_count" ADD CONSTRAINT "tool_count_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "tool_count" ADD CONSTRAINT "tool_count_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "tool_count_line" ADD CONSTRAINT "tool_count_line_shop_id_count_id_fkey" FOREIGN KEY ("shop_id", "count_id") REFERENCES "tool_count"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop(each) FROM unnest('{open_line,open_line_event,tool_count,tool_count_line}'::regclass[]) AS each;
SELECT keep_audit_of(each) FROM unnest('{open_line,open_line_event,tool_count,tool_count_line}'::regclass[]) AS each;
DO $$
DECLARE fact text;
BEGIN
  FOREACH fact IN ARRAY ARRAY['open_line', 'open_line_event', 'tool_count', 'tool_count_line'] LOOP
    EXECUTE format('CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', fact);
    EXECUTE format('CREATE TRIGGER never_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', fact);
  END LOOP;
END $$;

ALTER TABLE open_line ADD CONSTRAINT open_line_in_words CHECK (length(words) BETWEEN 1 AND 200 AND length(place) <= 120);
ALTER TABLE open_line_event ADD CONSTRAINT striking_out_has_reason CHECK (kind <> 'struck_out' OR note <> '');
ALTER TABLE tool_count ADD CONSTRAINT accounting_has_words CHECK (kind <> 'accounted_for' OR note <> '');
ALTER TABLE tool_count_line ADD CONSTRAINT counted_sensibly CHECK (number BETWEEN 0 AND 999 AND length(name) BETWEEN 1 AND 80);
