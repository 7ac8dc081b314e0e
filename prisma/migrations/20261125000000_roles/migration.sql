-- The roles that a transaction may take on, and the schemas that stand beside the shop's own.
--
-- One login serves the application. It has no rights by itself: every transaction begins by choosing one of these roles,
-- and row-level security and table rights follow the role.
--
--   fairlead_shop      the application at work inside one shop
--   fairlead_link      an owner of an aircraft, through the private link sent to him
--   fairlead_identity  sign-in: accounts, sessions and memberships, which precede any shop
--   fairlead_jobs      the job queue, whose schema it owns
--
-- Roles belong to the whole server, so another database may have made them already, or be making them at this moment.
DO $$
DECLARE
  wanted text;
BEGIN
  FOREACH wanted IN ARRAY ARRAY['fairlead_shop', 'fairlead_link', 'fairlead_identity', 'fairlead_jobs'] LOOP
    IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = wanted) THEN
      BEGIN
        EXECUTE format('CREATE ROLE %I NOLOGIN NOSUPERUSER NOCREATEDB NOCREATEROLE NOREPLICATION NOBYPASSRLS', wanted);
      EXCEPTION WHEN duplicate_object OR unique_violation THEN
        NULL; -- Somebody else was faster.
      END;
    END IF;
    IF EXISTS (SELECT FROM pg_roles WHERE rolname = wanted AND (rolcanlogin OR rolsuper OR rolbypassrls)) THEN
      RAISE EXCEPTION 'The role % may log in, is a superuser or bypasses row-level security; it must do none of these', wanted
        USING HINT = format('ALTER ROLE %I NOLOGIN NOSUPERUSER NOBYPASSRLS', wanted);
    END IF;
  END LOOP;
END
$$;

-- Giving a schema to a role takes membership in it. A superuser has that already.
DO $$
BEGIN
  FOR attempt IN 1..20 LOOP
    BEGIN
      IF NOT pg_has_role(current_user, 'fairlead_jobs',
                         CASE WHEN current_setting('server_version_num')::int >= 160000 THEN 'SET' ELSE 'MEMBER' END) THEN
        EXECUTE format('GRANT fairlead_jobs TO %I', current_user);
      END IF;
      EXIT;
    EXCEPTION WHEN internal_error OR unique_violation THEN
      -- "tuple concurrently updated": another database is granting the same membership.
      IF attempt = 20 THEN RAISE; END IF;
      PERFORM pg_sleep(0.05);
    END;
  END LOOP;
END
$$;

-- Exclusion constraints on "same stand" and "same person" need equality of uuid in a GiST index.
CREATE EXTENSION IF NOT EXISTS btree_gist WITH SCHEMA public;

-- Nobody but the named roles has any business here. The migrator, as the database's owner, keeps everything.
REVOKE ALL ON SCHEMA public FROM PUBLIC;
-- fairlead_jobs calls single functions here, such as the one that seals the audit rows; no table is open to it.
GRANT USAGE ON SCHEMA public TO fairlead_shop, fairlead_link, fairlead_jobs;

CREATE SCHEMA identity;
REVOKE ALL ON SCHEMA identity FROM PUBLIC;
GRANT USAGE ON SCHEMA identity TO fairlead_identity;

-- The queue's own tables are made by its library, as fairlead_jobs, when the database is provisioned.
CREATE SCHEMA graphile_worker AUTHORIZATION fairlead_jobs;

-- Which jobs there are, and the one door through which the shop may ask for one.
CREATE SCHEMA jobs AUTHORIZATION fairlead_jobs;
