/** An aircraft is sold mid-work: authority lapses, the seller is billed to date, the new owner says yes anew (common practice, no source); the records go with it (14 CFR 91.419). */
import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop } from '../../support/shop.ts';
import { print, words } from '../paper/printed.ts';
import { bill, draft, release } from './billing.ts';
import { buyerOf, clocked, draftOf, sell, standOf, today, visitOf } from './sold.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

it('lapses what the seller agreed to, takes their links back, bills them to date, and leaves the rest to the new owner', async () => {
  const shop = await makeShop(api);
  const visit = await visitOf(shop);
  const buyer = await buyerOf(shop);
  await shop.as(
    'front_desk',
    'mutation($input: MakeOwnerLinkInput!) { makeOwnerLink(input: $input) { __typename } }',
    {
      input: { orderId: visit.order, contactId: globalId('Contact', shop.contactId), days: 30 },
    },
  );
  expect(await shop.inside((tx) => tx.ownerLink.count({ where: { revokedAt: null } }))).toBe(1);
  // The firm price of the inspection is whole once begun: 400.00 and 95.00.
  expect(await standOf(shop, visit)).toMatchObject({
    agreed: '120000',
    costSoFar: '49500',
    beyondAuthority: '0',
  });

  const sold = await sell(shop, { buyerId: buyer.global, note: 'Bill of sale seen.' });
  expect(sold.sales).toEqual([
    {
      id: expect.any(String),
      soldOn: today(),
      seller: { name: 'Test Owner' },
      buyer: { name: 'Test Buyer' },
      orders: [{ id: visit.order }],
    },
  ]);
  expect(sold.contacts).toEqual([{ capacity: 'owner', contact: { name: 'Test Buyer' } }]);
  expect(await standOf(shop, visit)).toEqual({
    agreed: '0',
    costSoFar: '0',
    beyondAuthority: '0',
    items: [{ state: 'inspected' }, { state: 'put_off' }, { state: 'put_off' }],
  });
  expect(await shop.inside((tx) => tx.ownerLink.count({ where: { revokedAt: null } }))).toBe(0);

  // To date: an hour at 95.00; of the firm price, which is not all done, the hour on it, 95.00.
  const saleId = sold.sales[0]?.id;
  const sellers = await draftOf(shop, visit, saleId);
  expect(sellers).toMatchObject({
    net: '19000',
    contact: { name: 'Test Owner' },
    sale: { id: saleId },
    quoted: null,
    difference: [],
  });
  expect(sellers.lines.map(({ title, unit, net }) => [title, unit, net])).toEqual([
    ['Starter', 'hour', '9500'],
    ['Inspection', 'hour', '9500'],
  ]);
  const paper = await words(
    (await print(api, shop, `invoice/${sellers.id}.pdf`, 'front_desk')).bytes,
  );
  expect(paper).toContain(`Sold on`);
  // It is issued although nothing is released.
  expect(await bill(shop, 'issueInvoice', { invoiceId: sellers.id })).toMatchObject({
    number: 1,
    state: 'issued',
  });
  expect(await draftOf(shop, visit, saleId)).toMatchObject({ code: 'CONFLICT' });
  // Nothing of it is the new owner's.
  expect(await draft(shop, visit)).toMatchObject({ code: 'AGAINST_RULE' });

  // What is clocked now is beyond what anybody agreed to, until the new owner says yes.
  await clocked(shop, visit.itemIds[1], new Date(Date.now() + 60_000), 7200);
  await shop.inside((tx) =>
    tx.itemEvent.create({
      data: { itemId: visit.itemIds[1] ?? '', kind: 'resumed', byId: shop.people.mechanic.id },
    }),
  );
  const held = await standOf(shop, visit);
  expect(held).toMatchObject({ agreed: '0' });
  expect(BigInt(held?.beyondAuthority ?? 0)).toBe(BigInt(held?.costSoFar ?? -1));
  expect(BigInt(held?.costSoFar ?? 0) > 0n).toBe(true);
  await shop.inside(async (tx) => {
    const quote = await tx.quote.findFirstOrThrow({
      include: { revisions: { include: { lines: true } } },
    });
    const { id: _id, lines, ...first } = quote.revisions[0]!;
    const next = await tx.quoteRevision.create({
      data: { ...first, withFindings: undefined, revision: 2 } as never,
    });
    const [, inspection] = lines;
    const { id: _line, ...kept } = inspection!;
    const line = await tx.quoteLine.create({
      data: {
        ...kept,
        because: undefined,
        asked: undefined,
        revisionId: next.id,
        pricing: 'time_and_materials',
        unitPrice: '95',
        likelyMinor: 40_000n,
      } as never,
    });
    await tx.quoteSending.create({ data: { revisionId: next.id, channel: 'telephone' } });
    await tx.decision.create({
      data: {
        ...{ revisionId: next.id, contactId: buyer.id, choice: 'go_ahead', channel: 'telephone' },
        ...{
          wordsShown: 'Read out.',
          ceilingMinor: 30_000n,
          currency: 'USD',
          decidedAt: new Date(),
        },
      },
    });
    const item = await tx.workItem.create({
      data: {
        orderId: visit.orderId,
        position: 4,
        title: 'Inspection, the rest',
        jasc: '5300',
        cautions: [],
        quoteLineId: line.id,
      },
    });
    await tx.stretch.create({
      data: {
        personId: shop.people.mechanic.id,
        itemId: item.id,
        startedAt: new Date(Date.now() + 86_400_000),
        endedAt: new Date(Date.now() + 86_400_000 + 3_600_000),
      },
    });
  });
  expect(await standOf(shop, visit)).toMatchObject({ agreed: '30000' });
  await release(shop, visit);
  const buyers = await draft(shop, visit);
  expect(buyers).toMatchObject({ state: 'draft', agreed: '30000' });
  const issued = await bill(shop, 'issueInvoice', { invoiceId: buyers.id });
  expect(issued.number).toBe(2);
  const who = await shop.as<{ node: { contact: { name: string } } }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Invoice { contact { name } } } }',
    { id: buyers.id },
  );
  expect(who.data?.node.contact.name).toBe('Test Buyer');
});

it('cuts at the end of the day of the sale where the shop is, and a seller can say yes no more', async () => {
  const shop = await makeShop(api);
  const visit = await visitOf(shop);
  const buyer = await buyerOf(shop);
  // Sold yesterday: what was clocked today is not the seller's.
  const yesterday = new Date(Date.now() - 86_400_000).toISOString().slice(0, 10);
  const midnight = new Date(`${today()}T00:00:00Z`);
  await clocked(shop, visit.itemIds[2], new Date(midnight.getTime() - 1_800_000), 3600);
  const { sales } = await sell(shop, { buyerId: buyer.global, soldOn: yesterday });
  const sellers = await draftOf(shop, visit, sales[0]?.id);
  // Half of the hour on the paint was before midnight: 0.5 h × 95.00.
  expect(sellers.lines.find(({ title }) => title === 'Paint')).toMatchObject({
    quantity: '0.5',
    net: '4750',
  });
  const link = await shop.as<{ done: { code: string } }>(
    'front_desk',
    'mutation($input: MakeOwnerLinkInput!) { done: makeOwnerLink(input: $input) { ... on Refusal { code message } } }',
    { input: { orderId: visit.order, contactId: globalId('Contact', shop.contactId), days: 30 } },
  );
  expect(link.data?.done.code).toBe('AGAINST_RULE');
});

it('refuses a sale in the future, to its owner, while a clock runs, before the last one, and by whom it does not concern', async () => {
  const shop = await makeShop(api);
  const visit = await visitOf(shop);
  const buyer = await buyerOf(shop);
  const tomorrow = new Date(Date.now() + 86_400_000).toISOString().slice(0, 10);
  expect(await sell(shop, { buyerId: buyer.global, soldOn: tomorrow })).toMatchObject({
    code: 'BAD_INPUT',
  });
  expect(await sell(shop, { buyerId: globalId('Contact', shop.contactId) })).toMatchObject({
    code: 'CONFLICT',
    message: expect.stringContaining('owned by Test Owner already'),
  });
  expect(await sell(shop, { buyerId: globalId('Contact', shop.aircraftId) })).toMatchObject({
    code: 'NOT_FOUND',
  });
  expect(await sell(shop, { buyerId: buyer.global }, 'mechanic')).toMatchObject({
    code: 'FORBIDDEN',
  });
  await shop.inside((tx) =>
    tx.stretch.create({
      data: {
        personId: shop.people.mechanic.id,
        itemId: visit.itemIds[2] ?? '',
        startedAt: new Date(Date.now() - 60_000),
      },
    }),
  );
  expect(await sell(shop, { buyerId: buyer.global })).toMatchObject({
    code: 'CONFLICT',
    message: expect.stringContaining('Test mechanic on item 3'),
  });
  expect(await shop.inside((tx) => tx.aircraftSale.count())).toBe(0);
  await shop.inside((tx) => tx.stretch.deleteMany({ where: { endedAt: null } }));
  expect((await sell(shop, { buyerId: buyer.global })).sales).toHaveLength(1);
  expect(
    await sell(shop, { buyerId: globalId('Contact', shop.contactId), soldOn: '2026-11-01' }),
  ).toMatchObject({ code: 'AGAINST_RULE' });
  const other = await visitOf(await makeShop(api));
  expect(await draftOf(shop, visit, globalId('AircraftSale', other.orderId))).toMatchObject({
    code: 'NOT_FOUND',
  });
});
