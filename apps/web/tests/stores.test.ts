import { expect, test } from 'vitest';
import {
  byPlace,
  shelfLife,
  shelvesOf,
  takeFirst,
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
