-- The core of a part is charged beside it. A value of its own: it cannot be used in the transaction that adds it.
ALTER TYPE "charge_kind" ADD VALUE 'core';
