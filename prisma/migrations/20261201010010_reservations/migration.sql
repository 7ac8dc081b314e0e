-- What lies in a lot may be kept for an order. Reserving and giving free are facts; what is reserved now follows from them, from
-- what was issued out of it, and from whether the order still goes on. Beside it: against what an issue was made all the same.

-- CreateEnum
CREATE TYPE "reservation_kind" AS ENUM ('reserved', 'released');

-- CreateEnum
CREATE TYPE "issue_exception" AS ENUM ('no_trace', 'past_shelf_life', 'reserved_for_others');

-- AlterTable
ALTER TABLE "stock_movement" ADD COLUMN     "despite" "issue_exception"[] DEFAULT ARRAY[]::"issue_exception"[],
ADD COLUMN     "from_reserved" DECIMAL(12,3) NOT NULL DEFAULT 0;

-- CreateTable
CREATE TABLE "reservation_event" (
    "id" UUID NOT NULL DEFAULT uuid_v7(),
    "shop_id" UUID NOT NULL DEFAULT current_shop(),
    "lot_id" UUID NOT NULL,
    "order_id" UUID NOT NULL,
    "kind" "reservation_kind" NOT NULL,
    "quantity" DECIMAL(12,3) NOT NULL,
    "reason" TEXT NOT NULL DEFAULT '',
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "by_id" UUID NOT NULL,

    CONSTRAINT "reservation_event_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "reservation_event_shop_id_lot_id_idx" ON "reservation_event"("shop_id", "lot_id");

-- CreateIndex
CREATE INDEX "reservation_event_shop_id_order_id_idx" ON "reservation_event"("shop_id", "order_id");

-- CreateIndex
CREATE UNIQUE INDEX "reservation_event_shop_id_id_key" ON "reservation_event"("shop_id", "id");

-- AddForeignKey
ALTER TABLE "reservation_event" ADD CONSTRAINT "reservation_event_shop_id_lot_id_fkey" FOREIGN KEY ("shop_id", "lot_id") REFERENCES "lot"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "reservation_event" ADD CONSTRAINT "reservation_event_shop_id_order_id_fkey" FOREIGN KEY ("shop_id", "order_id") REFERENCES "work_order"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "reservation_event" ADD CONSTRAINT "reservation_event_shop_id_by_id_fkey" FOREIGN KEY ("shop_id", "by_id") REFERENCES "person"("shop_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

SELECT keep_to_one_shop('reservation_event');
SELECT keep_audit_of('reservation_event');
CREATE TRIGGER appended_only BEFORE UPDATE OR DELETE ON reservation_event FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON reservation_event FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

ALTER TABLE reservation_event
  ADD CONSTRAINT reserves_something CHECK (quantity > 0);
ALTER TABLE stock_movement
  ADD CONSTRAINT reserved_part_of_an_issue CHECK (
    CASE WHEN kind = 'issue' THEN from_reserved BETWEEN 0 AND -quantity ELSE from_reserved = 0 END),
  ADD CONSTRAINT despite_is_answered_for CHECK (
    cardinality(despite) = 0 OR (kind = 'issue' AND reason <> '' AND by_id IS NOT NULL));

-- What is reserved of a lot now, for one order or for all that still go on.
CREATE FUNCTION lot_reserved(shop uuid, lot uuid, for_order uuid) RETURNS numeric LANGUAGE sql STABLE AS $$
  SELECT coalesce(sum(each.quantity), 0) FROM (
    SELECT r.order_id, CASE r.kind WHEN 'reserved' THEN r.quantity ELSE -r.quantity END AS quantity
      FROM reservation_event r WHERE r.shop_id = shop AND r.lot_id = lot
    UNION ALL
    SELECT i.order_id, -m.from_reserved FROM stock_movement m JOIN work_item i ON i.shop_id = m.shop_id AND i.id = m.item_id
      WHERE m.shop_id = shop AND m.lot_id = lot AND m.from_reserved > 0) each
  WHERE (for_order IS NULL OR each.order_id = for_order)
    AND NOT EXISTS (SELECT FROM order_event e WHERE e.shop_id = shop AND e.order_id = each.order_id
      AND e.kind IN ('released', 'closed', 'cancelled'))
$$;

-- Never more than lies free, never more given back or taken than was reserved. The lot's row is locked first: two who reserve
-- at once would each see what the other has not yet taken.
CREATE FUNCTION reserved_lies_there() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE there numeric;
BEGIN
  SELECT on_hand INTO there FROM lot WHERE shop_id = NEW.shop_id AND id = NEW.lot_id FOR UPDATE;
  IF NEW.kind = 'reserved' AND lot_reserved(NEW.shop_id, NEW.lot_id, NULL) > there THEN
    RAISE EXCEPTION 'reserved_lies_there: more would be reserved than the lot holds' USING ERRCODE = 'FL002';
  END IF;
  IF NEW.kind = 'released' AND lot_reserved(NEW.shop_id, NEW.lot_id, NEW.order_id) < 0 THEN
    RAISE EXCEPTION 'reserved_lies_there: more would be given free than is reserved' USING ERRCODE = 'FL002';
  END IF;
  RETURN NULL;
END $$;
CREATE TRIGGER lies_there AFTER INSERT ON reservation_event FOR EACH ROW EXECUTE FUNCTION reserved_lies_there();

CREATE FUNCTION issued_was_reserved() RETURNS trigger
LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF lot_reserved(NEW.shop_id, NEW.lot_id,
      (SELECT order_id FROM work_item WHERE shop_id = NEW.shop_id AND id = NEW.item_id)) < 0 THEN
    RAISE EXCEPTION 'reserved_lies_there: more would be issued of a reservation than it holds' USING ERRCODE = 'FL002';
  END IF;
  RETURN NULL;
END $$;
CREATE TRIGGER was_reserved AFTER INSERT ON stock_movement FOR EACH ROW WHEN (NEW.from_reserved > 0)
  EXECUTE FUNCTION issued_was_reserved();
