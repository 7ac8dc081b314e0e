-- What has to be opened before a task, so that it is quoted once for all that is done behind it.
-- AlterTable
ALTER TABLE "task" ADD COLUMN     "opening_id" UUID;

-- AddForeignKey
ALTER TABLE "task" ADD CONSTRAINT "task_shop_id_opening_id_fkey" FOREIGN KEY ("shop_id", "opening_id") REFERENCES "task"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE task ADD CONSTRAINT task_never_opens_itself CHECK (opening_id <> id);
