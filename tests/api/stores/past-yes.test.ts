/** Parts held against the owner's yes: of several at once, and where the yes does not hold any more. */
import { holdFor } from '@fairlead/api/hold';
import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeVisit } from '../../support/visit.ts';
import { issue, lotOf, soldUpTo } from './past-yes.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

it('of many issues at once, out of many lots, as many go as there is room for', async () => {
  // 1.0 h × 95.00 of 120.00: room for two at 12.50..
  const { shop, visit, lotId, partId } = await soldUpTo(api, 3600, { ceiling: 12_000n });
  const lots = [lotId];
  while (lots.length < 10) lots.push(await lotOf(shop, partId));
  const answers = await Promise.all(lots.map((lot) => issue(shop, visit, lot)));
  expect(answers.filter(({ code }) => code === undefined)).toHaveLength(2);
  expect(answers.filter(({ code }) => code === 'BEYOND_AGREED')).toHaveLength(8);
});

it('an issue waits while its order is held, and is held against what was written meanwhile', async () => {
  const { shop, visit, lotId } = await soldUpTo(api, 3600, { ceiling: 10_000n });
  let waits: ReturnType<typeof issue> | null = null;
  let answered = false;
  await shop.inside(async (tx) => {
    await holdFor(tx, 'order', visit.orderId);
    waits = issue(shop, visit, lotId).finally(() => {
      answered = true;
    });
    await new Promise((resolve) => setTimeout(resolve, 400));
    expect(answered).toBe(false);
    await tx.stretch.create({
      data: {
        ...{ personId: shop.people.mechanic.id, itemId: visit.itemIds[0] ?? '' },
        startedAt: new Date('2026-03-15T09:00:00Z'),
        endedAt: new Date('2026-03-15T10:00:00Z'),
      },
    });
  });
  expect(await waits!).toMatchObject({ code: 'BEYOND_AGREED' });
});

it('a yes that was taken back leaves no room', async () => {
  const { shop, visit, lotId } = await soldUpTo(api, 3600);
  expect((await issue(shop, visit, lotId)).code).toBeUndefined();
  await shop.inside(async (tx) => {
    const { id: revisionId } = await tx.quoteRevision.findFirstOrThrow();
    await tx.decision.create({
      data: {
        ...{ revisionId, contactId: shop.contactId, choice: 'not_now', channel: 'telephone' },
        ...{ wordsShown: 'Stop it.', currency: 'USD', decidedAt: new Date() },
      },
    });
  });
  const refused = await issue(shop, visit, lotId);
  expect(refused).toMatchObject({ code: 'BEYOND_AGREED', field: 'quantity' });
  expect(refused.message).toMatch(/past the 0\.00 USD that are agreed/);
});

it('what a seller agreed to leaves no room for the buyer’s parts', async () => {
  const { shop, visit, lotId } = await soldUpTo(api, 3600);
  const buyer = await shop.inside((tx) =>
    tx.contact.create({ data: { shopId: shop.shopId, name: 'Test Buyer' } }),
  );
  await shop.as(
    'front_desk',
    'mutation($input: SellAircraftInput!) { sellAircraft(input: $input) { __typename } }',
    {
      input: {
        aircraftId: globalId('Aircraft', shop.aircraftId),
        buyerId: globalId('Contact', buyer.id),
        soldOn: new Date().toISOString().slice(0, 10),
      },
    },
  );
  expect(await issue(shop, visit, lotId)).toMatchObject({ code: 'BEYOND_AGREED' });
});

it('what was written off makes no room for more', async () => {
  // 2.3 h × 95.00 = 218.50 of 200.00; what is past it is written off.
  const { shop, visit, lotId } = await soldUpTo(api, 8280);
  await shop.as(
    'manager',
    'mutation($input: WriteOffInput!) { writeOff(input: $input) { __typename } }',
    { input: { orderId: visit.order, amount: '1850', reason: 'Ours.' } },
  );
  await shop.inside((tx) => tx.stretch.deleteMany());
  // Nothing is clocked any more, by a correction: there is room again up to the yes, and not to what was written off.
  expect((await issue(shop, visit, lotId, { quantity: '16' })).code).toBeUndefined();
  expect(await issue(shop, visit, lotId)).toMatchObject({ code: 'BEYOND_AGREED' });
});

it('where nobody ever agreed to anything nothing is held against a ceiling', async () => {
  const { shop, lotId } = await soldUpTo(api, 3600);
  const unquoted = await makeVisit(shop, { items: [{}] });
  expect((await issue(shop, { ...unquoted, lineIds: [] }, lotId)).code).toBeUndefined();
});
