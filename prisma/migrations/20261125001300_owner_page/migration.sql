-- What the owner's page shows of the work besides the offers: how far each item is, who decided, and how far the
-- link's own contact may decide. Columns are named, so that notes, hours, people and addresses stay with the shop.

CREATE FUNCTION current_link_contact() RETURNS uuid LANGUAGE sql STABLE PARALLEL SAFE AS $$
  SELECT nullif(current_setting('app.link_contact', true), '')::uuid
$$;

-- As before, and: a link to the quote of a visit reaches the order that its owner's yes made of it.
CREATE OR REPLACE FUNCTION resolve_link(hash bytea) RETURNS TABLE (shop_id uuid, order_id uuid, quote_id uuid, contact_id uuid)
LANGUAGE plpgsql VOLATILE SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  SELECT l.shop_id, coalesce(l.order_id, (SELECT q.order_id FROM quote q
      WHERE q.shop_id = l.shop_id AND q.id = l.quote_id AND q.finding_id IS NULL)), l.quote_id, l.contact_id
    INTO shop_id, order_id, quote_id, contact_id FROM owner_link l
    WHERE l.secret_hash = hash AND l.revoked_at IS NULL AND l.expires_at > clock_timestamp();
  IF NOT FOUND THEN RETURN; END IF;
  PERFORM set_config('app.shop_id', shop_id::text, true), set_config('app.link_order', coalesce(order_id::text, ''), true),
    set_config('app.link_quote', coalesce(quote_id::text, ''), true), set_config('app.link_contact', contact_id::text, true);
  RETURN NEXT;
END $$;

GRANT SELECT (id, shop_id, item_id, kind, waiting_for, at, by_id) ON item_event TO fairlead_link;
GRANT SELECT (id, shop_id, item_id) ON stretch TO fairlead_link;
GRANT SELECT (id, shop_id, name) ON contact TO fairlead_link;
GRANT SELECT (id, shop_id, aircraft_id, contact_id, capacity, may_authorise_minor, since, until) ON aircraft_contact TO fairlead_link;

-- The subqueries run under the policies of the same role, so they end at the same order.
CREATE POLICY linked ON item_event FOR SELECT TO fairlead_link USING (shop_id = current_shop()
  AND EXISTS (SELECT FROM work_item i WHERE i.shop_id = item_event.shop_id AND i.id = item_event.item_id));
CREATE POLICY linked ON stretch FOR SELECT TO fairlead_link USING (shop_id = current_shop()
  AND EXISTS (SELECT FROM work_item i WHERE i.shop_id = stretch.shop_id AND i.id = stretch.item_id));
CREATE POLICY linked ON contact FOR SELECT TO fairlead_link USING (shop_id = current_shop()
  AND (id = current_link_contact()
    OR EXISTS (SELECT FROM decision d WHERE d.shop_id = contact.shop_id AND d.contact_id = contact.id)));
CREATE POLICY linked ON aircraft_contact FOR SELECT TO fairlead_link
  USING (shop_id = current_shop() AND contact_id = current_link_contact());
