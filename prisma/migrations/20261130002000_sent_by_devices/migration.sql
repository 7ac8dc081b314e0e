-- What a device sends later, and perhaps twice: which device it was, what its clock said, and for what happens to an
-- item an id of its own. The times that count stay in at and found_at.

ALTER TABLE "clock_event" ADD COLUMN "device_at" TIMESTAMPTZ(3), ADD COLUMN "device_id" UUID;
ALTER TABLE "item_event" ADD COLUMN "client_event_id" UUID, ADD COLUMN "device_at" TIMESTAMPTZ(3), ADD COLUMN "device_id" UUID;
ALTER TABLE "finding" ADD COLUMN "device_at" TIMESTAMPTZ(3), ADD COLUMN "device_id" UUID;

CREATE UNIQUE INDEX "item_event_shop_id_client_event_id_key" ON "item_event"("shop_id", "client_event_id");

ALTER TABLE clock_event ADD CONSTRAINT device_says_both CHECK ((device_at IS NULL) = (device_id IS NULL));
ALTER TABLE item_event ADD CONSTRAINT device_says_both CHECK ((device_at IS NULL) = (device_id IS NULL));
ALTER TABLE finding ADD CONSTRAINT device_says_both CHECK ((device_at IS NULL) = (device_id IS NULL));
