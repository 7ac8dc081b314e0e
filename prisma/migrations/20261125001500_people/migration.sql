-- The shop's settings and its people: versions for two managers at once, presence by the week and by exception,
-- invitations, and what ends when somebody leaves.

-- ── Two managers at once ──────────────────────────────────────────────────────
-- Whoever saves says which version they read; the database counts, so that no code can forget to.
ALTER TABLE shop ADD COLUMN version integer NOT NULL DEFAULT 1;
ALTER TABLE person ADD COLUMN version integer NOT NULL DEFAULT 1;
CREATE FUNCTION count_version() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  NEW.version := OLD.version + 1;
  RETURN NEW;
END $$;
CREATE TRIGGER counts_version BEFORE UPDATE ON shop FOR EACH ROW EXECUTE FUNCTION count_version();
CREATE TRIGGER counts_version BEFORE UPDATE ON person FOR EACH ROW EXECUTE FUNCTION count_version();

-- ── The shop ──────────────────────────────────────────────────────────────────
ALTER TABLE shop ADD CONSTRAINT station_has_its_number
  CHECK (standing <> 'repair_station' OR coalesce(certificate_number, '') <> '');

-- Every amount is in the shop's one currency: once something was offered in it, it stays.
CREATE FUNCTION shop_keeps_its_currency() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (SELECT FROM quote_revision r WHERE r.shop_id = NEW.id) OR EXISTS (SELECT FROM invoice v WHERE v.shop_id = NEW.id) THEN
    RAISE EXCEPTION 'Amounts were quoted in %: the currency stays', OLD.currency USING ERRCODE = 'FL001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER keeps_its_currency BEFORE UPDATE ON shop FOR EACH ROW
  WHEN (OLD.currency IS DISTINCT FROM NEW.currency) EXECUTE FUNCTION shop_keeps_its_currency();

-- ── Rates ─────────────────────────────────────────────────────────────────────
-- A rate typed wrong is put right the same day by another row: of two for one day the later one counts.
DROP INDEX "labour_rate_shop_id_kind_valid_from_key";
DROP INDEX "tax_rate_shop_id_category_valid_from_key";
CREATE INDEX "labour_rate_shop_id_kind_valid_from_idx" ON "labour_rate"("shop_id", "kind", "valid_from");
CREATE INDEX "tax_rate_shop_id_category_valid_from_idx" ON "tax_rate"("shop_id", "category", "valid_from");
ALTER TABLE labour_rate ADD CONSTRAINT labour_rate_not_negative CHECK (rate >= 0);
ALTER TABLE tax_rate ADD CONSTRAINT tax_rate_not_negative CHECK (rate >= 0);
ALTER TABLE certificate ADD CONSTRAINT certificate_ends_after_it_starts CHECK (valid_until >= valid_from);

-- ── Presence ──────────────────────────────────────────────────────────────────
-- CreateTable
CREATE TABLE "weekly_hours" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "person_id" UUID,
    "weekday" INTEGER NOT NULL,
    "from_minute" INTEGER NOT NULL,
    "to_minute" INTEGER NOT NULL,

    CONSTRAINT "weekly_hours_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "day_exception" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "person_id" UUID,
    "first_day" DATE NOT NULL,
    "last_day" DATE NOT NULL,
    "from_minute" INTEGER,
    "to_minute" INTEGER,
    "reason" TEXT NOT NULL,

    CONSTRAINT "day_exception_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "weekly_hours_shop_id_person_id_idx" ON "weekly_hours"("shop_id", "person_id");
CREATE UNIQUE INDEX "weekly_hours_shop_id_id_key" ON "weekly_hours"("shop_id", "id");
CREATE INDEX "day_exception_shop_id_last_day_idx" ON "day_exception"("shop_id", "last_day");
CREATE UNIQUE INDEX "day_exception_shop_id_id_key" ON "day_exception"("shop_id", "id");
ALTER TABLE "weekly_hours" ADD CONSTRAINT "weekly_hours_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "weekly_hours" ADD CONSTRAINT "weekly_hours_shop_id_person_id_fkey" FOREIGN KEY ("shop_id", "person_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "day_exception" ADD CONSTRAINT "day_exception_shop_id_fkey" FOREIGN KEY ("shop_id") REFERENCES "shop"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "day_exception" ADD CONSTRAINT "day_exception_shop_id_person_id_fkey" FOREIGN KEY ("shop_id", "person_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop('weekly_hours'), keep_to_one_shop('day_exception');
SELECT keep_audit_of('weekly_hours'), keep_audit_of('day_exception');
-- Plans, not facts: a week is put in place of the one before, an exception is taken back.
GRANT DELETE ON weekly_hours, day_exception TO fairlead_shop;

-- Without a person: the shop itself. The nil UUID is nobody's, so that the shop's own hours exclude each other too.
ALTER TABLE weekly_hours
  ADD CONSTRAINT weekly_hours_weekday CHECK (weekday BETWEEN 1 AND 7),
  ADD CONSTRAINT weekly_hours_in_a_day CHECK (from_minute >= 0 AND from_minute < to_minute AND to_minute <= 1440),
  ADD CONSTRAINT weekly_hours_once EXCLUDE USING gist (shop_id WITH =,
    coalesce(person_id, '00000000-0000-0000-0000-000000000000'::uuid) WITH =, weekday WITH =,
    int4range(from_minute, to_minute) WITH &&);
ALTER TABLE day_exception
  ADD CONSTRAINT exception_ends_after_it_starts CHECK (last_day >= first_day),
  ADD CONSTRAINT exception_has_reason CHECK (reason <> ''),
  ADD CONSTRAINT exception_hours_in_a_day CHECK ((from_minute IS NULL) = (to_minute IS NULL)
    AND from_minute >= 0 AND from_minute < to_minute AND to_minute <= 1440),
  ADD CONSTRAINT exception_once_a_day EXCLUDE USING gist (shop_id WITH =,
    coalesce(person_id, '00000000-0000-0000-0000-000000000000'::uuid) WITH =, daterange(first_day, last_day, '[]') WITH &&);

-- ── Invitations ───────────────────────────────────────────────────────────────
-- A secret that its holder turns into an account, once. The table keeps its SHA-256.
CREATE TABLE identity.invitation (
  id          uuid PRIMARY KEY DEFAULT gen_random_uuid(),
  shop_id     uuid        NOT NULL,
  person_id   uuid        NOT NULL,
  name        text        NOT NULL,
  shop_name   text        NOT NULL,
  email       text        NOT NULL CHECK (email = lower(email) AND email LIKE '%_@_%'),
  secret_hash bytea       NOT NULL CHECK (length(secret_hash) = 32),
  expires_at  timestamptz NOT NULL,
  created_at  timestamptz NOT NULL DEFAULT now(),
  CONSTRAINT invitation_secret_key UNIQUE (secret_hash),
  CONSTRAINT invitation_person_key UNIQUE (shop_id, person_id),
  CONSTRAINT invitation_person_fkey FOREIGN KEY (shop_id, person_id) REFERENCES public.person (shop_id, id)
);
GRANT SELECT, INSERT, DELETE ON identity.invitation TO fairlead_identity;

-- The shop sees nothing of schema identity but what these two say, of its own people.
CREATE FUNCTION invite_person(person uuid, address text, hash bytea, expires timestamptz) RETURNS text
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, identity, pg_temp AS $$
DECLARE invited public.person;
BEGIN
  SELECT * INTO invited FROM public.person p WHERE p.shop_id = current_shop() AND p.id = person FOR NO KEY UPDATE;
  IF NOT FOUND THEN RETURN 'person_unknown'; END IF;
  IF NOT invited.active THEN RETURN 'person_left'; END IF;
  IF EXISTS (SELECT FROM identity.membership m WHERE m.shop_id = current_shop() AND m.person_id = person) THEN
    RETURN 'has_sign_in';
  END IF;
  IF EXISTS (SELECT FROM identity.account a WHERE a.email = address) THEN RETURN 'email_taken'; END IF;
  DELETE FROM identity.invitation i WHERE i.shop_id = current_shop() AND i.person_id = person;
  INSERT INTO identity.invitation (shop_id, person_id, name, shop_name, email, secret_hash, expires_at)
    SELECT s.id, person, invited.name, s.name, address, hash, expires FROM public.shop s WHERE s.id = current_shop();
  RETURN 'made';
END $$;
REVOKE ALL ON FUNCTION invite_person(uuid, text, bytea, timestamptz) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION invite_person(uuid, text, bytea, timestamptz) TO fairlead_shop;

CREATE FUNCTION sign_ins() RETURNS TABLE (person_id uuid, email text, invited_until timestamptz)
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT m.person_id, a.email, NULL::timestamptz FROM identity.membership m JOIN identity.account a ON a.id = m.account_id
    WHERE m.shop_id = current_shop()
  UNION ALL
  SELECT i.person_id, i.email, i.expires_at FROM identity.invitation i WHERE i.shop_id = current_shop()
$$;
REVOKE ALL ON FUNCTION sign_ins() FROM PUBLIC;
GRANT EXECUTE ON FUNCTION sign_ins() TO fairlead_shop;

-- ── Who leaves is out at once ─────────────────────────────────────────────────
-- In the same transaction: sessions, membership and password go with the account, and an invitation with them.
CREATE FUNCTION leaving_ends_sign_in() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  DELETE FROM identity.account a USING identity.membership m
    WHERE m.account_id = a.id AND m.shop_id = NEW.shop_id AND m.person_id = NEW.id;
  DELETE FROM identity.invitation i WHERE i.shop_id = NEW.shop_id AND i.person_id = NEW.id;
  RETURN NULL;
END $$;
CREATE TRIGGER leaving_ends_sign_in AFTER UPDATE ON person FOR EACH ROW
  WHEN (OLD.active AND NOT NEW.active) EXECUTE FUNCTION leaving_ends_sign_in();

-- And nobody who has left gets a way in again, whoever asks. The lock makes a leaving under way finish first.
CREATE FUNCTION only_who_works_here() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE works boolean;
BEGIN
  SELECT p.active INTO works FROM public.person p WHERE p.shop_id = NEW.shop_id AND p.id = NEW.person_id FOR SHARE;
  IF NOT works THEN
    RAISE EXCEPTION 'Somebody who has left gets no sign-in' USING ERRCODE = 'FL001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER only_who_works_here BEFORE INSERT ON identity.membership FOR EACH ROW EXECUTE FUNCTION only_who_works_here();

-- A shop is never left without somebody who may set its rules. Deferrable, so that a hand-over in one transaction may pass.
CREATE FUNCTION somebody_manages() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  -- Two leaving at once wait here for each other.
  PERFORM pg_advisory_xact_lock(hashtextextended(concat_ws(':', NEW.shop_id, 'managers'), 0));
  IF NOT EXISTS (SELECT FROM person p WHERE p.shop_id = NEW.shop_id AND p.active AND 'manager' = ANY (p.roles)) THEN
    RAISE EXCEPTION 'The shop would be without a manager' USING ERRCODE = 'FL004';
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER somebody_manages AFTER UPDATE ON person DEFERRABLE INITIALLY IMMEDIATE FOR EACH ROW
  WHEN (OLD.active AND 'manager' = ANY (OLD.roles) AND NOT (NEW.active AND 'manager' = ANY (NEW.roles)))
  EXECUTE FUNCTION somebody_manages();
