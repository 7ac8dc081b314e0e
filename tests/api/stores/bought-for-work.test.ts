/** What is bought for work is held against what its owner agreed to as an issue is, once from the order to the work. */
import { globalId as gid } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { release, type SoldVisit } from '../books/billing.ts';
import { issue, soldUpTo } from './past-yes.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Purchase {
  code?: string;
  message?: string;
  field?: string | null;
  id: string;
  state: string;
  pastAuthority: { beyond: string; ceiling: string; order: { id: string } }[];
  events: { kind: string; despite: string[]; reason: string }[];
  lines: { id: string; item: { id: string } | null }[];
}
async function say(shop: TestShop, name: string, input: object): Promise<Purchase> {
  const type = `${name[0]?.toUpperCase()}${name.slice(1)}Input`;
  const { data, errors } = await shop.as<{ done: Purchase }>(
    'front_desk',
    `mutation($input: ${type}!) { done: ${name}(input: $input) { ... on Refusal { code message field }
      ... on PurchaseOrder { id state pastAuthority { beyond ceiling order { id } } events { kind despite reason } lines { id item { id } } } } }`,
    { input },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.done;
}
/** Gaskets, billed at 12.50, which cost 5.00. */
const draft = (
  shop: TestShop,
  partId: string,
  quantity: string,
  itemId: string | null | undefined,
) =>
  say(shop, 'draftPurchase', {
    supplier: 'Test Supply',
    expectedOn: '2099-01-01',
    lines: [{ partId: gid('Part', partId), quantity, unitCost: '5', itemId }],
  });
const send = (shop: TestShop, { id }: { id: string }, over: object = {}) =>
  say(shop, 'sendPurchase', { orderId: id, channel: 'telephone', ...over });

interface Stand {
  costSoFar: string;
  beyondAuthority: string;
  beyondOnOrder: string;
  onOrder: { quantity: string; line: { part: { title: string }; order: { expectedOn: string } } }[];
}
async function standOf(shop: TestShop, { order }: SoldVisit): Promise<Stand> {
  const { data } = await shop.as<{ node: Stand }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on WorkOrder { costSoFar beyondAuthority beyondOnOrder onOrder { quantity line { part { title } order { expectedOn } } } } } }',
    { id: order },
  );
  return data!.node;
}
async function receive(
  shop: TestShop,
  partId: string,
  lineId: string | undefined,
  quantity: string,
) {
  const { data, errors } = await shop.as<{ done: { id?: string; message?: string } }>(
    'front_desk',
    'mutation($input: ReceiveLotInput!) { done: receiveLot(input: $input) { ... on Lot { id } ... on Refusal { message } } }',
    {
      input: {
        ...{ partId: gid('Part', partId), supplier: 'Test Supply', batch: 'B-9', tag: 'T-9' },
        ...{ quantity, unitCost: '5', purchaseLineId: lineId },
      },
    },
  );
  if (!data?.done.id) throw new Error(data?.done.message ?? JSON.stringify(errors));
  return data.done.id;
}
const reason = 'The engine stands open.';

it('within the yes it just goes, is on order for its work, and takes the room of what is issued besides', async () => {
  // 1.0 h × 95.00 of 120.00: room for two at 12.50.
  const { shop, visit, lotId, partId } = await soldUpTo(api, 3600, { ceiling: 12_000n });
  const made = await draft(shop, partId, '2', visit.items[0]);
  expect(made).toMatchObject({ state: 'draft', pastAuthority: [] });
  expect(made.lines[0]?.item).toEqual({ id: visit.items[0] });
  // A draft binds nobody.
  expect(await standOf(shop, visit)).toMatchObject({ onOrder: [], beyondOnOrder: '0' });
  expect(await send(shop, made)).toMatchObject({ state: 'sent' });
  expect(await standOf(shop, visit)).toMatchObject({
    beyondOnOrder: '0',
    onOrder: [
      { quantity: '2', line: { part: { title: 'Gasket' }, order: { expectedOn: '2099-01-01' } } },
    ],
  });
  expect(await issue(shop, visit, lotId)).toMatchObject({ code: 'BEYOND_AGREED' });
  expect((await draft(shop, partId, '1', visit.items[0])).pastAuthority).toEqual([
    { beyond: '1250', ceiling: '12000', order: { id: visit.order } },
  ]);
  // What is bought for stock is nobody's.
  expect(await send(shop, await draft(shop, partId, '50', null))).toMatchObject({ state: 'sent' });
});

it('past the yes it is refused with the sum, goes by a reason under a name, and the desk is told', async () => {
  const { shop, visit, partId } = await soldUpTo(api, 3600, { ceiling: 12_000n });
  const made = await draft(shop, partId, '4', visit.items[0]);
  expect(made.pastAuthority).toEqual([
    { beyond: '2500', ceiling: '12000', order: { id: visit.order } },
  ]);
  const refused = await send(shop, made);
  expect(refused).toMatchObject({ code: 'BEYOND_AGREED' });
  expect(refused.message).toMatch(
    /With purchase order 1 order \d+ would go 25\.00 USD past the 120\.00 USD that are agreed, at what its parts are billed at/,
  );
  expect(await send(shop, made, { despite: ['beyond_authority'], reason: ' ' })).toMatchObject({
    code: 'BAD_INPUT',
    field: 'reason',
  });
  const sent = await send(shop, made, { despite: ['beyond_authority'], reason });
  expect(sent).toMatchObject({
    state: 'sent',
    pastAuthority: [],
    events: [{ kind: 'sent', despite: ['beyond_authority'], reason }],
  });
  expect(await standOf(shop, visit)).toMatchObject({ beyondAuthority: '0', beyondOnOrder: '2500' });
  // A reason that was not needed is not kept.
  const stock = await send(shop, await draft(shop, partId, '1', null), {
    despite: ['beyond_authority'],
    reason,
  });
  expect(stock.events).toMatchObject([{ despite: [], reason: '' }]);
});

it('counts once from the order to the work, however it arrives and whatever comes back', async () => {
  const { shop, visit, partId } = await soldUpTo(api, 3600, { ceiling: 12_000n });
  const made = await draft(shop, partId, '4', visit.items[0]);
  await send(shop, made, { despite: ['beyond_authority'], reason });
  const lotId = await receive(shop, partId, made.lines[0]?.id, '3');
  expect(await standOf(shop, visit)).toMatchObject({
    beyondOnOrder: '2500',
    onOrder: [{ quantity: '4' }],
  });
  // What was answered for when it was ordered is not asked for again.
  const went = await issue(shop, visit, '', { lotId, quantity: '3' });
  expect(went.code).toBeUndefined();
  expect(await standOf(shop, visit)).toMatchObject({
    costSoFar: '13250',
    beyondAuthority: '1250',
    beyondOnOrder: '1250',
    onOrder: [{ quantity: '1' }],
  });
  // What comes back to the shelf is no more on the way to this work.
  await shop.as(
    'mechanic',
    'mutation($input: ReturnPartInput!) { returnPart(input: $input) { __typename } }',
    { input: { lotId, itemId: visit.items[0], quantity: '2' } },
  );
  expect(await standOf(shop, visit)).toMatchObject({
    costSoFar: '10750',
    beyondAuthority: '0',
    beyondOnOrder: '0',
    onOrder: [{ quantity: '1' }],
  });
});

it('cancelled it gives the room back', async () => {
  const { shop, visit, lotId, partId } = await soldUpTo(api, 3600, { ceiling: 12_000n });
  const made = await draft(shop, partId, '2', visit.items[0]);
  await send(shop, made);
  expect(await issue(shop, visit, lotId)).toMatchObject({ code: 'BEYOND_AGREED' });
  await say(shop, 'cancelPurchase', { orderId: made.id, reason: 'Not needed.' });
  expect((await issue(shop, visit, lotId)).code).toBeUndefined();
  expect(await standOf(shop, visit)).toMatchObject({ onOrder: [] });
});

it('of many sent at once as many go as there is room for', async () => {
  const { shop, visit, partId } = await soldUpTo(api, 3600, { ceiling: 12_000n });
  const drafts = [];
  while (drafts.length < 6) drafts.push(await draft(shop, partId, '1', visit.items[0]));
  const answers = await Promise.all(drafts.map((each) => send(shop, each)));
  expect(answers.map(({ code }) => code ?? 'sent').toSorted()).toEqual([
    ...Array.from({ length: 4 }, () => 'BEYOND_AGREED'),
    ...Array.from({ length: 2 }, () => 'sent'),
  ]);
});

it('a part without a price of its own counts at what it is to cost, marked up', async () => {
  const { shop, visit } = await soldUpTo(api, 3600, { ceiling: 12_000n });
  const { id } = await shop.inside(async (tx) => {
    const { id: listId } = await tx.markUpList.create({
      data: {
        ...{ shopId: shop.shopId, validFrom: new Date('2026-01-01') },
        byId: shop.people.manager.id,
      },
    });
    await tx.markUpBand.create({ data: { listId, costFrom: '0', percent: '100' } });
    return tx.part.create({ data: { shopId: shop.shopId, number: 'P-2', title: 'Seal' } });
  });
  // 6 × 5.00 × 2 = 60.00 with 95.00: 35.00 past 120.00.
  expect((await draft(shop, id, '6', visit.items[0])).pastAuthority).toMatchObject([
    { beyond: '3500' },
  ]);
});

it('nothing is bought for work that is over, for nobody’s, or for another shop’s', async () => {
  const { shop, visit, partId } = await soldUpTo(api, 3600);
  const other = await makeShop(api);
  expect(await draft(shop, partId, '1', gid('WorkItem', other.aircraftId))).toMatchObject({
    code: 'NOT_FOUND',
  });
  expect(await draft(shop, partId, '1', visit.order)).toMatchObject({ code: 'BAD_INPUT' });
  const made = await draft(shop, partId, '1', visit.items[0]);
  await release(shop, visit);
  expect(await send(shop, made)).toMatchObject({ code: 'AGAINST_RULE' });
  const late = await draft(shop, partId, '1', visit.items[0]);
  expect(late.message).toMatch(/is released: nothing is bought for its work any more/);
  await expect(
    shop.inside((tx) =>
      tx.purchaseEvent.create({
        data: {
          ...{ orderId: made.id, kind: 'sent', channel: 'other', despite: ['beyond_authority'] },
          byId: shop.people.manager.id,
        },
      }),
    ),
  ).rejects.toThrow();
});
