-- A line that is sold up to a limit which the shop keeps says that limit; no other line has one.
ALTER TABLE "quote_line" ADD COLUMN "limit_minor" BIGINT;
ALTER TABLE "quote_line" ADD CONSTRAINT "quote_line_limit_where_it_is_kept"
  CHECK (("pricing" = 'not_to_exceed') = ("limit_minor" IS NOT NULL) AND ("limit_minor" IS NULL OR "limit_minor" > 0));
