-- Where somebody stopped, and what one shift leaves to the next; each taken over once, by name.
-- CreateTable
CREATE TABLE "hand_over" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID NOT NULL,
    "item_id" UUID,
    "done" TEXT NOT NULL DEFAULT '',
    "not_done" TEXT NOT NULL,
    "loose" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,
    "client_event_id" UUID NOT NULL,

    CONSTRAINT "hand_over_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "take_over" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "hand_over_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,
    "client_event_id" UUID NOT NULL,

    CONSTRAINT "take_over_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "hand_over_shop_id_order_id_idx" ON "hand_over"("shop_id", "order_id");

-- CreateIndex
CREATE INDEX "hand_over_shop_id_item_id_idx" ON "hand_over"("shop_id", "item_id");

-- CreateIndex
CREATE UNIQUE INDEX "hand_over_shop_id_client_event_id_key" ON "hand_over"("shop_id", "client_event_id");

-- CreateIndex
CREATE UNIQUE INDEX "hand_over_shop_id_id_key" ON "hand_over"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "take_over_shop_id_hand_over_id_key" ON "take_over"("shop_id", "hand_over_id");

-- CreateIndex
CREATE UNIQUE INDEX "take_over_shop_id_client_event_id_key" ON "take_over"("shop_id", "client_event_id");

-- CreateIndex
CREATE UNIQUE INDEX "take_over_shop_id_id_key" ON "take_over"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "hand_over" ADD CONSTRAINT "hand_over_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "hand_over" ADD CONSTRAINT "hand_over_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "hand_over" ADD CONSTRAINT "hand_over_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "take_over" ADD CONSTRAINT "take_over_shop_id_hand_over_id_fkey" FOREIGN KEY ("shop_id", "hand_over_id") REFERENCES "hand_over"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "take_over" ADD CONSTRAINT "take_over_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop(each) FROM unnest('{hand_over,take_over}'::regclass[]) AS each;
SELECT keep_audit_of(each) FROM unnest('{hand_over,take_over}'::regclass[]) AS each;
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON hand_over FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON take_over FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON hand_over FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON take_over FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

ALTER TABLE hand_over ADD CONSTRAINT hand_over_in_words CHECK (length(not_done) BETWEEN 1 AND 2000 AND length(done) <= 2000 AND length(loose) <= 500);
