import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import { expect } from 'vitest';
import type { TestApi } from '../../support/api.ts';
import { openInTheWeek } from '../../support/open-in-the-week.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { makeOrder, mutate } from './orders.ts';

/** A week in May: its shop, and what is asked at the bench about clocks that ran on. */

// 2031-05-05 is a Monday.
export const at = (time: string, day = '05') => new Date(`2031-05-${day}T${time}:00Z`);
export const HOUR_MS = 3_600_000;

/** A shop whose people are in from seven to four o'clock on weekdays, unless told otherwise. */
export async function shopWith(api: TestApi, { hours = true, count = 2 } = {}) {
  const shop = await makeShop(api);
  if (hours) await openInTheWeek(shop, 7, 16);
  const order = await makeOrder(shop, { items: Array.from({ length: count }, () => ({})) });
  return { shop, order, items: order.items.map(({ id }) => id) };
}

export interface Asked {
  startId: string;
  why: string;
  startedAt: string;
  endedAt: string | null;
  p99Hours: number | null;
  person: { name: string };
  item: { id: string };
  suggestions: { at: string; kind: string; what: string }[];
}
const fields =
  'startId why startedAt endedAt p99Hours person { name } item { id } suggestions { at kind what }';

/** What somebody is asked about at the bench. */
export async function askedOf(shop: TestShop, role: Role = 'mechanic'): Promise<Asked[]> {
  const answer = await shop.as<{ bench: { forgotten: Asked[] } }>(
    role,
    `{ bench { forgotten { ${fields} } } }`,
  );
  expect(answer.errors).toBeUndefined();
  return answer.data?.bench.forgotten ?? [];
}
export async function theOne(shop: TestShop): Promise<Asked> {
  const [asked] = await askedOf(shop);
  if (!asked) throw new Error('Nothing is asked about');
  return asked;
}

export const answer = (
  shop: TestShop,
  role: Role,
  startId: string,
  stoppedAt: Date | null,
  reason = 'Forgot to stop it',
  clientEventId: string = randomUUID(),
) =>
  mutate(
    shop,
    role,
    'answerForgottenClock',
    { startId, ...(stoppedAt && { stoppedAt: stoppedAt.toISOString() }), reason, clientEventId },
    'kind at reason answers { id }',
  );

export const stretches = (shop: TestShop) =>
  shop.inside(async (tx) => {
    const rows = await tx.stretch.findMany({ orderBy: { startedAt: 'asc' } });
    return rows.map(({ itemId, startedAt, endedAt }) => [
      globalId('WorkItem', itemId),
      startedAt.toISOString().slice(8, 16),
      endedAt?.toISOString().slice(8, 16) ?? null,
    ]);
  });
