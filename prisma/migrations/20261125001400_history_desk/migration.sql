-- A history file that comes through the browser lies on the desk first: read through by the worker, then taken in by it.
-- And who took a file in, with how many of its rows were there already and how many were refused.

-- AlterTable
ALTER TABLE "history_import" ADD COLUMN     "already" INTEGER NOT NULL DEFAULT 0,
ADD COLUMN     "imported_by_id" UUID,
ADD COLUMN     "refused" INTEGER NOT NULL DEFAULT 0;

-- CreateTable
CREATE TABLE "history_upload" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "file_name" TEXT NOT NULL,
    "size" INTEGER NOT NULL,
    "content" BYTEA,
    "uploaded_at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "uploaded_by_id" UUID NOT NULL,
    "read_on" DATE,
    "good_rows" INTEGER NOT NULL DEFAULT 0,
    "already_rows" INTEGER NOT NULL DEFAULT 0,
    "refused_rows" INTEGER NOT NULL DEFAULT 0,
    "refusals" INTEGER NOT NULL DEFAULT 0,
    "first_refusals" JSONB NOT NULL DEFAULT '[]',
    "refused_csv" TEXT NOT NULL DEFAULT '',
    "problem" TEXT NOT NULL DEFAULT '',
    "taking_since" TIMESTAMPTZ(3),
    "saved_rows" INTEGER NOT NULL DEFAULT 0,
    "moved_at" TIMESTAMPTZ(3),
    "taken_at" TIMESTAMPTZ(3),
    "added_rows" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "history_upload_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "history_upload_shop_id_key" ON "history_upload"("shop_id");

-- CreateIndex
CREATE UNIQUE INDEX "history_upload_shop_id_id_key" ON "history_upload"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "history_import" ADD CONSTRAINT "history_import_shop_id_imported_by_id_fkey" FOREIGN KEY ("shop_id", "imported_by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "history_upload" ADD CONSTRAINT "history_upload_shop_id_uploaded_by_id_fkey" FOREIGN KEY ("shop_id", "uploaded_by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- A workbench: changed while the worker reads and saves, deleted when it is put away. Not audited, since it may hold
-- 64 MB and decides nothing; the import that comes of it is.
SELECT keep_to_one_shop('history_upload');
GRANT UPDATE, DELETE ON history_upload TO fairlead_shop;

ALTER TABLE history_upload
  ADD CONSTRAINT upload_counts_sensible CHECK (least(size, good_rows, already_rows, refused_rows, refusals, saved_rows, added_rows) >= 0),
  ADD CONSTRAINT upload_keeps_content_until_taken CHECK (content IS NOT NULL OR taken_at IS NOT NULL);
ALTER TABLE history_import ADD CONSTRAINT import_counts_not_negative CHECK (least(already, refused) >= 0);

-- Known before the first worker runs, so that a file that comes early waits for it.
SET LOCAL ROLE fairlead_jobs;
INSERT INTO jobs.known_task (name) VALUES ('read_history'), ('take_in_history') ON CONFLICT DO NOTHING;
RESET ROLE;
