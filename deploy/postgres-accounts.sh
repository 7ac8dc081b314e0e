#!/bin/sh
# Runs once, when the database's volume is empty: the account that owns and migrates, and the
# application's account, which owns nothing and has no right but what the migrations give its roles.
set -eu
psql -v ON_ERROR_STOP=1 --username "$POSTGRES_USER" --dbname postgres \
  -v owner_password="$OWNER_PASSWORD" -v app_password="$APP_PASSWORD" <<'SQL'
create role fairlead_owner login nosuperuser nobypassrls createrole createdb password :'owner_password';
create role fairlead_app login nosuperuser nobypassrls noinherit password :'app_password';
create database fairlead owner fairlead_owner;
SQL
