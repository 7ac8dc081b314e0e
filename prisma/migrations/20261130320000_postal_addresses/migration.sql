-- Postal addresses of the shop and of whoever pays, its registrations, and both as they were when an invoice was issued.
ALTER TABLE "shop" ADD COLUMN "address_line1" TEXT,
ADD COLUMN "address_line2" TEXT,
ADD COLUMN "city" TEXT,
ADD COLUMN "country" CHAR(2),
ADD COLUMN "exemption_reason" TEXT,
ADD COLUMN "postcode" TEXT,
ADD COLUMN "registration_number" TEXT,
ADD COLUMN "tax_number" TEXT,
ADD COLUMN "vat_number" TEXT;

ALTER TABLE "contact" ADD COLUMN "address_line1" TEXT,
ADD COLUMN "address_line2" TEXT,
ADD COLUMN "city" TEXT,
ADD COLUMN "country" CHAR(2),
ADD COLUMN "postcode" TEXT;

ALTER TABLE "invoice" ADD COLUMN "buyer" JSONB,
ADD COLUMN "seller" JSONB;

-- ── An address is whole, or is not there ──────────────────────────────────────
ALTER TABLE shop
  ADD CONSTRAINT shop_address_whole CHECK (num_nonnulls(address_line1, city, country) IN (0, 3)
    AND (country IS NOT NULL OR num_nonnulls(address_line2, postcode) = 0)
    AND '' NOT IN (coalesce(address_line1, '-'), coalesce(city, '-'))),
  ADD CONSTRAINT shop_country_iso_3166 CHECK (country ~ '^[A-Z]{2}$'),
  -- BR-CO-09: the number begins with the country that gave it.
  ADD CONSTRAINT shop_vat_number_has_country CHECK (vat_number ~ '^[A-Z]{2}.'),
  ADD CONSTRAINT shop_registrations_not_empty CHECK ('' NOT IN (coalesce(vat_number, '-'), coalesce(tax_number, '-'),
    coalesce(registration_number, '-'), coalesce(exemption_reason, '-')));

ALTER TABLE contact
  ADD CONSTRAINT contact_address_whole CHECK (num_nonnulls(address_line1, city, country) IN (0, 3)
    AND (country IS NOT NULL OR num_nonnulls(address_line2, postcode) = 0)
    AND '' NOT IN (coalesce(address_line1, '-'), coalesce(city, '-'))),
  ADD CONSTRAINT contact_country_iso_3166 CHECK (country ~ '^[A-Z]{2}$');

-- ── An issued invoice keeps who billed whom ───────────────────────────────────
ALTER TABLE invoice ADD CONSTRAINT parties_of_an_issued_one CHECK (issued_at IS NOT NULL OR num_nonnulls(seller, buyer) = 0);

-- Written here and nowhere else, so that nobody can issue in another's name; the link of the chain covers it.
CREATE FUNCTION invoice_keeps_parties() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  SELECT jsonb_strip_nulls(jsonb_build_object('name', s.name, 'addressLine1', s.address_line1, 'addressLine2', s.address_line2,
      'city', s.city, 'postcode', s.postcode, 'country', s.country, 'vatNumber', s.vat_number, 'taxNumber', s.tax_number,
      'registrationNumber', s.registration_number, 'exemptionReason', s.exemption_reason))
    INTO NEW.seller FROM shop s WHERE s.id = NEW.shop_id;
  SELECT jsonb_strip_nulls(jsonb_build_object('name', c.name, 'addressLine1', c.address_line1, 'addressLine2', c.address_line2,
      'city', c.city, 'postcode', c.postcode, 'country', c.country))
    INTO NEW.buyer FROM contact c WHERE c.shop_id = NEW.shop_id AND c.id = NEW.contact_id;
  RETURN NEW;
END $$;
-- After "issued_for_good", which refuses what may not be issued: triggers of a kind go by their names.
CREATE TRIGGER keeps_parties BEFORE UPDATE ON invoice FOR EACH ROW
  WHEN (OLD.issued_at IS NULL AND NEW.issued_at IS NOT NULL) EXECUTE FUNCTION invoice_keeps_parties();
