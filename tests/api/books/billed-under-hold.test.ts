/** What an invoice says is reckoned while nothing of it can change: what comes meanwhile is in it, or after it, and never lost between. */
import { holdFor } from '@fairlead/api/hold';
import type { Tx } from '@fairlead/database';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { type Billed, bill, draft, issueTo, makeSold, release } from './billing.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

async function drafted() {
  const shop = await makeShop(api);
  const visit = await makeSold(shop, {
    lines: [{ title: 'Starter replaced', likelyMinor: 19_000n }],
    ceiling: 50_000n,
    items: [{ line: 0, seconds: 7200 }],
  });
  const held = await draft(shop, visit);
  await release(shop, visit);
  return { shop, visit, held };
}

/** Issues a draft while somebody else's transaction is under way that writes what it is reckoned from. */
async function issuedMeanwhile(
  shop: TestShop,
  invoiceId: string,
  write: (tx: Tx) => Promise<unknown>,
): Promise<Billed> {
  let issuing: Promise<Billed> | undefined;
  await shop.inside(async (tx) => {
    await write(tx);
    issuing = bill(shop, 'issueInvoice', { invoiceId });
    await new Promise((resolve) => setTimeout(resolve, 400));
  });
  return issuing!;
}

it('a charge that is being added when the invoice is issued is not left out of it', async () => {
  const { shop, visit, held } = await drafted();
  const answer = await issuedMeanwhile(shop, held.id, async (tx) => {
    // As whoever adds a charge holds it.
    await holdFor(tx, 'invoices of order', visit.orderId);
    await tx.orderCharge.create({
      data: {
        ...{ orderId: visit.orderId, kind: 'freight', title: 'Freight', category: 'supplies' },
        ...{ amountMinor: 3_000n, byId: shop.people.front_desk.id },
      },
    });
  });
  expect(answer).toMatchObject({ code: 'CONFLICT' });
  expect(answer.message).toMatch(/draft says 190\.00 .* comes to 222\.10/);
  expect((await draft(shop, visit)).net).toBe('22000');
});

it('a clock that is being put right when the invoice is issued counts', async () => {
  const { shop, visit, held } = await drafted();
  const answer = await issuedMeanwhile(shop, held.id, async (tx) => {
    await tx.$queryRaw`SELECT id FROM person WHERE shop_id = current_shop() AND id = ${shop.people.mechanic.id}::uuid FOR NO KEY UPDATE`;
    await tx.stretch.create({
      data: {
        ...{ personId: shop.people.mechanic.id, itemId: visit.itemIds[0] ?? '' },
        startedAt: new Date('2026-03-20T09:00:00Z'),
        endedAt: new Date('2026-03-20T10:00:00Z'),
      },
    });
  });
  expect(answer).toMatchObject({ code: 'CONFLICT' });
});

it('of many who issue at once all are answered with the one invoice, under one number', async () => {
  const { shop, held } = await drafted();
  const answers = await Promise.all(
    Array.from({ length: 8 }, () => bill(shop, 'issueInvoice', { invoiceId: held.id })),
  );
  expect(new Set(answers.map(({ id, number }) => `${id} ${number}`))).toEqual(
    new Set([`${held.id} 1`]),
  );
});

it('the same sum with other parts is not the same invoice', async () => {
  const { shop, visit } = await drafted();
  const itemId = visit.itemIds[0] ?? '';
  const { lotId, partId } = await issueTo(shop, itemId, { quantity: '1' });
  const held = await draft(shop, visit);
  await shop.inside((tx) =>
    tx.stockMovement.create({ data: { lotId, itemId, kind: 'return', quantity: '1' } }),
  );
  await issueTo(shop, itemId, { partId, quantity: '1' });
  const answer = await bill(shop, 'issueInvoice', { invoiceId: held.id });
  expect(answer).toMatchObject({ code: 'CONFLICT' });
  expect(answer.message).toMatch(/other lines/);
  const again = await draft(shop, visit);
  expect(await bill(shop, 'issueInvoice', { invoiceId: again.id })).toMatchObject({ number: 1 });
});
