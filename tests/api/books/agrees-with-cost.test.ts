/** What an order has come to, as the bench and the desk see it, is what its invoice bills, to the cent. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import type { Visit } from '../../support/visit.ts';
import { draft, issueTo, type Line, makeAccepted, makeSold } from './billing.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

/** Of one order: the cost so far; what its invoice bills, net; what it leaves out because nobody agreed to it. */
async function both(shop: TestShop, visit: Visit) {
  const { data } = await shop.as<{ node: { costSoFar: string; beyondAuthority: string } }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on WorkOrder { costSoFar beyondAuthority } } }',
    { id: visit.order },
  );
  const made = await draft(shop, visit);
  return {
    cost: BigInt(data?.node.costSoFar ?? -1),
    beyondByCost: BigInt(data?.node.beyondAuthority ?? -1),
    billed: BigInt(made.net ?? 0),
    beyond: BigInt(made.beyond ?? 0),
  };
}

const flat: Line = {
  title: '100-hour inspection',
  pricing: 'fixed',
  likelyMinor: 124_000n,
  unitPrice: '1240',
};
const task = (title: string): Line => ({
  title,
  pricing: 'fixed',
  likelyMinor: 0n,
  unitPrice: '0',
});
const makePart = (shop: TestShop, unitPrice: string) =>
  shop.inside(
    async (tx) =>
      (
        await tx.part.create({
          data: { shopId: shop.shopId, number: `P-${unitPrice}`, title: 'Collector', unitPrice },
        })
      ).id,
  );
const partLine = (partId: string, unitPrice: string): Line => ({
  title: 'Collector',
  likelyMinor: 64_000n,
  unitPrice,
  category: 'parts',
  taxRate: '7',
  partId,
});

/**
 * A flat price over two tasks, one job by time with a quoted part and one nobody quoted, and a job nobody quoted:
 *
 * - flat: 1,240.00
 * - 100 min 20 s = 6,020 s, up to the next tenth 1.7 h × 95.00 = 161.50
 * - the collector at its quoted price, 640.00, not today's 700.00
 * - 3 gaskets at 12.345 = 37.035, half up 37.04; 2 more on the flat job at 9.99 = 19.98
 * - 1,800 s = 0.5 h at today's 95.00 = 47.50
 */
async function wholeVisit(shop: TestShop, ceiling: bigint) {
  const partId = await makePart(shop, '700');
  const visit = await makeSold(shop, {
    lines: [
      flat,
      task('Panels'),
      task('Filters'),
      { title: 'Starter replaced', likelyMinor: 19_000n },
      partLine(partId, '640'),
    ],
    ceiling,
    items: [
      { line: 1, seconds: 3600 },
      { line: 2 },
      { line: null, seconds: 1800 },
      { line: 3, seconds: 6020 },
    ],
  });
  const [panels, , , starter] = visit.itemIds;
  await issueTo(shop, starter ?? '', { partId, quantity: '1' });
  await issueTo(shop, starter ?? '', { unitPrice: '12.345', quantity: '3' });
  await issueTo(shop, panels ?? '', { unitPrice: '9.99', quantity: '2' });
  return visit;
}
const whole = 124_000n + 16_150n + 64_000n + 3_704n + 1_998n + 4_750n;

it('flat, by time, quoted parts, other parts and work nobody quoted: one sum', async () => {
  const shop = await makeShop(api);
  expect(await both(shop, await wholeVisit(shop, 300_000n))).toEqual({
    cost: whole,
    beyondByCost: 0n,
    billed: whole,
    beyond: 0n,
  });
});

it('past what was agreed: billed and beyond are the sum, and both say the same excess', async () => {
  const shop = await makeShop(api);
  expect(await both(shop, await wholeVisit(shop, 200_000n))).toEqual({
    cost: whole,
    beyondByCost: whole - 200_000n,
    billed: 200_000n,
    beyond: whole - 200_000n,
  });
});

it('a finding that was agreed, and a part of it that came back', async () => {
  const shop = await makeShop(api);
  const visit = await makeSold(shop, {
    lines: [flat, task('Panels')],
    ceiling: 124_000n,
    items: [{ line: 1, seconds: 60 }],
  });
  const partId = await makePart(shop, '700');
  const { lineIds } = await makeAccepted(shop, {
    lines: [{ title: 'Collector replaced', likelyMinor: 30_000n }, partLine(partId, '640')],
    ceiling: 150_000n,
    orderId: visit.orderId,
  });
  const { id: itemId } = await shop.inside((tx) =>
    tx.workItem.create({
      data: {
        orderId: visit.orderId,
        position: 2,
        title: 'Collector replaced',
        jasc: '7810',
        cautions: [],
        quoteLineId: lineIds[0] ?? '',
      },
    }),
  );
  const { lotId } = await issueTo(shop, itemId, { partId, quantity: '2' });
  await shop.inside((tx) =>
    tx.stockMovement.create({ data: { lotId, itemId, kind: 'return', quantity: '1' } }),
  );
  const sum = 124_000n + 64_000n;
  expect(await both(shop, visit)).toMatchObject({ cost: sum, billed: sum, beyond: 0n });
});

it('a flat price whose items were all put off counts in neither', async () => {
  const shop = await makeShop(api);
  const byTime: Line = { title: 'Starter replaced', likelyMinor: 19_000n };
  const visit = await makeSold(shop, {
    lines: [flat, task('Panels'), byTime],
    ceiling: 200_000n,
    items: [
      { line: 1, workDone: null },
      { line: 2, seconds: 3600 },
    ],
  });
  await shop.inside((tx) =>
    tx.itemEvent.create({
      data: { itemId: visit.itemIds[0] ?? '', kind: 'put_off', byId: shop.people.manager.id },
    }),
  );
  // One hour at 95.00.
  expect(await both(shop, visit)).toMatchObject({ cost: 9_500n, billed: 9_500n, beyond: 0n });
});

it('they differ by a cent where one part came from two lots: the invoice names each lot, and rounds each line', async () => {
  const shop = await makeShop(api);
  const visit = await makeSold(shop, {
    lines: [{ title: 'Seals', likelyMinor: 0n }],
    ceiling: 50_000n,
    items: [{ line: 0 }],
  });
  const { partId } = await issueTo(shop, visit.itemIds[0] ?? '', {
    unitPrice: '0.125',
    quantity: '1',
  });
  await issueTo(shop, visit.itemIds[0] ?? '', { partId, quantity: '1' });
  // Together 0.25; each alone 0.125, half up 0.13.
  expect(await both(shop, visit)).toMatchObject({ cost: 25n, billed: 26n });
});

it('a price not to be exceeded is the most that both say, the parts that nobody quoted among it', async () => {
  const shop = await makeShop(api);
  const visit = await makeSold(shop, {
    lines: [
      {
        title: 'Starter replaced',
        pricing: 'not_to_exceed',
        likelyMinor: 10_000n,
        limitMinor: 11_000n,
      },
      { title: 'Line re-routed', likelyMinor: 19_000n },
    ],
    ceiling: 90_000n,
    items: [
      { line: 0, seconds: 3600 },
      { line: 1, seconds: 3600 },
    ],
  });
  // 1.0 h × 95.00 and 2 gaskets at 12.50 are 120.00, of which 110.00; 1.0 h × 95.00 beside it.
  await issueTo(shop, visit.itemIds[0] ?? '', {});
  expect(await both(shop, visit)).toEqual({
    cost: 20_500n,
    beyondByCost: 0n,
    billed: 20_500n,
    beyond: 0n,
  });
  const made = await draft(shop, visit);
  expect(made.lines.map(({ title, net }) => [title, net])).toEqual([
    ['Starter replaced', '9500'],
    ['Starter replaced. Above the price not to be exceeded: not billed', '-1000'],
    ['Gasket', '2500'],
    ['Line re-routed', '9500'],
  ]);
});
