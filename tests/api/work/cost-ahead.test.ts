import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { at } from './bench-week.ts';
import { clockAt, makeAgreedQuote, makeOrder } from './orders.ts';

/** What a running clock comes to. */

let api: TestApi;
let now = new Date('2031-05-06T07:30:00Z');
beforeAll(async () => {
  api = await startApi({ now: () => now });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

describe('what a running clock comes to', () => {
  interface Ahead {
    node: { costSoFar: string; costAhead: { at: string; cost: string }[] };
  }
  const costs = async (shop: TestShop, id: string) => {
    const { data } = await shop.as<Ahead>(
      'mechanic',
      'query($id: ID!) { node(id: $id) { ... on WorkOrder { costSoFar costAhead { at cost } } } }',
      { id },
    );
    if (!data) throw new Error('no order');
    return data.node;
  };

  const soldAs = async (line: object) => {
    const shop = await makeShop(api);
    const [quoteLineId] = await makeAgreedQuote(shop, null, {
      lines: [line],
      ceilings: [100_000n],
    });
    const order = await makeOrder(shop, { items: [{ quoteLineId: quoteLineId ?? null }] });
    return { shop, order, itemId: order.items[0]?.id ?? '' };
  };

  it('is foretold step by step, and each step is what the order then costs', async () => {
    const { shop, order, itemId } = await soldAs({ unitPrice: '95.50' });
    await clockAt(shop, 'mechanic', 'start', itemId, at('08:00'));
    now = at('08:31');
    const { costAhead } = await costs(shop, order.id);
    // Tenths of an hour over eight hours.
    expect(costAhead).toHaveLength(80);
    expect(costAhead.map(({ at: when }) => when)).toEqual(
      costAhead.map(({ at: when }) => when).toSorted(),
    );
    for (const index of [0, 1, 37, 79]) {
      const step = costAhead[index];
      now = new Date(step?.at ?? '');
      expect((await costs(shop, order.id)).costSoFar, step?.at).toBe(step?.cost);
      now = new Date(+now - 60_000);
      expect((await costs(shop, order.id)).costSoFar, step?.at).not.toBe(step?.cost);
    }
  });

  it('stays as it is where nothing runs, or what runs was sold at a fixed price', async () => {
    now = at('12:00');
    const { shop, order, itemId } = await soldAs({ pricing: 'fixed', likelyMinor: 40_000n });
    expect((await costs(shop, order.id)).costAhead).toEqual([]);
    await clockAt(shop, 'mechanic', 'start', itemId, at('08:00'));
    expect(await costs(shop, order.id)).toEqual({ costSoFar: '40000', costAhead: [] });
  });
});
