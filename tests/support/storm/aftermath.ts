import { keyOf } from '@fairlead/api/ids';
import { expect } from 'vitest';
import type { Act } from './acts.ts';
import { type Aftermath, truthOf } from './storm.ts';

/**
 * Compares what the shop has after a storm with what really happened, to the millisecond:
 * every acknowledged event once and as it was, nothing of nobody's, the order of each telephone kept, no two stretches of
 * one person at one time, and stretches and totals those that follow from what was done.
 */
export async function expectTruth(aftermath: Aftermath): Promise<void> {
  const { shop, people, itemIds } = aftermath;
  const { events, findings, stretches } = await shop.inside(async (tx) => ({
    events: await tx.clockEvent.findMany({ orderBy: { id: 'asc' } }),
    findings: await tx.finding.findMany(),
    stretches: await tx.stretch.findMany({ orderBy: { startedAt: 'asc' } }),
  }));
  const recorded = new Map(
    [...events, ...findings].map((event) => [event.clientEventId, event] as const),
  );
  expect(recorded.size).toBe(events.length + findings.length);
  let known = 0;
  const totals = new Map<string, number>();
  for (const { id: personId, acts, phones } of people) {
    // A telephone that was lost may have been heard without knowing it.
    const through = acts.filter(({ id }) => recorded.has(id));
    known += through.length;
    for (const [index, phone] of phones.entries()) {
      expect(phone.counted.refused).toEqual([]);
      const noted = new Set(phone.noted.map(({ id }) => id));
      for (const id of phone.acknowledged) expect(recorded.has(id), `lost: ${id}`).toBe(true);
      for (const act of acts.filter((each) => each.phone === index)) {
        if (recorded.has(act.id)) expect(noted.has(act.id), 'never noted').toBe(true);
      }
      if (noted.size === acts.filter((each) => each.phone === index).length)
        expect(phone.acknowledged.size, 'all of a telephone that lives').toBe(noted.size);
      expectOrder(phone.noted, recorded, phone.counted.twoTabs === 0);
    }
    for (const act of through) expectSame(act, recorded.get(act.id), personId);
    const own = stretches.filter((stretch) => stretch.personId === personId);
    const truth = truthOf(through);
    expect(
      own.map(({ itemId, startedAt, endedAt }) => [itemId, +startedAt, endedAt && +endedAt]),
    ).toEqual(truth.map(({ itemId, from, to }) => [keyOf('WorkItem', itemId, 'item'), from, to]));
    for (const [index, stretch] of own.entries()) {
      const next = own[index + 1];
      if (next) expect(stretch.endedAt && stretch.endedAt <= next.startedAt).toBe(true);
    }
    for (const { itemId, from, to } of truth) {
      const key = keyOf('WorkItem', itemId, 'item');
      if (to !== null) totals.set(key, (totals.get(key) ?? 0) + to - from);
    }
  }
  expect(recorded.size, 'nothing of nobody’s').toBe(known);
  for (const itemId of itemIds) {
    const counted = stretches
      .filter((stretch) => stretch.itemId === itemId && stretch.endedAt !== null)
      .reduce((sum, { startedAt, endedAt }) => sum + (+(endedAt ?? 0) - +startedAt), 0);
    expect(counted).toBe(totals.get(itemId) ?? 0);
  }
}

type Recorded = {
  clientEventId: string;
  receivedAt?: Date;
  at?: Date;
  foundAt?: Date;
  itemId: string | null;
};

/**
 * What a telephone noted earlier counts earlier; of one page it also came no later. Two pages of a device whose storage is
 * full do not know of each other's.
 */
function expectOrder(
  noted: readonly Act[],
  recorded: ReadonlyMap<string, Recorded>,
  onePage: boolean,
): void {
  const clocks = noted.flatMap(({ id, kind }) =>
    kind === 'finding' ? [] : (recorded.get(id) ?? []),
  );
  for (const [index, event] of clocks.entries()) {
    const next = clocks[index + 1];
    if (!next?.at || !event.at || !next.receivedAt || !event.receivedAt) continue;
    expect(+event.at).toBeLessThan(+next.at);
    if (onePage) expect(+event.receivedAt).toBeLessThanOrEqual(+next.receivedAt);
  }
}

function expectSame(act: Act, recorded: (Recorded & object) | undefined, personId: string): void {
  const itemId = act.itemId === null ? null : keyOf('WorkItem', act.itemId, 'item');
  expect(recorded).toMatchObject({
    itemId,
    ...(act.kind === 'finding'
      ? { foundAt: new Date(act.at), foundById: personId }
      : { kind: act.kind, at: new Date(act.at), personId }),
  });
}
