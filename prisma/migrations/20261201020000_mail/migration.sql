-- Mail of the shop: what is to go, the papers that go with it, and what became of it.
-- CreateEnum
CREATE TYPE "mail_link" AS ENUM ('owner', 'invitation');

-- CreateEnum
CREATE TYPE "mail_event_kind" AS ENUM ('tried', 'sent', 'delayed', 'refused', 'given_up', 'kept', 'asked_again', 'put_away');

-- AlterTable
ALTER TABLE "shop" ADD COLUMN     "email" TEXT;

-- CreateTable
CREATE TABLE "mail" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "to_address" TEXT NOT NULL,
    "to_name" TEXT NOT NULL,
    "reply_to" TEXT,
    "subject" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "link" "mail_link",
    "about" TEXT NOT NULL,
    "quote_id" UUID,
    "order_id" UUID,
    "invoice_id" UUID,
    "queued_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "queued_by_id" UUID,

    CONSTRAINT "mail_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "mail_paper" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "mail_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,
    "paper" TEXT NOT NULL,
    "subject" TEXT NOT NULL,

    CONSTRAINT "mail_paper_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "mail_file" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "paper_id" UUID NOT NULL,
    "filename" TEXT NOT NULL,
    "mime" TEXT NOT NULL,
    "sha256" CHAR(64) NOT NULL,
    "bytes" INTEGER NOT NULL,
    "made_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "mail_file_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "mail_event" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "mail_id" UUID NOT NULL,
    "seq" INTEGER NOT NULL,
    "kind" "mail_event_kind" NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID,
    "words" TEXT NOT NULL DEFAULT '',
    "next_at" TIMESTAMPTZ(3),

    CONSTRAINT "mail_event_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "mail_shop_id_queued_at_idx" ON "mail"("shop_id", "queued_at");

-- CreateIndex
CREATE INDEX "mail_shop_id_quote_id_idx" ON "mail"("shop_id", "quote_id");

-- CreateIndex
CREATE INDEX "mail_shop_id_order_id_idx" ON "mail"("shop_id", "order_id");

-- CreateIndex
CREATE INDEX "mail_shop_id_invoice_id_idx" ON "mail"("shop_id", "invoice_id");

-- CreateIndex
CREATE UNIQUE INDEX "mail_shop_id_id_key" ON "mail"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "mail_paper_shop_id_mail_id_position_key" ON "mail_paper"("shop_id", "mail_id", "position");

-- CreateIndex
CREATE UNIQUE INDEX "mail_paper_shop_id_id_key" ON "mail_paper"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "mail_file_shop_id_paper_id_key" ON "mail_file"("shop_id", "paper_id");

-- CreateIndex
CREATE UNIQUE INDEX "mail_file_shop_id_id_key" ON "mail_file"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "mail_event_shop_id_mail_id_seq_key" ON "mail_event"("shop_id", "mail_id", "seq");

-- CreateIndex
CREATE UNIQUE INDEX "mail_event_shop_id_id_key" ON "mail_event"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "mail" ADD CONSTRAINT "mail_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "mail" ADD CONSTRAINT "mail_shop_id_quote_id_fkey" FOREIGN KEY ("shop_id", "quote_id") REFERENCES "quote"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "mail" ADD CONSTRAINT "mail_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "mail" ADD CONSTRAINT "mail_shop_id_invoice_id_fkey" FOREIGN KEY ("shop_id", "invoice_id") REFERENCES "invoice"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "mail" ADD CONSTRAINT "mail_shop_id_queued_by_id_fkey" FOREIGN KEY ("shop_id", "queued_by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "mail_paper" ADD CONSTRAINT "mail_paper_shop_id_mail_id_fkey" FOREIGN KEY ("shop_id", "mail_id") REFERENCES "mail"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "mail_file" ADD CONSTRAINT "mail_file_shop_id_paper_id_fkey" FOREIGN KEY ("shop_id", "paper_id") REFERENCES "mail_paper"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "mail_event" ADD CONSTRAINT "mail_event_shop_id_mail_id_fkey" FOREIGN KEY ("shop_id", "mail_id") REFERENCES "mail"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "mail_event" ADD CONSTRAINT "mail_event_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;


SELECT keep_to_one_shop(each), keep_audit_of(each) FROM unnest('{mail,mail_paper,mail_file,mail_event}'::regclass[]) AS each;
DO $$
DECLARE fact text;
BEGIN
  FOREACH fact IN ARRAY ARRAY['mail', 'mail_paper', 'mail_file', 'mail_event'] LOOP
    EXECUTE format('CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', fact);
    EXECUTE format('CREATE TRIGGER never_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', fact);
  END LOOP;
END $$;

-- One address and no more, and nothing that could end a line of the header (RFC 5322, 2.2: CR and LF end it).
ALTER TABLE mail
  ADD CONSTRAINT mail_to_one_address CHECK (to_address ~ '^[^[:space:][:cntrl:]@,;:<>()"\\]+@[A-Za-z0-9.-]+$' AND length(to_address) <= 254),
  ADD CONSTRAINT mail_answers_to_one_address CHECK (reply_to ~ '^[^[:space:][:cntrl:]@,;:<>()"\\]+@[A-Za-z0-9.-]+$' AND length(reply_to) <= 254),
  ADD CONSTRAINT mail_header_in_one_line CHECK (to_name !~ '[[:cntrl:]]' AND subject !~ '[[:cntrl:]]' AND subject <> '');
ALTER TABLE shop ADD CONSTRAINT shop_has_one_address CHECK (email ~ '^[^[:space:][:cntrl:]@,;:<>()"\\]+@[A-Za-z0-9.-]+$' AND length(email) <= 254);
ALTER TABLE mail_event
  ADD CONSTRAINT mail_event_from_one CHECK (seq >= 1),
  ADD CONSTRAINT mail_delay_says_when CHECK ((kind = 'delayed') = (next_at IS NOT NULL));
ALTER TABLE mail_file ADD CONSTRAINT mail_file_digest CHECK (sha256 ~ '^[0-9a-f]{64}$' AND bytes > 0);

INSERT INTO jobs.known_task (name) VALUES ('send_mail') ON CONFLICT DO NOTHING;

-- Mails of every shop that should have been tried so long ago and were not: a worker that was killed keeps its job locked for hours.
CREATE FUNCTION mails_overdue(grace interval) RETURNS TABLE (shop_id uuid, mail_id uuid)
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT m.shop_id, m.id FROM mail m
    LEFT JOIN LATERAL (SELECT e.kind, e.at, e.next_at FROM mail_event e
      WHERE e.shop_id = m.shop_id AND e.mail_id = m.id ORDER BY e.seq DESC LIMIT 1) newest ON true
  WHERE (newest.kind IS NULL OR newest.kind IN ('tried', 'delayed', 'asked_again'))
    AND coalesce(newest.next_at, newest.at, m.queued_at) < clock_timestamp() - grace
$$;
REVOKE ALL ON FUNCTION mails_overdue(interval) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION mails_overdue(interval) TO fairlead_jobs;
