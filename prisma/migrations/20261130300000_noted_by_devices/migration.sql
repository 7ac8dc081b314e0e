-- Whether a note holds, and marks over a photo, come from a device that sends them later and perhaps twice: each under an id
-- of the device. When it was stays in at, by the shop's clock.

ALTER TABLE "learned_note_judgement" ADD COLUMN "client_event_id" UUID;
ALTER TABLE "photo_marking" ADD COLUMN "client_event_id" UUID;

CREATE UNIQUE INDEX "learned_note_judgement_shop_id_client_event_id_key" ON "learned_note_judgement"("shop_id", "client_event_id");
CREATE UNIQUE INDEX "photo_marking_shop_id_client_event_id_key" ON "photo_marking"("shop_id", "client_event_id");
