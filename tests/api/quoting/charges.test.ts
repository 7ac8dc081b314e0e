/** What is charged besides work and parts: priced, offered firm, and billed as it was offered. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { draft as draftInvoice, makeSold } from '../books/billing.ts';
import { draft, forOwner, gid, makeTasks, quoted, refused, tasksOf } from './quoting-shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const made = new WeakMap<TestShop, ReturnType<typeof makeTasks>>();
const taskOf = (shop: TestShop) => {
  const tasks = made.get(shop) ?? makeTasks(shop, 1);
  made.set(shop, tasks);
  return tasks;
};
const offer = async (shop: TestShop, charges: Record<string, unknown>[]) =>
  draft(shop, { ...forOwner(shop), tasks: tasksOf(await taskOf(shop)), charges });
const costs = async (shop: TestShop, role: 'front_desk' | 'mechanic', id: string) => {
  const { data } = await shop.as<{
    node: { newest: { lines: { charge: string | null; cost: string | null }[] } };
  }>(
    role,
    'query($id: ID!) { node(id: $id) { ... on Quote { newest { lines { charge cost } } } } }',
    { id },
  );
  return data?.node.newest.lines.flatMap(({ charge, cost }) => (charge === null ? [] : [cost]));
};

describe('what is charged besides', () => {
  it('is priced from its cost, from the likely labour or as it is, and is firm', async () => {
    const shop = await makeShop(api);
    const quote = quoted(
      await offer(shop, [
        { kind: 'outside_work', title: 'Magneto overhauled', cost: '42050', percent: '15' },
        { kind: 'freight', price: '6000' },
        { kind: 'supplies', percent: '3', atMost: '250' },
        { kind: 'call_out', cost: '4000' },
      ]),
    );
    const { newest } = quote;
    // 420.50 and 15 % of it are 483.575 → 483.58; supplies end at their cap.
    expect(
      newest.lines
        .slice(1)
        .map(({ title, category, likely, low, high }) => [...[title, category, likely, low, high]]),
    ).toEqual([
      ['Magneto overhauled', 'labour', '48358', '48358', '48358'],
      ['Freight', 'supplies', '6000', '6000', '6000'],
      ['Shop supplies', 'supplies', '250', '250', '250'],
      ['Call-out', 'labour', '4000', '4000', '4000'],
    ]);
    const plain = quoted(await offer(shop, [])).newest;
    for (const end of ['low', 'likely', 'p80', 'high'] as const)
      expect(BigInt(newest[end]) - BigInt(plain[end])).toBe(58_608n);
    // 7 % on 62.50 of supplies; labour is free of tax in a test shop.
    expect(newest.tax).toBe('438');
    expect(await costs(shop, 'front_desk', quote.id)).toEqual(['42050', null, null, '4000']);
    expect(await costs(shop, 'mechanic', quote.id)).toEqual([null, null, null, null]);
  });

  it('without a cap supplies are their share of what the work likely comes to', async () => {
    const shop = await makeShop(api);
    const { newest } = quoted(await offer(shop, [{ kind: 'supplies', percent: '2.5' }]));
    const supplies = Number(newest.lines[1]?.likely);
    const labour = Number(newest.likely) - supplies;
    expect(supplies).toBe(Math.round((labour * 25) / 1000));
  });

  it.each([
    [[{ kind: 'outside_work', price: '100' }], 'charges'],
    [[{ kind: 'other', title: 'ab', price: '100' }], '3 to 200'],
    [[{ kind: 'freight' }], 'needs one of a price and a cost: neither is given'],
    [[{ kind: 'freight', price: '5', cost: '4' }], 'both are given'],
    [[{ kind: 'freight', percent: '4' }], 'has a mark-up and no cost'],
    [[{ kind: 'supplies', cost: '4' }], 'have no cost of their own'],
    [
      [
        { kind: 'supplies', percent: '3' },
        { kind: 'supplies', price: '3' },
      ],
      'named twice',
    ],
    [[{ kind: 'freight', price: '5', atMost: '4' }], 'has a cap'],
    [[{ kind: 'freight', price: '-5' }], 'has -5 minor units'],
    [[{ kind: 'freight', price: '0' }], 'comes to 0 minor units'],
    [[{ kind: 'freight', cost: '10', percent: '-4' }], 'percent is -4'],
    [Array.from({ length: 31 }, () => ({ kind: 'freight', price: '5' })), '31 charges'],
  ])('%j is refused', async (charges, words) => {
    const shop = await makeShop(api);
    const answer = refused(await offer(shop, charges));
    expect(answer.code).toBe('BAD_INPUT');
    expect(answer.message).toContain(words);
  });
});

it('a charge is billed as offered once any work of its quote has begun, and the order says the same', async () => {
  const shop = await makeShop(api);
  const freight = {
    title: 'Freight',
    pricing: 'fixed',
    charge: 'freight',
    likelyMinor: 6_000n,
    unitPrice: '60',
  } as const;
  const lines = [{ title: 'Starter replaced', likelyMinor: 19_000n }, freight];
  const sold = { lines, ceiling: 90_000n };
  const begun = await makeSold(shop, { ...sold, items: [{ line: 0, seconds: 3600 }] });
  const invoice = await draftInvoice(shop, begun);
  expect(invoice.lines.map(({ title, net }) => [title, net])).toEqual([
    ['Starter replaced', '9500'],
    ['Freight', '6000'],
  ]);
  const { data } = await shop.as<{ node: { costSoFar: string } }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on WorkOrder { costSoFar } } }',
    { id: gid('WorkOrder', begun.orderId) },
  );
  expect(data?.node.costSoFar).toBe('15500');
});
