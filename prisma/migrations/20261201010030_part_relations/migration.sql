-- What may stand in for a part: the number that supersedes it, or an alternate. The newest word about a pair holds.

-- CreateEnum
CREATE TYPE "part_relation_kind" AS ENUM ('superseded', 'alternate', 'withdrawn');

-- CreateTable
CREATE TABLE "part_relation" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "part_id" UUID NOT NULL,
    "instead_id" UUID NOT NULL,
    "kind" "part_relation_kind" NOT NULL,
    "source" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "part_relation_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "part_relation_shop_id_part_id_idx" ON "part_relation"("shop_id", "part_id");

-- CreateIndex
CREATE INDEX "part_relation_shop_id_instead_id_idx" ON "part_relation"("shop_id", "instead_id");

-- CreateIndex
CREATE UNIQUE INDEX "part_relation_shop_id_id_key" ON "part_relation"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "part_relation" ADD CONSTRAINT "part_relation_shop_id_part_id_fkey" FOREIGN KEY ("shop_id", "part_id") REFERENCES "part"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "part_relation" ADD CONSTRAINT "part_relation_shop_id_instead_id_fkey" FOREIGN KEY ("shop_id", "instead_id") REFERENCES "part"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "part_relation" ADD CONSTRAINT "part_relation_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop('part_relation');
SELECT keep_audit_of('part_relation');
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON part_relation FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON part_relation FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

ALTER TABLE part_relation
  ADD CONSTRAINT part_instead_of_another CHECK (part_id <> instead_id);

-- One direction, no circle: whoever goes from a part to what stands in for it never comes back to where they were. Two who add
-- at once wait for each other, or each would miss what the other closes.
CREATE FUNCTION part_relation_has_no_circle() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NEW.kind = 'withdrawn' THEN RETURN NULL; END IF;
  PERFORM pg_advisory_xact_lock(hashtextextended(concat_ws(':', NEW.shop_id, 'part_relation'), 0));
  IF EXISTS (
    WITH RECURSIVE holds AS (
      SELECT part_id, instead_id FROM (
        SELECT DISTINCT ON (r.part_id, r.instead_id) r.part_id, r.instead_id, r.kind FROM part_relation r
        WHERE r.shop_id = NEW.shop_id ORDER BY r.part_id, r.instead_id, r.at DESC, r.id DESC) newest
      WHERE kind <> 'withdrawn'
    ), reached AS (
      SELECT NEW.instead_id AS part
      UNION
      SELECT h.instead_id FROM holds h JOIN reached ON h.part_id = reached.part
    )
    SELECT FROM reached WHERE part = NEW.part_id)
  THEN
    RAISE EXCEPTION 'part_relation_has_no_circle: it would lead back to the part itself' USING ERRCODE = 'FL002';
  END IF;
  RETURN NULL;
END $$;
CREATE TRIGGER has_no_circle AFTER INSERT ON part_relation FOR EACH ROW EXECUTE FUNCTION part_relation_has_no_circle();
