/** The fewest hours billed of an item: off until the shop says so; then the bill says where it took hold. Common practice, no source. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { poppler, print, words } from '../paper/printed.ts';
import { draft, makeSold } from './billing.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

async function setMinimum(shop: TestShop, billingMinimum: string | null) {
  const { data: now } = await shop.as<{ viewer: { shop: { version: number } } }>(
    'manager',
    '{ viewer { shop { version } } }',
  );
  const { data } = await shop.as<{ done: Record<string, unknown> }>(
    'manager',
    `mutation($input: ChangeShopInput!) { done: changeShop(input: $input) { ... on Shop { billingMinimum } ... on Refusal { code field message } } }`,
    {
      input: {
        expectedVersion: now?.viewer.shop.version,
        ...{ name: 'Test Shop', place: 'Nowhere Strand', timeZone: 'UTC', currency: 'USD' },
        ...{ standing: 'mechanics', clearanceMm: 1000, billingStep: '0.1', billingRounding: 'up' },
        ...{ timeInServiceBasis: 'tachometer', billingMinimum },
      },
    },
  );
  return data?.done;
}

it('bills seven minutes as half an hour where the shop says so, tells the payer, and is part of the evidence', async () => {
  const shop = await makeShop(api);
  const visit = await makeSold(shop, {
    lines: [
      { title: 'Bulb', likelyMinor: 1900n },
      { title: 'Tyre', likelyMinor: 9500n },
    ],
    ceiling: 100_000n,
    items: [
      { title: 'Bulb', line: 0, seconds: 420 },
      { title: 'Tyre', line: 1, seconds: 3600 },
    ],
  });
  const hours = async () => {
    const { id } = await draft(shop, visit);
    const { data } = await shop.as<{
      node: {
        net: string;
        lines: { quantity: string; note: string }[];
        difference: { title: string }[];
        differenceEvidence: { sentences: string[] }[];
        order: { costSoFar: string };
      };
    }>(
      'front_desk',
      'query($id: ID!) { node(id: $id) { ... on Invoice { net lines { quantity note } difference { title } differenceEvidence { sentences } order { costSoFar } } } }',
      { id },
    );
    if (!data) throw new Error('no invoice');
    expect(data.node.order.costSoFar).toBe(data.node.net);
    return { id, ...data.node };
  };
  expect((await hours()).lines.map(({ quantity }) => quantity)).toEqual(['0.2', '1.0']);
  expect(await setMinimum(shop, '0.5')).toEqual({ billingMinimum: '0.5' });
  const now = await hours();
  const said = "0 h 7 min on the clock: billed is the shop's minimum of 0.5 h for an item";
  expect(now.lines).toEqual([
    { quantity: '0.5', note: said },
    { quantity: '1.0', note: '' },
  ]);
  const at = now.difference.findIndex(({ title }) => title.startsWith('Bulb'));
  expect(now.differenceEvidence[at]?.sentences).toContain(`${said}.`);
  const paper = await print(api, shop, `invoice/${now.id}.pdf`);
  expect(paper.status).toBe(200);
  if (poppler) expect(await words(paper.bytes)).toContain('minimum of 0.5 h');
  expect(await setMinimum(shop, null)).toEqual({ billingMinimum: null });
  expect((await hours()).lines[0]).toEqual({ quantity: '0.2', note: '' });
});

it('takes more than 0 to 8 hours with two decimals, or nothing', async () => {
  const shop = await makeShop(api);
  for (const wrong of ['0', '-1', '8.01', '0.125'])
    expect(await setMinimum(shop, wrong)).toMatchObject({ code: 'BAD_INPUT' });
  await expect(
    shop.inside((tx) => tx.shop.updateMany({ data: { billingMinimum: '0' } })),
  ).rejects.toThrow(/billing_minimum_above_zero/);
});
