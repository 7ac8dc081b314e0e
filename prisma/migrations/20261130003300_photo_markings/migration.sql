-- CreateTable
CREATE TABLE "photo_marking" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "photo_id" UUID NOT NULL,
    "marks" JSONB NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "photo_marking_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "photo_marking_shop_id_photo_id_idx" ON "photo_marking"("shop_id", "photo_id");

-- CreateIndex
CREATE UNIQUE INDEX "photo_marking_shop_id_id_key" ON "photo_marking"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "photo_marking" ADD CONSTRAINT "photo_marking_shop_id_photo_id_fkey" FOREIGN KEY ("shop_id", "photo_id") REFERENCES "photo"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "photo_marking" ADD CONSTRAINT "photo_marking_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop('photo_marking');
SELECT keep_audit_of('photo_marking');
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON photo_marking FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON photo_marking FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
ALTER TABLE photo_marking ADD CONSTRAINT marks_are_a_list CHECK (jsonb_typeof(marks) = 'array' AND jsonb_array_length(marks) <= 12);

-- The owner sees the marks on the photos that their link reaches.
GRANT SELECT ON photo_marking TO fairlead_link;
CREATE POLICY linked ON photo_marking FOR SELECT TO fairlead_link USING (shop_id = current_shop()
  AND EXISTS (SELECT FROM photo p WHERE p.shop_id = photo_marking.shop_id AND p.id = photo_marking.photo_id));
