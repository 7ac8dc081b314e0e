-- What was seen of a finding, in the terms of the tables of causes, and what it turned out to be.

-- CreateEnum
CREATE TYPE "outcome_kind" AS ENUM ('listed', 'other', 'normal');

-- CreateTable
CREATE TABLE "finding_sighting" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "finding_id" UUID NOT NULL,
    "symptom" TEXT NOT NULL,
    "answers" JSONB NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "by_id" UUID NOT NULL,
    "client_event_id" UUID NOT NULL,

    CONSTRAINT "finding_sighting_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "finding_outcome" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "finding_id" UUID NOT NULL,
    "symptom" TEXT NOT NULL,
    "kind" "outcome_kind" NOT NULL,
    "cause" TEXT NOT NULL DEFAULT '',
    "words" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL,
    "by_id" UUID NOT NULL,

    CONSTRAINT "finding_outcome_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "finding_sighting_shop_id_finding_id_idx" ON "finding_sighting"("shop_id", "finding_id");

-- CreateIndex
CREATE UNIQUE INDEX "finding_sighting_shop_id_client_event_id_key" ON "finding_sighting"("shop_id", "client_event_id");

-- CreateIndex
CREATE UNIQUE INDEX "finding_sighting_shop_id_id_key" ON "finding_sighting"("shop_id", "id");

-- CreateIndex
CREATE INDEX "finding_outcome_shop_id_finding_id_idx" ON "finding_outcome"("shop_id", "finding_id");

-- CreateIndex
CREATE INDEX "finding_outcome_shop_id_symptom_at_idx" ON "finding_outcome"("shop_id", "symptom", "at");

-- CreateIndex
CREATE UNIQUE INDEX "finding_outcome_shop_id_id_key" ON "finding_outcome"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "finding_sighting" ADD CONSTRAINT "finding_sighting_shop_id_finding_id_fkey" FOREIGN KEY ("shop_id", "finding_id") REFERENCES "finding"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "finding_sighting" ADD CONSTRAINT "finding_sighting_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "finding_outcome" ADD CONSTRAINT "finding_outcome_shop_id_finding_id_fkey" FOREIGN KEY ("shop_id", "finding_id") REFERENCES "finding"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "finding_outcome" ADD CONSTRAINT "finding_outcome_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop('finding_sighting');
SELECT keep_to_one_shop('finding_outcome');
SELECT keep_audit_of('finding_sighting');
SELECT keep_audit_of('finding_outcome');
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON finding_sighting FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON finding_sighting FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON finding_outcome FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON finding_outcome FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
-- The tables of causes are the program's and change with it; what is kept is at least of their form.
ALTER TABLE finding_sighting
  ADD CONSTRAINT sighting_names_a_symptom CHECK (symptom ~ '^[a-z][a-z_]{1,39}$'),
  ADD CONSTRAINT sighting_answers_by_question CHECK (jsonb_typeof(answers) = 'object');
ALTER TABLE finding_outcome
  ADD CONSTRAINT outcome_names_a_symptom CHECK (symptom ~ '^[a-z][a-z_]{1,39}$'),
  ADD CONSTRAINT outcome_names_its_cause CHECK ((kind = 'listed') = (cause <> '')),
  ADD CONSTRAINT outcome_says_what CHECK (kind = 'listed' OR words <> '');
