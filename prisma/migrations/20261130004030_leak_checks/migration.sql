-- Looks for leaks, appointed and made: after standing and after the run-up.
-- CreateEnum
CREATE TYPE "leak_check_kind" AS ENUM ('after_standing', 'after_run_up');

-- CreateEnum
CREATE TYPE "leak_seen" AS ENUM ('dry', 'stain', 'running_leak');

-- CreateEnum
CREATE TYPE "leak_fluid" AS ENUM ('fuel', 'oil', 'hydraulic', 'other');

-- CreateTable
CREATE TABLE "leak_check" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "order_id" UUID NOT NULL,
    "kind" "leak_check_kind" NOT NULL,
    "planned_for" TIMESTAMPTZ(3),
    "seen" "leak_seen",
    "fluid" "leak_fluid",
    "stain_inches" DECIMAL(5,2),
    "words" TEXT NOT NULL DEFAULT '',
    "finding_id" UUID,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,
    "client_event_id" UUID NOT NULL,

    CONSTRAINT "leak_check_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "leak_check_shop_id_order_id_idx" ON "leak_check"("shop_id", "order_id");

-- CreateIndex
CREATE UNIQUE INDEX "leak_check_shop_id_client_event_id_key" ON "leak_check"("shop_id", "client_event_id");

-- CreateIndex
CREATE UNIQUE INDEX "leak_check_shop_id_id_key" ON "leak_check"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "leak_check" ADD CONSTRAINT "leak_check_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "leak_check" ADD CONSTRAINT "leak_check_shop_id_finding_id_fkey" FOREIGN KEY ("shop_id", "finding_id") REFERENCES "finding"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "leak_check" ADD CONSTRAINT "leak_check_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop('leak_check');
SELECT keep_audit_of('leak_check');
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON leak_check FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON leak_check FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

ALTER TABLE leak_check
  ADD CONSTRAINT look_appointed_or_made CHECK (num_nonnulls(planned_for, seen) = 1),
  ADD CONSTRAINT stain_has_its_size CHECK ((seen IS NOT DISTINCT FROM 'stain') = (stain_inches IS NOT NULL)),
  ADD CONSTRAINT stain_sensible CHECK (stain_inches > 0 AND stain_inches <= 200),
  ADD CONSTRAINT leak_names_its_fluid CHECK ((fluid IS NOT NULL) = (seen IS NOT NULL AND seen <> 'dry')),
  ADD CONSTRAINT dry_needs_no_finding CHECK (finding_id IS NULL OR seen <> 'dry');
