-- Who signs an entry says again who they are: with their password, for that one entry, minutes before.
CREATE TABLE identity.sign_again (
  id         uuid PRIMARY KEY DEFAULT gen_random_uuid(),
  account_id uuid        NOT NULL REFERENCES identity.account ON DELETE CASCADE,
  -- SHA-256 of the token, and of what is to be signed.
  token      text        NOT NULL CHECK (token ~ '^[0-9a-f]{64}$'),
  what       text        NOT NULL CHECK (what ~ '^[0-9a-f]{64}$'),
  expires_at timestamptz NOT NULL,
  CONSTRAINT sign_again_token_key UNIQUE (token)
);
CREATE INDEX sign_again_account_idx ON identity.sign_again (account_id);
GRANT SELECT, INSERT, UPDATE, DELETE ON identity.sign_again TO fairlead_identity;

-- The shop's only door to it: uses one up, in the transaction that keeps the signature, so that a signature that is
-- refused uses up nothing. False where the token is not of the person who acts, not for this, used or run out.
CREATE FUNCTION use_sign_again(given text, signed text) RETURNS boolean
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  DELETE FROM identity.sign_again s USING identity.membership m
    WHERE s.token = given AND s.what = signed AND s.expires_at > now()
      AND m.account_id = s.account_id AND m.shop_id = current_shop()
      AND m.person_id = nullif(current_setting('app.person_id', true), '')::uuid;
  RETURN FOUND;
END $$;
REVOKE ALL ON FUNCTION use_sign_again(text, text) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION use_sign_again(text, text) TO fairlead_shop;
