-- A hangar's shared tablet: people change on it by a PIN or a printed badge, only where the manager has registered it.

-- The device's cookie carries a token, the table its SHA-256, as for sessions.
CREATE TABLE identity.device (
  id            uuid PRIMARY KEY DEFAULT gen_random_uuid(),
  shop_id       uuid        NOT NULL REFERENCES public.shop (id),
  name          text        NOT NULL CHECK (length(name) BETWEEN 2 AND 60),
  token         text        NOT NULL CHECK (token ~ '^[0-9a-f]{64}$'),
  registered_by uuid        NOT NULL,
  registered_at timestamptz NOT NULL DEFAULT now(),
  CONSTRAINT device_token_key UNIQUE (token),
  CONSTRAINT device_registered_by_fkey FOREIGN KEY (shop_id, registered_by) REFERENCES public.person (shop_id, id)
);
CREATE INDEX device_shop ON identity.device (shop_id);

-- What somebody shows on a shared device. A PIN is kept as a salted scrypt digest, a badge's secret as its SHA-256.
CREATE TABLE identity.quick_key (
  account_id uuid        NOT NULL REFERENCES identity.account ON DELETE CASCADE,
  kind       text        NOT NULL CHECK (kind IN ('pin', 'badge')),
  digest     text        NOT NULL,
  set_at     timestamptz NOT NULL DEFAULT now(),
  PRIMARY KEY (account_id, kind)
);
CREATE UNIQUE INDEX quick_key_badge ON identity.quick_key (digest) WHERE kind = 'badge';

-- Wrong tries since the last right one, in the database so that they outlive a restart and count for all processes.
CREATE TABLE identity.quick_tries (
  device_id    uuid        NOT NULL REFERENCES identity.device ON DELETE CASCADE,
  -- Null: badges, which name nobody.
  account_id   uuid        REFERENCES identity.account ON DELETE CASCADE,
  failed       integer     NOT NULL DEFAULT 0,
  locked_until timestamptz,
  CONSTRAINT quick_tries_key UNIQUE NULLS NOT DISTINCT (device_id, account_id)
);

-- A session on a shared device ends with the device's registration.
ALTER TABLE identity.session ADD COLUMN device_id uuid REFERENCES identity.device ON DELETE CASCADE;
CREATE INDEX session_device ON identity.session (device_id);

GRANT SELECT, INSERT, UPDATE, DELETE ON identity.device, identity.quick_key, identity.quick_tries TO fairlead_identity;
