import { expect, test } from 'vitest';
import { oneAddress, ownAddress } from '../features/stores/code-address.ts';
import { issueAgainst } from '../features/stores/issue-against.ts';
import { stillToCome } from '../features/stores/purchase-words.ts';
import {
  byPlace,
  shelfLife,
  shelvesOf,
  takeFirst,
  typedCount,
  typedQuantity,
} from '../features/stores/shelves.ts';

test('a last day still counts; the day after is past', () => {
  expect(shelfLife(null, '2026-11-25').stands).toBe('ageless');
  expect(shelfLife('2026-11-24', '2026-11-25')).toEqual({ stands: 'past', days: -1 });
  expect(shelfLife('2026-11-25', '2026-11-25')).toEqual({ stands: 'soon', days: 0 });
  expect(shelfLife('2026-12-25', '2026-11-25')).toEqual({ stands: 'soon', days: 30 });
  expect(shelfLife('2026-12-26', '2026-11-25').stands).toBe('good');
  expect(shelfLife('2028-03-01', '2028-02-28').days).toBe(2);
});

test('places are walked past in order, and the nameless stand last', () => {
  const bins = ['B1', '', 'A10', 'A2'].map((bin) => ({ bin }));
  expect(bins.toSorted(byPlace).map(({ bin }) => bin)).toEqual(['A2', 'A10', 'B1', '']);
  const shelves = shelvesOf([...bins, { bin: 'oil store' }, { bin: 'A2' }]);
  expect(shelves.map(({ name, bins: of }) => [name, of.map((bin) => bin.lots.length)])).toEqual([
    ['A', [2, 1]],
    ['B', [1]],
    ['oil store', [1]],
    ['', [1]],
  ]);
});

test('of several lots the one that ends first is taken first, then the one that came first', () => {
  const lot = (id: string, part: string, receivedOn: string, shelfLifeUntil: string | null) => ({
    id,
    part: { id: part },
    receivedOn,
    shelfLifeUntil,
    bin: '',
    onHand: '1',
  });
  const today = '2026-11-25';
  expect([
    ...takeFirst(
      [
        lot('old', 'hose', '2026-01-01', '2026-11-24'),
        lot('late', 'hose', '2026-01-01', '2028-01-01'),
        lot('early', 'hose', '2026-06-01', '2027-01-01'),
        lot('second', 'filter', '2026-06-01', null),
        lot('first', 'filter', '2026-02-01', null),
        lot('only', 'belt', '2026-02-01', null),
      ],
      today,
    ),
  ]).toEqual(['early', 'first']);
});

test('a typed quantity is more than 0 with at most three decimals', () => {
  expect(['1', ' 2.5 ', '0.001'].map(typedQuantity)).toEqual(['1', '2.5', '0.001']);
  for (const wrong of ['', '0', '0.000', '-1', '1.0001', '1,5', 'two', '1e3'])
    expect(typedQuantity(wrong)).toBeNull();
});

test('what an issue is against is said as the shop will find it', () => {
  const lot = { hasTrace: true, shelfLifeUntil: '2026-11-25', available: '2' };
  const asked = { quantity: '2', own: '0', today: '2026-11-25' };
  expect(issueAgainst(lot, asked)).toEqual([]);
  expect(issueAgainst(lot, { ...asked, today: '2026-11-26' })).toEqual(['past_shelf_life']);
  expect(issueAgainst(lot, { ...asked, quantity: '2.001' })).toEqual(['reserved_for_others']);
  expect(issueAgainst(lot, { ...asked, quantity: '3', own: '1' })).toEqual([]);
  // Fewer are there than were reserved: nothing is free, and what is one's own is still one's own.
  expect(issueAgainst({ ...lot, available: '-1' }, { ...asked, quantity: '1', own: '1' })).toEqual(
    [],
  );
  expect(issueAgainst({ ...lot, hasTrace: false, available: '0' }, asked)).toEqual([
    'no_trace',
    'reserved_for_others',
  ]);
});

test('a typed count may be none, and is never less', () => {
  expect(['0', ' 2.5 ', '100000'].map(typedCount)).toEqual(['0', '2.5', '100000']);
  for (const wrong of ['', '-1', '1.0001', '1,5', '100000.001', 'two'])
    expect(typedCount(wrong)).toBeNull();
});

test('what is still to come of an order is exact in thousandths, and never less than none', () => {
  expect(stillToCome({ quantity: '0.3', received: '0.1' })).toBe('0.2');
  expect(stillToCome({ quantity: '2.5', received: '2.499' })).toBe('0.001');
  expect(stillToCome({ quantity: '1', received: '1.5' })).toBe('0');
});

test('only an address of this shop is followed, and only to a lot or a part', () => {
  const origin = 'https://shop.example';
  expect(ownAddress(`${origin}/stores/lots/TG90`, origin)).toBe('/stores/lots/TG90');
  expect(ownAddress(`${origin}/stores/parts/UGFy%3D`, origin)).toBe('/stores/parts/UGFy%3D');
  for (const elsewhere of [
    'https://shop.example.evil/stores/lots/TG90',
    'https://other.example/stores/lots/TG90',
    `${origin}/stores/lots/../../shop`,
    `${origin}/stores/lots/`,
    'javascript:alert(1)',
    'CL-1077',
  ])
    expect(ownAddress(elsewhere, origin)).toBeNull();
  const lot = { id: 'l' } as never;
  const part = { id: 'p' } as never;
  expect(oneAddress({ lots: [lot], parts: [] })).toBe('/stores/lots/l');
  expect(oneAddress({ lots: [], parts: [part] })).toBe('/stores/parts/p');
  expect(oneAddress({ lots: [lot], parts: [part] })).toBeNull();
  expect(oneAddress({ lots: [], parts: [] })).toBeNull();
});
