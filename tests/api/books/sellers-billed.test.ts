/** What a seller was billed for is settled: it changes by a credit note alone, and is never the buyer's as well. */
import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { bill, draft, issueTo, type SoldVisit } from './billing.ts';
import { buyerOf, clocked, draftOf, sell, standOf, visitOf } from './sold.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Answer {
  code?: string;
  message?: string;
}
async function say(
  shop: TestShop,
  name: string,
  input: object,
  role: 'front_desk' | 'mechanic' | 'manager' = 'front_desk',
): Promise<Answer> {
  const type = `${name[0]?.toUpperCase()}${name.slice(1)}Input`;
  const { data, errors } = await shop.as<{ done: Answer }>(
    role,
    `mutation($input: ${type}!) { done: ${name}(input: $input) { __typename ... on Refusal { code message } } }`,
    { input },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.done;
}
const charge = (shop: TestShop, { order }: SoldVisit) =>
  say(shop, 'addOrderCharge', { orderId: order, kind: 'freight', title: 'Freight', price: '3000' });
const takeBack = (shop: TestShop, lotId: string, itemId: string | undefined) =>
  say(
    shop,
    'returnPart',
    { lotId: globalId('Lot', lotId), itemId: globalId('WorkItem', itemId ?? ''), quantity: '1' },
    'mechanic',
  );

/** Two gaskets at 12.50 on the starter, and freight at 30.00, before the sale; the seller billed, or not. */
async function billedToSeller(billed = true) {
  const shop = await makeShop(api);
  const visit = await visitOf(shop);
  const { lotId, partId } = await issueTo(shop, visit.itemIds[0] ?? '', { quantity: '2' });
  expect((await charge(shop, visit)).code).toBeUndefined();
  const buyer = await buyerOf(shop);
  const saleId = (await sell(shop, { buyerId: buyer.global })).sales[0]?.id;
  const sellers = await draftOf(shop, visit, saleId);
  // 95.00 and 95.00 by time, 25.00 of parts, 30.00 of freight.
  expect(sellers.net).toBe('24500');
  if (billed) await bill(shop, 'issueInvoice', { invoiceId: sellers.id });
  return { shop, visit, lotId, partId, saleId, invoiceId: sellers.id };
}

const billedWords =
  /change what Test Owner was billed for on order \d+, with invoice 1, before the aircraft was sold on .* credit note/;

it('a part that the seller was billed for comes back once that is credited, and is no credit of the buyer’s', async () => {
  const { shop, visit, lotId, partId, saleId, invoiceId } = await billedToSeller();
  const [itemId] = visit.itemIds;
  const refused = await takeBack(shop, lotId, itemId);
  expect(refused).toMatchObject({ code: 'CONFLICT' });
  expect(refused.message).toMatch(billedWords);
  // One that the buyer has from the same lot comes back as it always does: the last issued first.
  await shop.inside((tx) =>
    tx.stockMovement.create({
      data: { lotId, itemId: itemId ?? '', kind: 'issue', quantity: '-1', at: new Date() },
    }),
  );
  expect(await standOf(shop, visit)).toMatchObject({ costSoFar: '1250' });
  expect((await takeBack(shop, lotId, itemId)).code).toBeUndefined();
  expect(await standOf(shop, visit)).toMatchObject({ costSoFar: '0' });
  expect(await takeBack(shop, lotId, itemId)).toMatchObject({ code: 'CONFLICT' });

  await bill(shop, 'creditInvoice', { invoiceId });
  expect((await takeBack(shop, lotId, itemId)).code).toBeUndefined();
  // One gasket less for the seller, and nothing for the buyer, neither owed nor given back.
  const anew = await draftOf(shop, visit, saleId);
  expect(anew.net).toBe('23250');
  expect(anew.lines.find(({ title }) => title === 'Gasket')).toMatchObject({ quantity: '1' });
  expect(await standOf(shop, visit)).toMatchObject({ costSoFar: '0' });
  expect(await draft(shop, visit)).toMatchObject({ code: 'AGAINST_RULE' });
  expect(partId).toBeTruthy();
});

it('a charge that the seller was billed for is taken back by a credit note alone', async () => {
  const { shop, visit } = await billedToSeller();
  const { id } = await shop.inside((tx) => tx.orderCharge.findFirstOrThrow());
  const refused = await say(shop, 'endOrderCharge', {
    chargeId: globalId('OrderCharge', id),
    reason: 'It was ours.',
  });
  expect(refused.message).toMatch(billedWords);
  // What is charged now is the owner's of now.
  expect((await charge(shop, visit)).code).toBeUndefined();
  expect(await standOf(shop, visit)).toMatchObject({ costSoFar: '3000' });
});

it('hours that the seller was billed for are put right once that is credited, and never become the buyer’s', async () => {
  const { shop, visit, invoiceId } = await billedToSeller();
  // Clocked by hand, so that there is an event to correct: an hour on the paint, before the sale.
  const began = new Date('2026-03-20T09:00:00Z');
  const ended = new Date('2026-03-20T10:00:00Z');
  await clocked(shop, visit.itemIds[2], began, 3600);
  const stop = await shop.inside(async (tx) => {
    const common = { personId: shop.people.mechanic.id, itemId: visit.itemIds[2] ?? '' };
    await tx.clockEvent.create({
      data: {
        ...{
          ...common,
          kind: 'start',
          at: began,
          receivedAt: began,
          clientEventId: crypto.randomUUID(),
        },
      },
    });
    return tx.clockEvent.create({
      data: {
        ...{ personId: common.personId, kind: 'stop', at: ended },
        ...{ receivedAt: ended, clientEventId: crypto.randomUUID() },
      },
    });
  });
  const put = (at: string) =>
    say(
      shop,
      'correctClock',
      {
        eventId: globalId('ClockEvent', stop.id),
        reason: 'I stopped later.',
        clientEventId: crypto.randomUUID(),
        at,
      },
      'mechanic',
    );
  expect((await put('2026-03-20T11:00:00Z')).message).toMatch(billedWords);
  // The same time again, under somebody else's eyes say, changes no bill.
  expect((await put('2026-03-20T10:00:00Z')).code).toBeUndefined();
  await bill(shop, 'creditInvoice', { invoiceId });
  expect((await put('2026-03-20T11:00:00Z')).code).toBeUndefined();
  expect(await standOf(shop, visit)).toMatchObject({ costSoFar: '0' });
});

it('who pays for work that the seller was billed for is settled', async () => {
  const { shop, visit } = await billedToSeller();
  const refused = await say(shop, 'putAtOurCost', {
    itemId: visit.items[0],
    kind: 'rework',
    reason: 'It was our fault.',
  });
  expect(refused).toMatchObject({ code: 'CONFLICT' });
  expect(refused.message).toMatch(billedWords);
});

it('before the seller is billed all of it can be changed, and the draft follows', async () => {
  const { shop, visit, lotId, saleId } = await billedToSeller(false);
  expect((await takeBack(shop, lotId, visit.itemIds[0])).code).toBeUndefined();
  expect((await draftOf(shop, visit, saleId)).net).toBe('23250');
});

it('what was written off of the seller’s work is not written off of the buyer’s', async () => {
  const shop = await makeShop(api);
  const visit = await visitOf(shop);
  // 400.00 and 95.00 worked and 1,200.00 agreed: two hours on the paint and a great part of 900.00 are past it.
  const { partId } = await issueTo(shop, visit.itemIds[2] ?? '', {
    unitPrice: '900',
    quantity: '1',
  });
  const { beyondAuthority } = (await standOf(shop, visit)) ?? { beyondAuthority: '0' };
  expect(beyondAuthority).toBe('19500');
  await say(
    shop,
    'writeOff',
    { orderId: visit.order, amount: beyondAuthority, reason: 'Ours.' },
    'manager',
  );
  const buyer = await buyerOf(shop);
  await sell(shop, { buyerId: buyer.global });
  await issueTo(shop, visit.itemIds[2] ?? '', { partId, quantity: '1' });
  // Nothing is agreed by the buyer: all of it is past authority.
  expect(await standOf(shop, visit)).toMatchObject({ agreed: '0', beyondAuthority: '90000' });
});
