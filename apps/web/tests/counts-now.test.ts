import { expect, test } from 'vitest';
import { countsNow, unclosedNow } from '../features/safety/counts-now.ts';
import type { FactInputs } from '../features/safety/facts.ts';
import type { UnsentFact } from '../features/safety/kept-facts.ts';
import type { CountState } from '../features/safety/order-documents.ts';

const at = '2031-05-04T16:10:00Z';
const counted = (
  id: string,
  kind: FactInputs['count']['kind'],
  lines: Record<string, number>,
  over: Partial<FactInputs['count']> = {},
): UnsentFact => ({
  ...{ id, at, words: '', name: 'Ruan Teasel', does: 'count' },
  input: {
    ...{ orderId: 'o', itemId: null, kind },
    lines: Object.entries(lines).map(([name, number]) => ({ name, number })),
    ...over,
  },
});
const atTheShop = (over: Partial<CountState> = {}): CountState => ({
  ...{ itemId: null, agrees: false, lastAt: '2031-05-04T08:00:00Z', lastBy: 'Marta Quillby' },
  ...{ names: [{ name: 'Rags', out: 6, back: null }], clientEventIds: ['s'] },
  ...over,
});

test('what was counted out and back on this device is reckoned into the count that is shown', () => {
  const out = counted('1', 'out', { rags: 2, Mirror: 1 });
  const [now] = countsNow('o', [atTheShop()], [out]);
  expect(now).toMatchObject({
    agrees: false,
    lastBy: 'Ruan Teasel',
    lastAt: at,
    unsent: true,
    names: [
      { name: 'Rags', out: 8, back: null },
      { name: 'Mirror', out: 1, back: null },
    ],
  });
  const short = counted('2', 'back', { Rags: 7, Mirror: 1 });
  expect(countsNow('o', [atTheShop()], [out, short])[0]).toMatchObject({
    agrees: false,
    names: [
      { name: 'Rags', out: 8, back: 7 },
      { name: 'Mirror', out: 1, back: 1 },
    ],
  });
  const whole = counted('3', 'back', { Rags: 8, Mirror: 1 });
  expect(countsNow('o', [atTheShop()], [out, short, whole])[0]).toMatchObject({
    agrees: true,
    names: [],
  });
});

test('the first count of an item begins one of its own; another order has none of it', () => {
  const out = counted('1', 'out', { Rags: 3 }, { itemId: 'i' });
  expect(countsNow('o', [atTheShop()], [out]).map(({ itemId, names }) => [itemId, names])).toEqual([
    [null, [{ name: 'Rags', out: 6, back: null }]],
    ['i', [{ name: 'Rags', out: 3, back: null }]],
  ]);
  expect(countsNow('other', [], [out])).toEqual([]);
});

test('a count that the shop has by now is not reckoned twice, and one that is kept from before names none', () => {
  const out = counted('1', 'out', { Rags: 3 });
  const there = atTheShop({ clientEventIds: ['s', '1'] });
  expect(countsNow('o', [there], [out])).toEqual([there]);
  const { clientEventIds: _, ...before } = atTheShop();
  expect(countsNow('o', [before as CountState], [out])[0]?.names).toEqual([
    { name: 'Rags', out: 9, back: null },
  ]);
});

test('what is still to be closed on an order is counted with what this device has noted', () => {
  const order = { id: 'o', openLines: [], toolCounts: [atTheShop()] };
  const note = {
    ...{ id: '5', at, words: '', name: 'Ruan Teasel', does: 'noteOpen' },
    input: { orderId: 'o', kind: 'opened', words: 'Cowling' },
  } as UnsentFact;
  const close = {
    ...{ id: '6', at, words: '', name: 'Ruan Teasel', does: 'markOpen' },
    input: { lineClientEventId: '5', kind: 'closed' },
  } as UnsentFact;
  expect(unclosedNow(order, [])).toBe(1);
  expect(unclosedNow(order, [note])).toBe(2);
  expect(unclosedNow(order, [note, close])).toBe(1);
  expect(unclosedNow(order, [note, close, counted('7', 'back', { Rags: 6 })])).toBe(0);
});
