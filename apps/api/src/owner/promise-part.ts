import { type Client, inShop, type Prisma, type PromiseOutcome } from '@fairlead/database';
import { promiseForOrder } from '../hangar/index.ts';
import { newId } from '../new-id.ts';

/** What the link's role may read of a promise that was kept. */
export const promiseFacts = {
  beginsOn: true,
  outcome: true,
  p50On: true,
  p80On: true,
  sentence: true,
} satisfies Prisma.ReturnPromiseSelect;

interface Facts {
  beginsOn: Date;
  outcome: PromiseOutcome;
  p50On: Date | null;
  p80On: Date | null;
  sentence: string;
}

const day = (date: Date | null) => date?.toISOString().slice(0, 10) ?? null;

/** The days in plain words: no hours, no people. */
export function shownPromise({ beginsOn, outcome, p50On, p80On, sentence }: Facts) {
  const [known, best] = [outcome === 'promised', outcome === 'not_known'];
  return {
    beginsOn: day(beginsOn),
    p50: known ? day(p50On) : null,
    p80: known ? day(p80On) : null,
    atBestP50: best ? day(p50On) : null,
    atBestP80: best ? day(p80On) : null,
    sentence,
  };
}

/**
 * When the order that a link reaches is ready now. That follows from who is in and from other aircraft, which a link may not
 * see: so it is computed under the shop's role, and only the days and their sentence leave.
 */
export async function promiseNow(
  client: Client,
  { shopId, orderId }: { shopId: string; orderId: string | null },
  now: Date,
) {
  if (!orderId) return null;
  const scope = { shopId, personId: null, requestId: newId() };
  const promise = await inShop(client, scope, (tx) => promiseForOrder(tx, orderId, now));
  return promise && shownPromise(promise);
}
