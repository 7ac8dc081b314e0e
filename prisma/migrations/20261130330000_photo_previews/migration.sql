-- A small picture of a photo may come before the photo itself, and stands in its place until that is here. Nothing else of
-- a photo ever changes, and that once: the audit trail keeps the digest of before.

ALTER TABLE "photo" ADD COLUMN "preview" BOOLEAN NOT NULL DEFAULT false;

CREATE FUNCTION photo_replaces_preview() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE picture constant text[] := '{preview,sha256,mime,width,height,bytes}';
BEGIN
  IF TG_OP = 'UPDATE' AND OLD.preview AND NOT NEW.preview AND to_jsonb(OLD) - picture = to_jsonb(NEW) - picture THEN
    RETURN NEW;
  END IF;
  RAISE EXCEPTION 'A photo is never changed or deleted: only the preview that came before it is replaced, once'
    USING ERRCODE = 'FL001';
END $$;

DROP TRIGGER appended_only ON photo;
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON photo FOR EACH ROW EXECUTE FUNCTION photo_replaces_preview();
GRANT UPDATE (preview, sha256, mime, width, height, bytes) ON photo TO fairlead_shop;
