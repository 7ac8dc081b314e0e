-- A quote may ask for more on what an order has agreed already, and offer no work of its own.
-- AlterTable
ALTER TABLE "quote" ADD COLUMN     "more" BOOLEAN NOT NULL DEFAULT false;

ALTER TABLE quote
  ADD CONSTRAINT more_is_of_an_order CHECK (NOT more OR (order_id IS NOT NULL AND finding_id IS NULL AND package_id IS NULL));
