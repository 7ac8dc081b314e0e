-- When an aircraft would be ready, as it was said; and on which day what work waits for is expected.

-- CreateEnum
CREATE TYPE "promise_outcome" AS ENUM ('promised', 'not_known', 'nobody_in', 'too_far');

-- CreateTable
CREATE TABLE "return_promise" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "revision_id" UUID,
    "order_id" UUID,
    "made_at" TIMESTAMPTZ(3) NOT NULL,
    "begins_on" DATE NOT NULL,
    "outcome" "promise_outcome" NOT NULL,
    "p50_on" DATE,
    "p80_on" DATE,
    "sentence" TEXT NOT NULL,
    "basis" JSONB NOT NULL,

    CONSTRAINT "return_promise_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "expectation" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "item_id" UUID,
    "part_id" UUID,
    "what" TEXT NOT NULL,
    "expected_on" DATE,
    "said_by" TEXT NOT NULL,
    "noted_at" TIMESTAMPTZ(3) NOT NULL,
    "noted_by_id" UUID NOT NULL,

    CONSTRAINT "expectation_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "return_promise_shop_id_order_id_idx" ON "return_promise"("shop_id", "order_id");

-- CreateIndex
CREATE UNIQUE INDEX "return_promise_shop_id_revision_id_key" ON "return_promise"("shop_id", "revision_id");

-- CreateIndex
CREATE UNIQUE INDEX "return_promise_shop_id_id_key" ON "return_promise"("shop_id", "id");

-- CreateIndex
CREATE INDEX "expectation_shop_id_item_id_idx" ON "expectation"("shop_id", "item_id");

-- CreateIndex
CREATE INDEX "expectation_shop_id_part_id_idx" ON "expectation"("shop_id", "part_id");

-- CreateIndex
CREATE UNIQUE INDEX "expectation_shop_id_id_key" ON "expectation"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "return_promise" ADD CONSTRAINT "return_promise_shop_id_revision_id_fkey" FOREIGN KEY ("shop_id", "revision_id") REFERENCES "quote_revision"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "return_promise" ADD CONSTRAINT "return_promise_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "expectation" ADD CONSTRAINT "expectation_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "expectation" ADD CONSTRAINT "expectation_shop_id_part_id_fkey" FOREIGN KEY ("shop_id", "part_id") REFERENCES "part"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop(each) FROM unnest('{return_promise,expectation}'::regclass[]) AS each;
SELECT keep_audit_of(each) FROM unnest('{return_promise,expectation}'::regclass[]) AS each;
ALTER TABLE expectation ADD CONSTRAINT expectation_shop_id_noted_by_id_fkey FOREIGN KEY (shop_id, noted_by_id) REFERENCES person (shop_id, id) ON DELETE RESTRICT ON UPDATE CASCADE;

CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON return_promise FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON expectation FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON return_promise FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON expectation FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

ALTER TABLE return_promise
  ADD CONSTRAINT promise_of_one_thing CHECK (num_nonnulls(revision_id, order_id) = 1),
  ADD CONSTRAINT promise_has_days CHECK (num_nonnulls(p50_on, p80_on) <> 1 AND (outcome <> 'promised' OR p50_on IS NOT NULL)
    AND (outcome IN ('promised', 'not_known') OR p50_on IS NULL)),
  ADD CONSTRAINT promise_in_order CHECK (begins_on <= p50_on AND p50_on <= p80_on);
ALTER TABLE expectation
  ADD CONSTRAINT expectation_of_something CHECK (num_nonnulls(item_id, part_id) >= 1),
  ADD CONSTRAINT expectation_in_words CHECK (length(what) BETWEEN 1 AND 120 AND length(said_by) BETWEEN 1 AND 120);

-- The owner's page shows the days of a revision that was sent; what they were computed from stays with the shop.
GRANT SELECT (id, shop_id, revision_id, begins_on, outcome, p50_on, p80_on, sentence) ON return_promise TO fairlead_link;
CREATE POLICY linked ON return_promise FOR SELECT TO fairlead_link USING (shop_id = current_shop()
  AND EXISTS (SELECT FROM quote_revision r WHERE r.shop_id = return_promise.shop_id AND r.id = return_promise.revision_id));
