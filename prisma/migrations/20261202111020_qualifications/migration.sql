-- What a signature rests on besides a certificate: work done before, recent experience, what an inspection authorization and a
-- repair station rest on. Each is stated by name, with its paper.
-- CreateEnum
CREATE TYPE "qualification_kind" AS ENUM ('work_done', 'work_shown', 'served', 'found_able', 'inspection_activity', 'release_authorised', 'station_rating');

-- CreateTable
CREATE TABLE "qualification" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "person_id" UUID,
    "kind" "qualification_kind" NOT NULL,
    "subject" TEXT NOT NULL DEFAULT '',
    "valid_from" DATE NOT NULL,
    "valid_until" DATE,
    "paper" TEXT NOT NULL,
    "withdraws_id" UUID,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "qualification_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "qualification_shop_id_person_id_idx" ON "qualification"("shop_id", "person_id");

-- CreateIndex
CREATE UNIQUE INDEX "qualification_shop_id_withdraws_id_key" ON "qualification"("shop_id", "withdraws_id");

-- CreateIndex
CREATE UNIQUE INDEX "qualification_shop_id_id_key" ON "qualification"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "qualification" ADD CONSTRAINT "qualification_shop_id_person_id_fkey" FOREIGN KEY ("shop_id", "person_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "qualification" ADD CONSTRAINT "qualification_shop_id_withdraws_id_fkey" FOREIGN KEY ("shop_id", "withdraws_id") REFERENCES "qualification"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "qualification" ADD CONSTRAINT "qualification_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop('qualification');
SELECT keep_audit_of('qualification');
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON qualification FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON qualification FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

ALTER TABLE qualification
  ADD CONSTRAINT qualification_of_somebody CHECK ((kind = 'station_rating') = (person_id IS NULL)),
  ADD CONSTRAINT qualification_ends_after_it_began CHECK (valid_until >= valid_from),
  ADD CONSTRAINT qualification_names_its_paper CHECK (btrim(paper) <> ''),
  ADD CONSTRAINT qualification_names_its_subject CHECK ((kind IN ('served', 'found_able', 'inspection_activity')) = (subject = ''));
