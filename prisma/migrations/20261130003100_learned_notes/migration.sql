-- CreateTable
CREATE TABLE "learned_note" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "task_id" UUID,
    "model_id" UUID,
    "part_id" UUID,
    "item_id" UUID,
    "words" TEXT NOT NULL,
    "client_event_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "learned_note_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "learned_note_photo" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "note_id" UUID NOT NULL,
    "photo_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,

    CONSTRAINT "learned_note_photo_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "learned_note_judgement" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "note_id" UUID NOT NULL,
    "still_true" BOOLEAN NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "learned_note_judgement_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "learned_note_shop_id_task_id_idx" ON "learned_note"("shop_id", "task_id");

-- CreateIndex
CREATE INDEX "learned_note_shop_id_part_id_idx" ON "learned_note"("shop_id", "part_id");

-- CreateIndex
CREATE UNIQUE INDEX "learned_note_shop_id_client_event_id_key" ON "learned_note"("shop_id", "client_event_id");

-- CreateIndex
CREATE UNIQUE INDEX "learned_note_shop_id_id_key" ON "learned_note"("shop_id", "id");

-- CreateIndex
CREATE UNIQUE INDEX "learned_note_photo_shop_id_note_id_photo_id_key" ON "learned_note_photo"("shop_id", "note_id", "photo_id");

-- CreateIndex
CREATE UNIQUE INDEX "learned_note_photo_shop_id_id_key" ON "learned_note_photo"("shop_id", "id");

-- CreateIndex
CREATE INDEX "learned_note_judgement_shop_id_note_id_idx" ON "learned_note_judgement"("shop_id", "note_id");

-- CreateIndex
CREATE UNIQUE INDEX "learned_note_judgement_shop_id_id_key" ON "learned_note_judgement"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "learned_note" ADD CONSTRAINT "learned_note_shop_id_task_id_fkey" FOREIGN KEY ("shop_id", "task_id") REFERENCES "task"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "learned_note" ADD CONSTRAINT "learned_note_shop_id_model_id_fkey" FOREIGN KEY ("shop_id", "model_id") REFERENCES "aircraft_model"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "learned_note" ADD CONSTRAINT "learned_note_shop_id_part_id_fkey" FOREIGN KEY ("shop_id", "part_id") REFERENCES "part"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "learned_note" ADD CONSTRAINT "learned_note_shop_id_item_id_fkey" FOREIGN KEY ("shop_id", "item_id") REFERENCES "work_item"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "learned_note" ADD CONSTRAINT "learned_note_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "learned_note_photo" ADD CONSTRAINT "learned_note_photo_shop_id_note_id_fkey" FOREIGN KEY ("shop_id", "note_id") REFERENCES "learned_note"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "learned_note_photo" ADD CONSTRAINT "learned_note_photo_shop_id_photo_id_fkey" FOREIGN KEY ("shop_id", "photo_id") REFERENCES "photo"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "learned_note_judgement" ADD CONSTRAINT "learned_note_judgement_shop_id_note_id_fkey" FOREIGN KEY ("shop_id", "note_id") REFERENCES "learned_note"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "learned_note_judgement" ADD CONSTRAINT "learned_note_judgement_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;


SELECT keep_to_one_shop(each) FROM unnest('{learned_note,learned_note_photo,learned_note_judgement}'::regclass[]) AS each;
SELECT keep_audit_of(each) FROM unnest('{learned_note,learned_note_photo,learned_note_judgement}'::regclass[]) AS each;

CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON learned_note FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON learned_note FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON learned_note_judgement FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON learned_note_judgement FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

ALTER TABLE learned_note
  ADD CONSTRAINT learned_of_task_or_part CHECK ((task_id IS NULL) <> (part_id IS NULL)),
  ADD CONSTRAINT learned_part_has_no_model CHECK (part_id IS NULL OR model_id IS NULL),
  ADD CONSTRAINT learned_says_something CHECK (length(words) BETWEEN 3 AND 500);
