import { expect, test } from 'vitest';
import { costNow } from '../features/work/cost-now.ts';

const at = (minute: number) => new Date(Date.UTC(2031, 4, 5, 8, minute)).toISOString();
const order = Object.freeze({
  agreed: '5000',
  costSoFar: '4000',
  costAhead: Object.freeze([
    { at: at(6), cost: '4950' },
    { at: at(12), cost: '5900' },
  ]),
});

test('the cost follows the time, step by step, with nothing asked', () => {
  const cost = (minute: number) => costNow(order, Date.parse(at(minute)));
  expect(cost(5)).toEqual({ cost: 4000n, agreed: 5000n, beyond: 0n });
  expect(cost(6)).toEqual({ cost: 4950n, agreed: 5000n, beyond: 0n });
  expect(cost(11)?.cost).toBe(4950n);
  expect(cost(12)).toEqual({ cost: 5900n, agreed: 5000n, beyond: 900n });
  expect(cost(600)?.cost).toBe(5900n);
});

test('without steps it is as it was asked; without a price it is not known', () => {
  expect(costNow({ agreed: '5000', costSoFar: '7000' }, 0)).toEqual({
    cost: 7000n,
    agreed: 5000n,
    beyond: 2000n,
  });
  expect(costNow({ ...order, costSoFar: null }, 0)).toBeNull();
});

test('amounts beyond what a double holds stay exact', () => {
  expect(costNow({ agreed: '0', costSoFar: '9007199254740993' }, 0)?.beyond).toBe(
    9007199254740993n,
  );
});
