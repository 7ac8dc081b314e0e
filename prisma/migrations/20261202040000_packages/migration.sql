-- Packages that the shop makes and changes itself, each revision kept; which lines of the inspection rule a task answers.
-- AlterTable
ALTER TABLE "task" ADD COLUMN     "paragraphs" TEXT[] DEFAULT ARRAY[]::TEXT[];

-- AlterTable
ALTER TABLE "package" ADD COLUMN     "made_from_on" DATE;
ALTER TABLE "package" ADD COLUMN     "offered" BOOLEAN NOT NULL DEFAULT true;

-- CreateTable
CREATE TABLE "package_revision" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "package_id" UUID NOT NULL,
    "revision" INTEGER NOT NULL,
    "content" JSONB NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "package_revision_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "package_revision_shop_id_package_id_revision_key" ON "package_revision"("shop_id", "package_id", "revision");

-- CreateIndex
CREATE UNIQUE INDEX "package_revision_shop_id_id_key" ON "package_revision"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "package_revision" ADD CONSTRAINT "package_revision_shop_id_package_id_fkey" FOREIGN KEY ("shop_id", "package_id") REFERENCES "package"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "package_revision" ADD CONSTRAINT "package_revision_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop('package_revision');
SELECT keep_audit_of('package_revision');
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON package_revision FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON package_revision FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

ALTER TABLE package_revision ADD CONSTRAINT revision_counts_from_one CHECK (revision >= 1);
ALTER TABLE task ADD CONSTRAINT paragraphs_sensible CHECK (cardinality(paragraphs) <= 20);
