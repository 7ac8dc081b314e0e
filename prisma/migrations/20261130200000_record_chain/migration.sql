-- Each aircraft's chain of signed entries and owners' decisions, signed with the shop's key; and chains received with an aircraft.
-- CreateEnum
CREATE TYPE "record_link_kind" AS ENUM ('entry', 'decision');

-- CreateTable
CREATE TABLE "shop_key" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "fingerprint" TEXT NOT NULL,
    "public_key" TEXT NOT NULL,
    "made_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "shop_key_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "record_link" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "aircraft_id" UUID NOT NULL,
    "seq" INTEGER NOT NULL,
    "kind" "record_link_kind" NOT NULL,
    "subject_id" UUID NOT NULL,
    "statement" TEXT NOT NULL,
    "content" TEXT NOT NULL,
    "hash" BYTEA NOT NULL,
    "signature" TEXT NOT NULL,
    "key_id" UUID NOT NULL,

    CONSTRAINT "record_link_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "received_archive" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "aircraft_id" UUID NOT NULL,
    "sha256" CHAR(64) NOT NULL,
    "bytes" BIGINT NOT NULL,
    "seal" TEXT NOT NULL,
    "compared_keys" TEXT[] DEFAULT ARRAY[]::TEXT[],
    "link_count" INTEGER NOT NULL,
    "received_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "received_by_id" UUID NOT NULL,

    CONSTRAINT "received_archive_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "received_link" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "archive_id" UUID NOT NULL,
    "seq" INTEGER NOT NULL,
    "line" TEXT NOT NULL,

    CONSTRAINT "received_link_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "shop_key_shop_id_fingerprint_key" ON "shop_key"("shop_id", "fingerprint");

-- CreateIndex
CREATE UNIQUE INDEX "shop_key_shop_id_id_key" ON "shop_key"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "record_link_shop_id_aircraft_id_seq_key" ON "record_link"("shop_id", "aircraft_id", "seq");

-- CreateIndex
CREATE UNIQUE INDEX "record_link_shop_id_subject_id_key" ON "record_link"("shop_id", "subject_id");

-- CreateIndex
CREATE UNIQUE INDEX "record_link_shop_id_id_key" ON "record_link"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "received_archive_shop_id_aircraft_id_sha256_key" ON "received_archive"("shop_id", "aircraft_id", "sha256");

-- CreateIndex
CREATE UNIQUE INDEX "received_archive_shop_id_id_key" ON "received_archive"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "received_link_shop_id_archive_id_seq_key" ON "received_link"("shop_id", "archive_id", "seq");

-- CreateIndex
CREATE UNIQUE INDEX "received_link_shop_id_id_key" ON "received_link"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "shop_key" ADD CONSTRAINT "shop_key_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "record_link" ADD CONSTRAINT "record_link_shop_id_aircraft_id_fkey" FOREIGN KEY ("shop_id", "aircraft_id") REFERENCES "aircraft"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "record_link" ADD CONSTRAINT "record_link_shop_id_key_id_fkey" FOREIGN KEY ("shop_id", "key_id") REFERENCES "shop_key"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "received_archive" ADD CONSTRAINT "received_archive_shop_id_aircraft_id_fkey" FOREIGN KEY ("shop_id", "aircraft_id") REFERENCES "aircraft"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "received_archive" ADD CONSTRAINT "received_archive_shop_id_received_by_id_fkey" FOREIGN KEY ("shop_id", "received_by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "received_link" ADD CONSTRAINT "received_link_shop_id_archive_id_fkey" FOREIGN KEY ("shop_id", "archive_id") REFERENCES "received_archive"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;


SELECT keep_to_one_shop(each) FROM unnest('{shop_key,record_link,received_archive,received_link}'::regclass[]) AS each;
SELECT keep_audit_of(each) FROM unnest('{shop_key,received_archive}'::regclass[]) AS each;
DO $$
DECLARE fact text;
BEGIN
  FOREACH fact IN ARRAY ARRAY['shop_key', 'record_link', 'received_archive', 'received_link'] LOOP
    EXECUTE format('CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', fact);
    EXECUTE format('CREATE TRIGGER never_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', fact);
  END LOOP;
END $$;

-- A link joins the one before it, and its hash and digest are those of what stands in it. The signature is the program's:
-- PostgreSQL has no Ed25519.
CREATE FUNCTION link_joins() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE last record_link; stated jsonb := NEW.statement::jsonb;
BEGIN
  SELECT * INTO last FROM record_link l
    WHERE l.shop_id = NEW.shop_id AND l.aircraft_id = NEW.aircraft_id ORDER BY l.seq DESC LIMIT 1;
  IF NEW.seq IS DISTINCT FROM coalesce(last.seq, 0) + 1
    OR (stated ->> 'seq')::int IS DISTINCT FROM NEW.seq
    OR stated ->> 'previous' IS DISTINCT FROM coalesce(encode(last.hash, 'hex'), repeat('0', 64))
    OR stated ->> 'chain' IS DISTINCT FROM NEW.aircraft_id::text
    OR stated ->> 'kind' IS DISTINCT FROM NEW.kind::text
    OR stated ->> 'subject' IS DISTINCT FROM NEW.subject_id::text
    OR stated ->> 'content' IS DISTINCT FROM encode(sha256(convert_to(NEW.content, 'UTF8')), 'hex')
    OR NEW.hash IS DISTINCT FROM sha256(convert_to(E'fairlead record link 1\n' || NEW.statement, 'UTF8')) THEN
    RAISE EXCEPTION 'Link % does not join the chain of this aircraft', NEW.seq USING ERRCODE = 'FL002';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER joins BEFORE INSERT ON record_link FOR EACH ROW EXECUTE FUNCTION link_joins();

-- No entry is kept without its link, made in the same transaction.
CREATE FUNCTION entry_is_linked() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NOT EXISTS (SELECT FROM record_link l WHERE l.shop_id = NEW.shop_id AND l.subject_id = NEW.id) THEN
    RAISE EXCEPTION 'A signed entry is kept only with its signed link in the chain of its aircraft' USING ERRCODE = 'FL005';
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER linked AFTER INSERT ON record_entry DEFERRABLE INITIALLY DEFERRED
  FOR EACH ROW EXECUTE FUNCTION entry_is_linked();

ALTER TABLE shop_key ADD CONSTRAINT key_of_32_bytes CHECK (public_key ~ '^[A-Za-z0-9_-]{43}$' AND fingerprint ~ '^[A-Za-z0-9_-]{43}$');
ALTER TABLE record_link ADD CONSTRAINT hash_of_32_bytes CHECK (octet_length(hash) = 32 AND signature ~ '^[A-Za-z0-9_-]{86}$');
ALTER TABLE received_archive ADD CONSTRAINT digest_of_32_bytes CHECK (sha256 ~ '^[0-9a-f]{64}$' AND bytes > 0);
