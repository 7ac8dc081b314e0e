import { randomUUID } from 'node:crypto';
import { type CostFacts, costSoFar } from '@fairlead/api/work/cost-so-far';
import type { PriceOfWork } from '@fairlead/api/work/price-of-work';
import { agreedOf } from '@fairlead/api/work/queries';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { clockAt, makeAgreedQuote, makeOrder, mutate } from './orders.ts';

/** Of a day on which the shop has neither rates by kind nor bands. */
const noLists = { day: new Date(0), kindRates: new Map<string, string>(), markUp: null };

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Orders {
  orders: { totalCount: number; edges: { node: Record<string, unknown> }[] };
}
const moneyOf = async (shop: TestShop) => {
  const { data } = await shop.as<Orders>(
    'front_desk',
    '{ orders { edges { node { agreed costSoFar beyondAuthority } } } }',
  );
  return data?.orders.edges.map(({ node }) => node);
};
const clocked = async (shop: TestShop, itemId: string, from: string, to: string) => {
  await clockAt(shop, 'mechanic', 'start', itemId, `2026-03-02T${from}:00Z`);
  await clockAt(shop, 'mechanic', 'stop', itemId, `2026-03-02T${to}:00Z`);
};

describe('what an order has cost of what was agreed', () => {
  it('clocked time by the shop’s rule at the quoted rate, or at the rate of the day; parts at their price', async () => {
    const shop = await makeShop(api); // bills tenths of an hour, rounded up; 95.00 an hour
    const {
      orderId,
      items: [quoted, plain],
    } = await makeOrder(shop, { items: [{}, {}] });
    if (!quoted || !plain) throw new Error('two items');
    const second = await makeOrder(shop, { items: [] });
    const [line] = await makeAgreedQuote(shop, orderId, {
      lines: [{ unitPrice: '100' }],
      ceilings: [20_000n],
    });
    expect(await moneyOf(shop)).toEqual([
      { agreed: '0', costSoFar: '0', beyondAuthority: '0' },
      { agreed: '20000', costSoFar: '0', beyondAuthority: '0' },
    ]);
    // An item's line is given when it is made: the quoted one stands on an item of its own.
    const sold = await shop.inside((tx) =>
      tx.workItem.create({
        data: {
          orderId,
          position: 3,
          title: 'Sold by the hour',
          jasc: '7810',
          quoteLineId: line ?? null,
        },
      }),
    );
    await clocked(shop, Buffer.from(`WorkItem:${sold.id}`).toString('base64url'), '08:00', '09:01'); // 1.1 h × 100
    await clocked(shop, plain.id, '10:00', '10:30'); // 0.5 h × 95
    await shop.inside(async (tx) => {
      const part = await tx.part.create({
        data: { shopId: shop.shopId, number: 'P-1', title: 'Gasket', unitPrice: '8.335' },
      });
      const lot = await tx.lot.create({
        data: {
          partId: part.id,
          supplier: 'S',
          batch: 'B',
          receivedOn: new Date('2026-01-01'),
          unitCost: '5',
        },
      });
      const move = (kind: 'receive' | 'issue' | 'return', quantity: string) =>
        tx.stockMovement.create({
          data: { lotId: lot.id, itemId: kind === 'receive' ? null : plain.itemId, kind, quantity },
        });
      await move('receive', '10');
      await move('issue', '-4.5');
      await move('return', '1.5');
    });
    // 110.00 + 47.50 + 3 × 8.335 = 25.005 → 25.01: rounded once, half away from zero
    expect(await moneyOf(shop)).toEqual([
      { agreed: '0', costSoFar: '0', beyondAuthority: '0' },
      { agreed: '20000', costSoFar: '18251', beyondAuthority: '0' },
    ]);
    await clocked(shop, plain.id, '11:00', '12:00');
    // The two stretches of the item together are 1.5 h.
    expect((await moneyOf(shop))?.[1]).toEqual({
      agreed: '20000',
      costSoFar: '27751',
      beyondAuthority: '7751',
    });
    expect(second.items).toEqual([]);
  });

  it('a flat price counts once, whole, from the first stretch on any of its tasks', async () => {
    const shop = await makeShop(api);
    const { orderId, items } = await makeOrder(shop, { items: [] });
    expect(items).toEqual([]);
    const task = await shop.inside((tx) =>
      tx.task.create({
        data: { shopId: shop.shopId, key: 'flat-task', title: 'Flat task', jasc: '7810' },
      }),
    );
    const [, first, second] = await makeAgreedQuote(shop, orderId, {
      lines: [
        { pricing: 'fixed', likelyMinor: 268_000n },
        { pricing: 'fixed', taskId: task.id, unitPrice: '0' },
        { pricing: 'fixed', taskId: task.id, unitPrice: '0' },
      ],
      ceilings: [300_000n],
    });
    const made = await shop.inside((tx) =>
      Promise.all(
        [first, second].map((quoteLineId, index) =>
          tx.workItem.create({
            data: {
              orderId,
              position: index + 1,
              title: `Flat ${index}`,
              jasc: '7810',
              quoteLineId: quoteLineId ?? null,
            },
          }),
        ),
      ),
    );
    expect(await moneyOf(shop)).toEqual([
      { agreed: '300000', costSoFar: '0', beyondAuthority: '0' },
    ]);
    for (const { id } of made) {
      await clocked(shop, Buffer.from(`WorkItem:${id}`).toString('base64url'), '08:00', '08:20');
      expect(await moneyOf(shop)).toEqual([
        { agreed: '300000', costSoFar: '268000', beyondAuthority: '0' },
      ]);
    }
  });

  it('a no after a yes takes it back, and several quotes add up', async () => {
    const shop = await makeShop(api);
    const { orderId } = await makeOrder(shop);
    await makeAgreedQuote(shop, orderId, { lines: [], ceilings: [50_000n, 70_000n] });
    await makeAgreedQuote(shop, orderId, { lines: [], ceilings: [9000n] });
    await makeAgreedQuote(shop, orderId, { lines: [], ceilings: [400n, null] });
    expect((await moneyOf(shop))?.[0]).toMatchObject({ agreed: '79000' });
  });

  it('a part that was quoted with the item counts at its quoted price', () => {
    const lines = [
      {
        id: 'p',
        pricing: 'time_and_materials' as const,
        charge: null,
        partId: 'hose',
        likelyMinor: 1n,
        unitPrice: '40',
      },
    ];
    const move = (quantity: string, id: string) => ({
      quantity,
      lot: {
        ...{ id: `lot of ${id}`, coreChargeMinor: null, unitCost: '30' },
        part: { id, title: id, unitPrice: '50', prices: [] },
      },
    });
    const item = {
      id: 'a',
      events: [],
      stretches: [],
      task: null,
      cores: [],
      movements: [move('-2', 'hose'), move('-1', 'clamp'), move('1', 'hose')],
      quoteLine: {
        id: 'l',
        pricing: 'time_and_materials' as const,
        likelyMinor: 0n,
        limitMinor: null,
        unitPrice: '95',
        revision: { lines },
      },
    };
    const price: PriceOfWork = {
      currency: 'USD',
      labourRate: '95',
      ...noLists,
      rule: { step: '0.1', rounding: 'up' },
      overrun: {},
    };
    expect(costSoFar({ items: [item] }, price, new Date(0))).toBe(9000n);
  });

  it('without a rate for today the cost of unquoted hours is not known, and says so by being null', async () => {
    const price: PriceOfWork = {
      currency: 'USD',
      labourRate: null,
      ...noLists,
      rule: { step: '0.1', rounding: 'up' },
      overrun: {},
    };
    const worked: CostFacts = {
      items: [
        {
          id: 'a',
          events: [],
          movements: [],
          cores: [],
          task: null,
          quoteLine: null,
          stretches: [{ startedAt: new Date(0), endedAt: new Date(3_600_000) }],
        },
      ],
    };
    expect(costSoFar(worked, price, new Date(0))).toBeNull();
    expect(costSoFar(worked, { ...price, labourRate: '95' }, new Date(0))).toBe(9500n);
    expect(costSoFar({ items: [] }, price, new Date(0))).toBe(0n);
    const decision = (
      id: string,
      choice: 'go_ahead' | 'talk_first',
      ceilingMinor: bigint | null,
    ) => ({ id, choice, ceilingMinor, decidedAt: new Date(1000 + Number(id)) });
    expect(
      agreedOf({
        quotes: [
          {
            id: 'q',
            revisions: [
              { decisions: [decision('1', 'go_ahead', 5n), decision('2', 'talk_first', null)] },
            ],
          },
        ],
      }),
    ).toBe(5n);
  });
});

describe('the list of orders', () => {
  it('is newest first and can be asked for by state', async () => {
    const shop = await makeShop(api);
    const numbers = async (states: string[] | null) => {
      const { data } = await shop.as<Orders>(
        'manager',
        'query($states: [OrderState!]) { orders(states: $states) { totalCount edges { node { number state } } } }',
        { states },
      );
      return data?.orders.edges.map(({ node }) => `${node.number} ${node.state}`);
    };
    await makeOrder(shop, { arrived: false });
    const here = await makeOrder(shop);
    const finished = await makeOrder(shop);
    const released = await makeOrder(shop);
    await shop.inside(async (tx) => {
      for (const kind of ['done', 'initialled'] as const)
        await tx.itemEvent.create({
          data: {
            itemId: finished.items[0]?.itemId ?? '',
            kind,
            workDone: 'x',
            byId: shop.people.inspector.id,
            at: new Date(kind === 'done' ? 1000 : 2000),
          },
        });
      await tx.orderEvent.create({
        data: { orderId: released.orderId, kind: 'released', outcome: 'airworthy' },
      });
    });
    expect(await numbers(null)).toEqual(['4 released', '3 ready_to_sign', '2 here', '1 planned']);
    expect(await numbers(['here'])).toEqual(['2 here']);
    expect(await numbers(['ready_to_sign', 'planned'])).toEqual(['3 ready_to_sign', '1 planned']);
    expect(await numbers(['here', 'ready_to_sign'])).toEqual(['3 ready_to_sign', '2 here']);
    expect(await numbers([])).toEqual([]);
    await shop.inside((tx) =>
      tx.orderEvent.create({ data: { orderId: here.orderId, kind: 'cancelled' } }),
    );
    expect(await numbers(['cancelled', 'closed', 'released'])).toEqual([
      '4 released',
      '2 cancelled',
    ]);
  });

  it('another shop sees none of it, and nobody without signing in', async () => {
    const [shop, other] = [await makeShop(api), await makeShop(api)];
    await makeOrder(shop);
    const theirs = await other.as<Orders>(
      'manager',
      '{ orders { totalCount edges { node { number } } } bench { items { id } } }',
    );
    expect(theirs.data).toEqual({ orders: { totalCount: 0, edges: [] }, bench: { items: [] } });
    const nobody = await shop.as(null, '{ bench { items { id } } }');
    expect(nobody.data).toEqual({ bench: null });
  });
});

const whole = `{ orders { edges { node {
  number title state outcome inspection openedAt plannedFor agreed costSoFar beyondAuthority aircraft { registration }
  events { kind at } squawks { words } received { what } readings { tisHundredths }
  items { position title state waitingFor secondsWorked cautionsRead runningBy { name } plannedAccess { sight } foundAccess { sight } stretches { seconds person { initials } } events { kind by { name } } quoteLine { title } finding { number } task { key } }
  findings { number state class meaning foundBy { name } photos { thumbUrl } quotes { number } corrections { state } }
  quotes { number }
} } } }`;
const bench =
  '{ bench { running { seconds item { title } } items { position title state waitingFor cautions cautionsRead secondsWorked runningBy { name } plannedAccess { sight } order { number title agreed costSoFar beyondAuthority aircraft { registration } } } } }';

describe('statements', () => {
  const fill = async (shop: TestShop, orders: number, items: number) => {
    for (let n = 0; n < orders; n += 1) {
      const order = await makeOrder(shop, { items: Array.from({ length: items }, () => ({})) });
      await makeAgreedQuote(shop, order.orderId, { lines: [{}], ceilings: [1000n] });
      await shop.inside((tx) =>
        tx.stretch.create({
          data: {
            personId: shop.people.mechanic.id,
            itemId: order.items[0]?.itemId ?? '',
            startedAt: new Date(2026, 1, 1, 0, n * 3),
            endedAt: new Date(2026, 1, 1, 0, n * 3 + 2),
          },
        }),
      );
      await mutate(shop, 'mechanic', 'noteFinding', {
        orderId: order.id,
        title: 'Found',
        words: '',
        zone: '',
        class: 'observation',
        photoIds: [],
        foundAt: '2026-03-02T10:00:00Z',
        clientEventId: randomUUID(),
      });
    }
  };
  const count = async (shop: TestShop, query: string) => {
    await shop.cookie('mechanic');
    let errors: unknown;
    const statements = await api.statementsOf(async () => {
      errors = (await shop.as('mechanic', query)).errors;
    });
    expect(errors).toBeUndefined();
    return statements.length;
  };

  it('are as many for three orders as for fifteen', async () => {
    const [few, many] = [await makeShop(api), await makeShop(api)];
    await fill(few, 3, 1);
    await fill(many, 15, 2);
    const [three, fifteen] = [await count(few, whole), await count(many, whole)];
    expect(fifteen).toBe(three);
    expect(three).toBeLessThanOrEqual(62);
  });

  it('are as many for three items on the bench as for thirty', async () => {
    const [few, many] = [await makeShop(api), await makeShop(api)];
    await fill(few, 1, 3);
    await fill(many, 3, 10);
    const [three, thirty] = [await count(few, bench), await count(many, bench)];
    expect(thirty).toBe(three);
    expect(three).toBeLessThanOrEqual(41);
  });
});
