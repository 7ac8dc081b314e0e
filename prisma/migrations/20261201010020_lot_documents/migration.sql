-- The release certificate itself: a photo or a PDF, kept as it came, under its digest.

-- CreateTable
CREATE TABLE "lot_document" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "lot_id" UUID NOT NULL,
    "sha256" CHAR(64) NOT NULL,
    "mime" TEXT NOT NULL,
    "bytes" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "lot_document_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "lot_document_shop_id_lot_id_sha256_key" ON "lot_document"("shop_id", "lot_id", "sha256");

-- CreateIndex
CREATE UNIQUE INDEX "lot_document_shop_id_id_key" ON "lot_document"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "lot_document" ADD CONSTRAINT "lot_document_shop_id_lot_id_fkey" FOREIGN KEY ("shop_id", "lot_id") REFERENCES "lot"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_document" ADD CONSTRAINT "lot_document_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop('lot_document');
SELECT keep_audit_of('lot_document');
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON lot_document FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON lot_document FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

ALTER TABLE lot_document
  ADD CONSTRAINT document_sha256 CHECK (sha256 ~ '^[0-9a-f]{64}$'),
  ADD CONSTRAINT document_pdf_or_jpeg CHECK (mime IN ('application/pdf', 'image/jpeg')),
  ADD CONSTRAINT document_has_bytes CHECK (bytes > 0);
