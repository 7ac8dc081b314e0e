-- What was scrapped says why; a count keeps what was counted beside the difference that it made; and whoever moved a lot is
-- one of the shop's people.

ALTER TABLE "stock_movement" ADD COLUMN "counted" DECIMAL(12,3);

-- AddForeignKey
ALTER TABLE "stock_movement" ADD CONSTRAINT "stock_movement_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

ALTER TABLE stock_movement
  ADD CONSTRAINT counted_goes_with_a_count CHECK ((kind = 'count') = (counted IS NOT NULL)),
  ADD CONSTRAINT counted_not_negative CHECK (counted >= 0),
  ADD CONSTRAINT scrap_says_why CHECK (kind <> 'scrap' OR reason <> ''),
  ADD CONSTRAINT difference_says_why CHECK (kind <> 'count' OR quantity = 0 OR reason <> '');
