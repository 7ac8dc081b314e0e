-- Sign-in. These tables are outside the Prisma schema: only the sign-in library and two queries of ours touch them, in the
-- role fairlead_identity, which sees nothing else. The shop's role in turn sees none of this.

CREATE TABLE identity.account (
  id             uuid PRIMARY KEY DEFAULT gen_random_uuid(),
  name           text        NOT NULL CHECK (name <> ''),
  email          text        NOT NULL CHECK (email = lower(email) AND email LIKE '%_@_%'),
  email_verified boolean     NOT NULL DEFAULT false,
  image          text,
  created_at     timestamptz NOT NULL DEFAULT now(),
  updated_at     timestamptz NOT NULL DEFAULT now(),
  CONSTRAINT account_email_key UNIQUE (email)
);

-- How an account proves itself. A password is kept as a salted scrypt digest.
CREATE TABLE identity.credential (
  id                       uuid PRIMARY KEY DEFAULT gen_random_uuid(),
  account_id               uuid        NOT NULL REFERENCES identity.account ON DELETE CASCADE,
  provider_id              text        NOT NULL,
  provider_account_id      text        NOT NULL,
  password                 text,
  access_token             text,
  refresh_token            text,
  id_token                 text,
  access_token_expires_at  timestamptz,
  refresh_token_expires_at timestamptz,
  scope                    text,
  created_at               timestamptz NOT NULL DEFAULT now(),
  updated_at               timestamptz NOT NULL DEFAULT now(),
  CONSTRAINT credential_provider_key UNIQUE (provider_id, provider_account_id)
);
CREATE INDEX credential_account ON identity.credential (account_id);

-- The cookie carries the token, the table its SHA-256 in hexadecimal: whoever reads the table can sign in as nobody.
CREATE TABLE identity.session (
  id         uuid PRIMARY KEY DEFAULT gen_random_uuid(),
  account_id uuid        NOT NULL REFERENCES identity.account ON DELETE CASCADE,
  token      text        NOT NULL CHECK (token ~ '^[0-9a-f]{64}$'),
  expires_at timestamptz NOT NULL,
  ip_address text,
  user_agent text,
  created_at timestamptz NOT NULL DEFAULT now(),
  updated_at timestamptz NOT NULL DEFAULT now(),
  CONSTRAINT session_token_key UNIQUE (token)
);
CREATE INDEX session_account ON identity.session (account_id);
CREATE INDEX session_expires ON identity.session (expires_at);

CREATE TABLE identity.verification (
  id         uuid PRIMARY KEY DEFAULT gen_random_uuid(),
  identifier text        NOT NULL,
  value      text        NOT NULL,
  expires_at timestamptz NOT NULL,
  created_at timestamptz NOT NULL DEFAULT now(),
  updated_at timestamptz NOT NULL DEFAULT now()
);
CREATE INDEX verification_identifier ON identity.verification (identifier);

-- Who an account is, and where. For the time being an account works in one shop.
CREATE TABLE identity.membership (
  account_id uuid        NOT NULL REFERENCES identity.account ON DELETE CASCADE,
  shop_id    uuid        NOT NULL,
  person_id  uuid        NOT NULL,
  created_at timestamptz NOT NULL DEFAULT now(),
  PRIMARY KEY (account_id),
  CONSTRAINT membership_person_key UNIQUE (shop_id, person_id),
  CONSTRAINT membership_person_fkey FOREIGN KEY (shop_id, person_id) REFERENCES public.person (shop_id, id)
);

GRANT SELECT, INSERT, UPDATE, DELETE
  ON identity.account, identity.credential, identity.session, identity.verification, identity.membership
  TO fairlead_identity;
