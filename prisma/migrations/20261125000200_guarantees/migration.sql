-- What the database itself keeps, whatever the application forgets.
-- Each paragraph has a test in tests/api/guarantees that tries to break it from a raw connection.
-- SQLSTATE FL001: a fact is never changed. FL002: figures that do not agree. Our own, so that no library takes them for something else.

GRANT USAGE ON SCHEMA public TO fairlead_shop, fairlead_link;

-- ── One shop only ─────────────────────────────────────────────────────────────
-- Called for every table of a shop, by this migration and by later ones.
CREATE FUNCTION keep_to_one_shop(kept regclass) RETURNS void LANGUAGE plpgsql AS $$
BEGIN
  EXECUTE format('ALTER TABLE %s ENABLE ROW LEVEL SECURITY', kept);
  EXECUTE format('CREATE POLICY one_shop ON %s TO fairlead_shop USING (shop_id = current_shop()) WITH CHECK (shop_id = current_shop())', kept);
  EXECUTE format('GRANT SELECT, INSERT ON %s TO fairlead_shop', kept);
END $$;
REVOKE ALL ON FUNCTION keep_to_one_shop(regclass) FROM PUBLIC;

SELECT keep_to_one_shop(c.oid::regclass)
FROM pg_class c JOIN pg_attribute a ON a.attrelid = c.oid AND a.attname = 'shop_id' AND NOT a.attisdropped
WHERE c.relnamespace = 'public'::regnamespace AND c.relkind = 'r';

ALTER TABLE shop ENABLE ROW LEVEL SECURITY;
CREATE POLICY one_shop ON shop TO fairlead_shop USING (id = current_shop()) WITH CHECK (id = current_shop());
GRANT SELECT, INSERT, UPDATE ON shop TO fairlead_shop;

-- Written by triggers and functions of the owner, never by the application.
REVOKE INSERT ON audit, chain_link, chain_head, counter FROM fairlead_shop;

-- Everything not named here can only be added to.
GRANT UPDATE ON person, certificate, contact, aircraft_contact, aircraft_model, aircraft, record_book,
  component, task, task_place, package, package_task, part, hangar, stand TO fairlead_shop;
GRANT UPDATE (removed_at) ON component_fitting TO fairlead_shop;
GRANT UPDATE (order_id) ON quote TO fairlead_shop;
GRANT UPDATE (planned_for, title) ON work_order TO fairlead_shop;
GRANT UPDATE (returned_at) ON received_thing TO fairlead_shop;
GRANT UPDATE (revoked_at) ON owner_link TO fairlead_shop;
GRANT UPDATE (stand_id, starts_at, ends_at) ON stay TO fairlead_shop;
GRANT UPDATE, DELETE ON invoice, invoice_line TO fairlead_shop;
GRANT DELETE ON stretch, package_task, task_place TO fairlead_shop;
GRANT DELETE ON stay TO fairlead_shop;

-- ── Facts are appended ────────────────────────────────────────────────────────
CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'A row of % is never changed or deleted: write a new one that points back to it', TG_TABLE_NAME
    USING ERRCODE = 'FL001';
END $$;

DO $$
DECLARE fact text;
BEGIN
  FOREACH fact IN ARRAY ARRAY['access', 'meter_reading', 'labour_rate', 'tax_rate', 'quote_revision', 'quote_line',
    'quote_sending', 'decision', 'order_event', 'squawk', 'item_event', 'caution_reading', 'clock_event',
    'finding', 'finding_event', 'photo', 'finding_photo', 'stock_movement', 'payment', 'record_entry', 'entry_item',
    'entry_discrepancy', 'history_import', 'history_item', 'audit', 'chain_link'] LOOP
    EXECUTE format('CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', fact);
    EXECUTE format('CREATE TRIGGER never_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', fact);
  END LOOP;
END $$;

-- A quote becomes a job once, and stays with it.
CREATE FUNCTION quote_keeps_its_order() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.order_id IS NOT NULL AND NEW.order_id IS DISTINCT FROM OLD.order_id THEN
    RAISE EXCEPTION 'Quote % belongs to its order already', OLD.number USING ERRCODE = 'FL001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER keeps_its_order BEFORE UPDATE ON quote FOR EACH ROW EXECUTE FUNCTION quote_keeps_its_order();

-- What was sent is what was sent.
CREATE FUNCTION sent_revision_is_closed() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (SELECT FROM quote_sending s WHERE s.shop_id = NEW.shop_id AND s.revision_id = NEW.revision_id) THEN
    RAISE EXCEPTION 'This revision was sent: a change is a new revision' USING ERRCODE = 'FL001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER sent_is_closed BEFORE INSERT ON quote_line FOR EACH ROW EXECUTE FUNCTION sent_revision_is_closed();

CREATE FUNCTION decision_is_on_what_was_sent() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NOT EXISTS (SELECT FROM quote_sending s WHERE s.shop_id = NEW.shop_id AND s.revision_id = NEW.revision_id) THEN
    RAISE EXCEPTION 'Nobody can have decided on a revision that was not sent' USING ERRCODE = 'FL001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER on_what_was_sent BEFORE INSERT ON decision FOR EACH ROW EXECUTE FUNCTION decision_is_on_what_was_sent();

ALTER TABLE decision
  ADD CONSTRAINT decision_ceiling_goes_with_a_yes CHECK ((choice = 'go_ahead') = (ceiling_minor IS NOT NULL)),
  ADD CONSTRAINT decision_ceiling_not_negative CHECK (ceiling_minor >= 0);

-- ── Places and times that exclude each other ──────────────────────────────────
ALTER TABLE stretch
  ADD CONSTRAINT stretch_ends_after_it_starts CHECK (ended_at >= started_at),
  ADD CONSTRAINT stretch_one_at_a_time EXCLUDE USING gist
    (shop_id WITH =, person_id WITH =, tstzrange(started_at, coalesce(ended_at, 'infinity')) WITH &&);
ALTER TABLE stay
  ADD CONSTRAINT stay_ends_after_it_starts CHECK (ends_at >= starts_at),
  ADD CONSTRAINT stay_one_aircraft_a_stand EXCLUDE USING gist
    (shop_id WITH =, stand_id WITH =, tstzrange(starts_at, coalesce(ends_at, 'infinity')) WITH &&) WHERE (kind = 'actual'),
  ADD CONSTRAINT stay_one_stand_an_aircraft EXCLUDE USING gist
    (shop_id WITH =, aircraft_id WITH =, tstzrange(starts_at, coalesce(ends_at, 'infinity')) WITH &&) WHERE (kind = 'actual');
ALTER TABLE component_fitting
  ADD CONSTRAINT fitting_ends_after_it_starts CHECK (removed_at >= fitted_at),
  ADD CONSTRAINT fitting_one_place_at_a_time EXCLUDE USING gist
    (shop_id WITH =, component_id WITH =, tstzrange(fitted_at, coalesce(removed_at, 'infinity')) WITH &&);

-- ── Plain sense ───────────────────────────────────────────────────────────────
ALTER TABLE shop
  ADD CONSTRAINT shop_currency_iso_4217 CHECK (currency ~ '^[A-Z]{3}$'),
  ADD CONSTRAINT shop_clearance_not_negative CHECK (clearance_mm >= 0),
  ADD CONSTRAINT shop_billing_step_positive CHECK (billing_step > 0);
ALTER TABLE aircraft_model
  ADD CONSTRAINT model_has_size CHECK (least(length_mm, span_mm, height_mm, parked_length_mm, parked_width_mm) > 0);
ALTER TABLE hangar ADD CONSTRAINT hangar_has_size CHECK (least(width_mm, depth_mm, door_width_mm) > 0);
ALTER TABLE stand ADD CONSTRAINT stand_has_size CHECK (least(width_mm, depth_mm) > 0 AND x_mm >= 0 AND y_mm >= 0);
ALTER TABLE access
  ADD CONSTRAINT access_clearance CHECK (clearance_mm BETWEEN 0 AND 100000),
  ADD CONSTRAINT access_swing CHECK (swing_deg BETWEEN 0 AND 360),
  ADD CONSTRAINT access_locked CHECK (locked_fasteners BETWEEN 0 AND 1000);
ALTER TABLE task
  ADD CONSTRAINT task_jasc_four_digits CHECK (jasc ~ '^[0-9]{4}$'),
  ADD CONSTRAINT task_standard_positive CHECK (standard_hours > 0);
ALTER TABLE work_item ADD CONSTRAINT item_jasc_four_digits CHECK (jasc ~ '^[0-9]{4}$');
ALTER TABLE history_item
  ADD CONSTRAINT history_hours_sensible CHECK (hours > 0 AND hours <= 1000),
  ADD CONSTRAINT history_jasc_four_digits CHECK (jasc ~ '^[0-9]{4}$');
ALTER TABLE meter_reading ADD CONSTRAINT reading_not_negative CHECK (reading_hundredths >= 0 AND tis_hundredths >= 0);
ALTER TABLE quote_line
  ADD CONSTRAINT line_in_order CHECK (low_minor <= likely_minor AND likely_minor <= p80_minor AND p80_minor <= high_minor),
  ADD CONSTRAINT line_quantity_not_negative CHECK (quantity >= 0),
  ADD CONSTRAINT line_tax_not_negative CHECK (tax_rate >= 0);
ALTER TABLE order_event
  ADD CONSTRAINT release_has_outcome CHECK ((kind = 'released') = (outcome IS NOT NULL));
ALTER TABLE item_event
  ADD CONSTRAINT waiting_has_reason CHECK ((kind = 'waiting') = (waiting_for IS NOT NULL)),
  ADD CONSTRAINT done_says_what CHECK (kind <> 'done' OR work_done <> '');
ALTER TABLE finding_event ADD CONSTRAINT assessed_has_class CHECK ((kind = 'assessed') = (class IS NOT NULL));
ALTER TABLE clock_event
  ADD CONSTRAINT clock_names_its_item CHECK (kind NOT IN ('start', 'switch') OR item_id IS NOT NULL),
  ADD CONSTRAINT correction_points_back CHECK ((kind = 'correction') = (corrects_id IS NOT NULL)),
  ADD CONSTRAINT correction_has_reason CHECK (kind <> 'correction' OR reason <> '');
ALTER TABLE owner_link
  ADD CONSTRAINT link_reaches_one_thing CHECK ((order_id IS NULL) <> (quote_id IS NULL)),
  ADD CONSTRAINT link_hash_sha256 CHECK (length(secret_hash) = 32);
ALTER TABLE payment ADD CONSTRAINT payment_not_zero CHECK (amount_minor <> 0);

-- ── Stores never go below zero ────────────────────────────────────────────────
ALTER TABLE lot ADD CONSTRAINT lot_never_below_zero CHECK (on_hand >= 0);
ALTER TABLE stock_movement ADD CONSTRAINT movement_sign CHECK (
  CASE kind WHEN 'receive' THEN quantity > 0 WHEN 'return' THEN quantity > 0
            WHEN 'issue' THEN quantity < 0 WHEN 'scrap' THEN quantity < 0 ELSE true END);

CREATE FUNCTION movement_moves_the_lot() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  UPDATE lot SET on_hand = on_hand + NEW.quantity WHERE shop_id = NEW.shop_id AND id = NEW.lot_id;
  RETURN NEW;
END $$;
CREATE TRIGGER moves_the_lot AFTER INSERT ON stock_movement FOR EACH ROW EXECUTE FUNCTION movement_moves_the_lot();

CREATE FUNCTION lot_starts_empty() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.on_hand <> 0 THEN
    RAISE EXCEPTION 'A lot starts empty: receive % into it', NEW.on_hand USING ERRCODE = 'FL002';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER starts_empty BEFORE INSERT ON lot FOR EACH ROW EXECUTE FUNCTION lot_starts_empty();

-- ── Invoices: draft, then issued for good ─────────────────────────────────────
ALTER TABLE invoice
  ADD CONSTRAINT issued_has_number CHECK ((issued_at IS NULL) = (number IS NULL)),
  ADD CONSTRAINT gross_is_net_and_tax CHECK (gross_minor = net_minor + tax_minor),
  ADD CONSTRAINT beyond_not_negative CHECK (beyond_minor >= 0);

CREATE FUNCTION invoice_is_issued_for_good() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE of_lines bigint;
BEGIN
  IF TG_OP = 'INSERT' THEN
    IF NEW.issued_at IS NOT NULL OR NEW.number IS NOT NULL THEN
      RAISE EXCEPTION 'An invoice begins as a draft and gets its number when it is issued' USING ERRCODE = 'FL001';
    END IF;
    RETURN NEW;
  END IF;
  IF OLD.issued_at IS NOT NULL THEN
    RAISE EXCEPTION 'Invoice % is issued: it is never changed or deleted, it is credited', OLD.number USING ERRCODE = 'FL001';
  END IF;
  IF TG_OP = 'DELETE' THEN RETURN OLD; END IF;
  NEW.number := NULL;
  IF NEW.issued_at IS NOT NULL THEN
    SELECT coalesce(sum(net_minor), 0) INTO of_lines FROM invoice_line WHERE shop_id = NEW.shop_id AND invoice_id = NEW.id;
    IF of_lines <> NEW.net_minor THEN
      RAISE EXCEPTION 'The lines add to %, the invoice says %', of_lines, NEW.net_minor USING ERRCODE = 'FL002';
    END IF;
    NEW.number := take_number('invoice');
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER issued_for_good BEFORE INSERT OR UPDATE OR DELETE ON invoice FOR EACH ROW EXECUTE FUNCTION invoice_is_issued_for_good();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON invoice FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

CREATE FUNCTION line_of_a_draft() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE line record; issued timestamptz;
BEGIN
  FOR line IN SELECT * FROM (VALUES
      (CASE WHEN TG_OP <> 'INSERT' THEN OLD.shop_id END, CASE WHEN TG_OP <> 'INSERT' THEN OLD.invoice_id END),
      (CASE WHEN TG_OP <> 'DELETE' THEN NEW.shop_id END, CASE WHEN TG_OP <> 'DELETE' THEN NEW.invoice_id END)) AS of_line(shop, invoice)
    WHERE shop IS NOT NULL LOOP
    -- FOR SHARE waits for an issue under way and holds off the next.
    SELECT issued_at INTO issued FROM invoice WHERE shop_id = line.shop AND id = line.invoice FOR SHARE;
    IF issued IS NOT NULL THEN
      RAISE EXCEPTION 'The invoice of this line is issued: it is never changed' USING ERRCODE = 'FL001';
    END IF;
  END LOOP;
  RETURN CASE WHEN TG_OP = 'DELETE' THEN OLD ELSE NEW END;
END $$;
CREATE TRIGGER of_a_draft BEFORE INSERT OR UPDATE OR DELETE ON invoice_line FOR EACH ROW EXECUTE FUNCTION line_of_a_draft();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON invoice_line FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

-- ── The chain ─────────────────────────────────────────────────────────────────
-- What a link proves, as it stands in the tables now. Times in UTC, so that the text never depends on who asks.
CREATE FUNCTION evidence_of(proved text, subject uuid) RETURNS jsonb
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = public, pg_temp SET timezone = 'UTC' AS $$
BEGIN
  RETURN CASE proved
    WHEN 'decision' THEN (SELECT to_jsonb(d) FROM decision d WHERE d.id = subject)
    WHEN 'entry' THEN (SELECT jsonb_build_object('entry', to_jsonb(e),
        'items', (SELECT coalesce(jsonb_agg(i.item_id ORDER BY i.item_id), '[]') FROM entry_item i WHERE i.entry_id = e.id),
        'item_count', (SELECT count(*) FROM entry_item i WHERE i.entry_id = e.id),
        'discrepancies', (SELECT coalesce(jsonb_agg(to_jsonb(x) ORDER BY x.id), '[]') FROM entry_discrepancy x WHERE x.entry_id = e.id),
        'discrepancy_count', (SELECT count(*) FROM entry_discrepancy x WHERE x.entry_id = e.id))
      FROM record_entry e WHERE e.id = subject)
    WHEN 'invoice' THEN (SELECT jsonb_build_object('invoice', to_jsonb(v),
        'lines', (SELECT coalesce(jsonb_agg(to_jsonb(l) ORDER BY l.position), '[]') FROM invoice_line l WHERE l.invoice_id = v.id),
        'line_count', (SELECT count(*) FROM invoice_line l WHERE l.invoice_id = v.id))
      FROM invoice v WHERE v.id = subject)
  END;
END $$;
REVOKE ALL ON FUNCTION evidence_of(text, uuid) FROM PUBLIC;

CREATE FUNCTION link_hash(previous bytea, seq integer, proved text, subject uuid, payload jsonb) RETURNS bytea
LANGUAGE sql IMMUTABLE AS $$
  SELECT sha256(previous || convert_to(concat_ws('|', seq, proved, coalesce(subject::text, ''), payload::text), 'UTF8'))
$$;

CREATE FUNCTION chain_append(shop uuid, proved text, subject uuid, payload jsonb) RETURNS void
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE head chain_head; made bytea;
BEGIN
  INSERT INTO chain_head (shop_id, hash) VALUES (shop, sha256(convert_to(shop::text, 'UTF8'))) ON CONFLICT (shop_id) DO NOTHING;
  SELECT * INTO head FROM chain_head WHERE shop_id = shop FOR UPDATE;
  made := link_hash(head.hash, head.seq + 1, proved, subject, payload);
  INSERT INTO chain_link (shop_id, seq, kind, subject_id, payload, previous, hash)
    VALUES (shop, head.seq + 1, proved, subject, payload, head.hash, made);
  UPDATE chain_head SET seq = head.seq + 1, hash = made WHERE shop_id = shop;
END $$;
REVOKE ALL ON FUNCTION chain_append(uuid, text, uuid, jsonb) FROM PUBLIC;

-- Deferred to the commit, so that a link covers the lines and items written with it.
CREATE FUNCTION chain_at_commit() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  PERFORM chain_append(NEW.shop_id, TG_ARGV[0], NEW.id, evidence_of(TG_ARGV[0], NEW.id));
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER chained AFTER INSERT ON decision DEFERRABLE INITIALLY DEFERRED
  FOR EACH ROW EXECUTE FUNCTION chain_at_commit('decision');
CREATE CONSTRAINT TRIGGER chained AFTER INSERT ON record_entry DEFERRABLE INITIALLY DEFERRED
  FOR EACH ROW EXECUTE FUNCTION chain_at_commit('entry');
CREATE CONSTRAINT TRIGGER chained AFTER UPDATE ON invoice DEFERRABLE INITIALLY DEFERRED
  FOR EACH ROW WHEN (OLD.issued_at IS NULL AND NEW.issued_at IS NOT NULL) EXECUTE FUNCTION chain_at_commit('invoice');

CREATE FUNCTION signed_is_closed() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (SELECT FROM chain_link c WHERE c.shop_id = NEW.shop_id AND c.kind = 'entry' AND c.subject_id = NEW.entry_id) THEN
    RAISE EXCEPTION 'This entry is signed: a correction is a new entry that points back to it' USING ERRCODE = 'FL001';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER signed_closed BEFORE INSERT ON entry_item FOR EACH ROW EXECUTE FUNCTION signed_is_closed();
CREATE TRIGGER signed_closed BEFORE INSERT ON entry_discrepancy FOR EACH ROW EXECUTE FUNCTION signed_is_closed();

-- ── Audit ─────────────────────────────────────────────────────────────────────
CREATE FUNCTION audit_change() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp SET timezone = 'UTC' AS $$
DECLARE
  was jsonb := CASE WHEN TG_OP <> 'INSERT' THEN to_jsonb(OLD) END;
  is_now jsonb := CASE WHEN TG_OP <> 'DELETE' THEN to_jsonb(NEW) END;
  whole jsonb := coalesce(is_now, was);
BEGIN
  INSERT INTO audit (shop_id, txid, person_id, request_id, table_name, row_id, action, before, after) VALUES (
    (CASE WHEN TG_TABLE_NAME = 'shop' THEN whole ->> 'id' ELSE whole ->> 'shop_id' END)::uuid,
    pg_current_xact_id()::text::bigint,
    nullif(current_setting('app.person_id', true), '')::uuid,
    nullif(current_setting('app.request_id', true), ''),
    TG_TABLE_NAME, (whole ->> 'id')::uuid, lower(TG_OP)::audit_action, was, is_now);
  RETURN NULL;
END $$;

CREATE FUNCTION keep_audit_of(kept regclass) RETURNS void LANGUAGE plpgsql AS $$
BEGIN
  EXECUTE format('CREATE TRIGGER audited AFTER INSERT OR UPDATE OR DELETE ON %s FOR EACH ROW EXECUTE FUNCTION audit_change()', kept);
END $$;
REVOKE ALL ON FUNCTION keep_audit_of(regclass) FROM PUBLIC;

-- Not audited: what is itself evidence, what is rebuilt from events, and the rows of a history file (its import is).
SELECT keep_audit_of(c.oid::regclass) FROM pg_class c
WHERE c.relnamespace = 'public'::regnamespace AND c.relkind = 'r'
  AND c.relname NOT IN ('audit', 'chain_link', 'chain_head', 'counter', 'stretch', 'history_item', '_prisma_migrations');

CREATE FUNCTION audit_digest(shop uuid, from_txid bigint, below bigint, OUT row_count bigint, OUT digest text)
LANGUAGE sql STABLE SET timezone = 'UTC' SET search_path = public, pg_temp AS $$
  SELECT count(*), encode(sha256(convert_to(coalesce(string_agg(concat_ws('|', a.id, a.at, a.txid, a.person_id, a.request_id,
    a.table_name, a.row_id, a.action, a.before::text, a.after::text), E'\n' ORDER BY a.id), ''), 'UTF8')), 'hex')
  FROM audit a WHERE a.shop_id = shop AND a.txid >= from_txid AND a.txid < below
$$;

-- Seals what no running transaction can still add to: rows of transactions older than the oldest that runs.
CREATE FUNCTION seal_audit() RETURNS integer
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE head record; below bigint := pg_snapshot_xmin(pg_current_snapshot())::text::bigint; sealed_rows integer := 0; batch record;
BEGIN
  INSERT INTO chain_head (shop_id, hash)
    SELECT s.id, sha256(convert_to(s.id::text, 'UTF8')) FROM shop s ON CONFLICT (shop_id) DO NOTHING;
  FOR head IN SELECT h.shop_id, h.sealed_below FROM chain_head h
    WHERE EXISTS (SELECT FROM audit a WHERE a.shop_id = h.shop_id AND a.txid >= h.sealed_below AND a.txid < below)
    ORDER BY h.shop_id LOOP
    -- Whoever holds the head is extending the chain; the next round comes soon.
    PERFORM FROM chain_head h WHERE h.shop_id = head.shop_id FOR UPDATE SKIP LOCKED;
    CONTINUE WHEN NOT FOUND;
    SELECT h.sealed_below INTO head.sealed_below FROM chain_head h WHERE h.shop_id = head.shop_id;
    SELECT * INTO batch FROM audit_digest(head.shop_id, head.sealed_below, below);
    CONTINUE WHEN batch.row_count = 0;
    PERFORM chain_append(head.shop_id, 'audit', NULL, jsonb_build_object(
      'from', head.sealed_below, 'below', below, 'rows', batch.row_count, 'sha256', batch.digest));
    UPDATE chain_head SET sealed_below = below WHERE shop_id = head.shop_id;
    sealed_rows := sealed_rows + batch.row_count;
  END LOOP;
  RETURN sealed_rows;
END $$;
REVOKE ALL ON FUNCTION seal_audit() FROM PUBLIC;
GRANT EXECUTE ON FUNCTION seal_audit() TO fairlead_jobs;

-- Every link that no longer holds, with the reason. Empty: the chain stands.
CREATE FUNCTION chain_faults() RETURNS TABLE (seq integer, fault text)
LANGUAGE plpgsql STABLE SECURITY DEFINER SET search_path = public, pg_temp SET timezone = 'UTC' AS $$
DECLARE link chain_link; expected bytea := sha256(convert_to(current_shop()::text, 'UTF8')); count_seen integer := 0; batch record; head chain_head;
BEGIN
  FOR link IN SELECT * FROM chain_link c WHERE c.shop_id = current_shop() ORDER BY c.seq LOOP
    count_seen := count_seen + 1; seq := link.seq;
    IF link.seq <> count_seen THEN fault := 'a link before it is missing'; RETURN NEXT; count_seen := link.seq; END IF;
    IF link.previous <> expected THEN fault := 'does not join the link before it'; RETURN NEXT; END IF;
    IF link.hash <> link_hash(link.previous, link.seq, link.kind, link.subject_id, link.payload) THEN
      fault := 'its content was changed'; RETURN NEXT;
    END IF;
    IF link.kind = 'audit' THEN
      SELECT * INTO batch FROM audit_digest(link.shop_id, (link.payload ->> 'from')::bigint, (link.payload ->> 'below')::bigint);
      IF batch.digest <> link.payload ->> 'sha256' THEN fault := 'audit rows it sealed were changed'; RETURN NEXT; END IF;
    -- Containment, so that a column added by a later migration breaks no old proof.
    ELSIF NOT coalesce(evidence_of(link.kind, link.subject_id) @> link.payload, false) THEN
      fault := format('the %s it proves was changed', link.kind); RETURN NEXT;
    END IF;
    expected := link.hash;
  END LOOP;
  SELECT * INTO head FROM chain_head h WHERE h.shop_id = current_shop();
  IF FOUND AND (head.seq <> count_seen OR (count_seen > 0 AND head.hash <> expected)) THEN
    seq := head.seq; fault := 'links at the end are missing'; RETURN NEXT;
  END IF;
END $$;
REVOKE ALL ON FUNCTION chain_faults() FROM PUBLIC;
GRANT EXECUTE ON FUNCTION chain_faults() TO fairlead_shop;

-- ── An owner's private link sees one order, or one quote, and nothing else ─────
CREATE FUNCTION current_link_order() RETURNS uuid LANGUAGE sql STABLE PARALLEL SAFE AS $$
  SELECT nullif(current_setting('app.link_order', true), '')::uuid
$$;
CREATE FUNCTION current_link_quote() RETURNS uuid LANGUAGE sql STABLE PARALLEL SAFE AS $$
  SELECT nullif(current_setting('app.link_quote', true), '')::uuid
$$;

CREATE FUNCTION resolve_link(hash bytea) RETURNS TABLE (shop_id uuid, order_id uuid, quote_id uuid, contact_id uuid)
LANGUAGE plpgsql VOLATILE SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  SELECT l.shop_id, l.order_id, l.quote_id, l.contact_id INTO shop_id, order_id, quote_id, contact_id FROM owner_link l
    WHERE l.secret_hash = hash AND l.revoked_at IS NULL AND l.expires_at > clock_timestamp();
  IF NOT FOUND THEN RETURN; END IF;
  PERFORM set_config('app.shop_id', shop_id::text, true), set_config('app.link_order', coalesce(order_id::text, ''), true),
    set_config('app.link_quote', coalesce(quote_id::text, ''), true);
  RETURN NEXT;
END $$;
REVOKE ALL ON FUNCTION resolve_link(bytea) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION resolve_link(bytea) TO fairlead_link;

GRANT SELECT ON shop, work_order, order_event, aircraft, aircraft_model, quote, quote_revision, quote_line, quote_sending, decision,
  finding, finding_event, finding_photo, photo, work_item, invoice, invoice_line, payment TO fairlead_link;
CREATE POLICY linked ON shop FOR SELECT TO fairlead_link USING (id = current_shop());
CREATE POLICY linked ON work_order FOR SELECT TO fairlead_link USING (shop_id = current_shop() AND id = current_link_order());
CREATE POLICY linked ON order_event FOR SELECT TO fairlead_link USING (shop_id = current_shop() AND order_id = current_link_order());
CREATE POLICY linked ON work_item FOR SELECT TO fairlead_link USING (shop_id = current_shop() AND order_id = current_link_order());
CREATE POLICY linked ON finding FOR SELECT TO fairlead_link USING (shop_id = current_shop() AND order_id = current_link_order());
CREATE POLICY linked ON quote FOR SELECT TO fairlead_link
  USING (shop_id = current_shop() AND (order_id = current_link_order() OR id = current_link_quote()));
-- The subqueries below run under these same policies, so they end at the same order.
CREATE POLICY linked ON quote_sending FOR SELECT TO fairlead_link USING (shop_id = current_shop());
CREATE POLICY linked ON quote_revision FOR SELECT TO fairlead_link USING (shop_id = current_shop()
  AND EXISTS (SELECT FROM quote q WHERE q.shop_id = quote_revision.shop_id AND q.id = quote_revision.quote_id)
  AND EXISTS (SELECT FROM quote_sending s WHERE s.shop_id = quote_revision.shop_id AND s.revision_id = quote_revision.id));
CREATE POLICY linked ON quote_line FOR SELECT TO fairlead_link USING (shop_id = current_shop()
  AND EXISTS (SELECT FROM quote_revision r WHERE r.shop_id = quote_line.shop_id AND r.id = quote_line.revision_id));
CREATE POLICY linked ON decision FOR SELECT TO fairlead_link USING (shop_id = current_shop()
  AND EXISTS (SELECT FROM quote_revision r WHERE r.shop_id = decision.shop_id AND r.id = decision.revision_id));
CREATE POLICY linked ON finding_event FOR SELECT TO fairlead_link USING (shop_id = current_shop()
  AND EXISTS (SELECT FROM finding f WHERE f.shop_id = finding_event.shop_id AND f.id = finding_event.finding_id));
CREATE POLICY linked ON finding_photo FOR SELECT TO fairlead_link USING (shop_id = current_shop()
  AND EXISTS (SELECT FROM finding f WHERE f.shop_id = finding_photo.shop_id AND f.id = finding_photo.finding_id));
CREATE POLICY linked ON photo FOR SELECT TO fairlead_link USING (shop_id = current_shop()
  AND EXISTS (SELECT FROM finding_photo p WHERE p.shop_id = photo.shop_id AND p.photo_id = photo.id));
CREATE POLICY linked ON aircraft FOR SELECT TO fairlead_link USING (shop_id = current_shop()
  AND (EXISTS (SELECT FROM work_order o WHERE o.shop_id = aircraft.shop_id AND o.aircraft_id = aircraft.id)
    OR EXISTS (SELECT FROM quote q WHERE q.shop_id = aircraft.shop_id AND q.aircraft_id = aircraft.id)));
CREATE POLICY linked ON aircraft_model FOR SELECT TO fairlead_link USING (shop_id = current_shop()
  AND EXISTS (SELECT FROM aircraft a WHERE a.shop_id = aircraft_model.shop_id AND a.model_id = aircraft_model.id));
CREATE POLICY linked ON invoice FOR SELECT TO fairlead_link
  USING (shop_id = current_shop() AND order_id = current_link_order() AND issued_at IS NOT NULL);
CREATE POLICY linked ON invoice_line FOR SELECT TO fairlead_link USING (shop_id = current_shop()
  AND EXISTS (SELECT FROM invoice v WHERE v.shop_id = invoice_line.shop_id AND v.id = invoice_line.invoice_id));
CREATE POLICY linked ON payment FOR SELECT TO fairlead_link USING (shop_id = current_shop()
  AND EXISTS (SELECT FROM invoice v WHERE v.shop_id = payment.shop_id AND v.id = payment.invoice_id));

-- ── What was clocked becomes the next estimate ────────────────────────────────
-- Past jobs, from history files and from this shop's own closed items, in one shape.
CREATE VIEW labour_history WITH (security_invoker = true) AS
  SELECT h.shop_id, h.completed_on, h.task, h.jasc, h.standard_hours::float8 AS standard_hours, h.model, h.registration,
    h.mechanics, h.hours, h.censored, a.clearance_mm, a.sight, a.posture, a.reach, a.swing_deg, a.held, a.locked_fasteners
  FROM history_item h LEFT JOIN access a ON a.shop_id = h.shop_id AND a.id = h.access_id
  UNION ALL
  SELECT i.shop_id, last.at::date, t.key, i.jasc, t.standard_hours::float8, m.maker || ' ' || m.name, c.registration,
    worked.mechanics, worked.hours, false, a.clearance_mm, a.sight, a.posture, a.reach, a.swing_deg, a.held, a.locked_fasteners
  FROM work_item i
  JOIN task t ON t.shop_id = i.shop_id AND t.id = i.task_id
  JOIN work_order o ON o.shop_id = i.shop_id AND o.id = i.order_id
  JOIN aircraft c ON c.shop_id = o.shop_id AND c.id = o.aircraft_id
  JOIN aircraft_model m ON m.shop_id = c.shop_id AND m.id = c.model_id
  JOIN LATERAL (SELECT e.kind, e.at, e.found_access_id FROM item_event e
    WHERE e.shop_id = i.shop_id AND e.item_id = i.id AND e.kind IN ('done', 'reopened') ORDER BY e.at DESC, e.id DESC LIMIT 1) last
    ON last.kind = 'done'
  JOIN LATERAL (SELECT sum(p.hours) AS hours, jsonb_agg(jsonb_build_object('name', n.name, 'share', p.hours)) AS mechanics
    FROM (SELECT s.person_id, sum(extract(epoch FROM s.ended_at - s.started_at))::float8 / 3600 AS hours FROM stretch s
      WHERE s.shop_id = i.shop_id AND s.item_id = i.id AND s.ended_at IS NOT NULL GROUP BY s.person_id) p
    JOIN person n ON n.shop_id = i.shop_id AND n.id = p.person_id) worked ON worked.hours > 0
  LEFT JOIN access a ON a.shop_id = i.shop_id AND a.id = coalesce(last.found_access_id, i.planned_access_id);
GRANT SELECT ON labour_history TO fairlead_shop;
