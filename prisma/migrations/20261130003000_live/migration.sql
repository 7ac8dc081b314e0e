-- Whoever shows something learns that it changed: on the channel `fairlead`, the shop and the table, at the commit.
-- Ids only, never content, and the same word once a transaction however many rows it wrote. Sending takes a lock from
-- here to the end of the commit, so writers of all shops commit one after the other: milliseconds, and no shop is held
-- up by another's work.
CREATE FUNCTION tell_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM pg_notify('fairlead', NEW.shop_id || ' ' || NEW.table_name);
  RETURN NULL;
END $$;

CREATE TRIGGER told AFTER INSERT ON audit FOR EACH ROW EXECUTE FUNCTION tell_change();
