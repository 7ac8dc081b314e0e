import type pg from 'pg';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { asShopForGood, rawConnection, stateOf } from './raw.ts';
import { draftInvoice, makeOrder } from './rows.ts';

let api: TestApi;
let shop: TestShop;
let orderId: string;
let owner: pg.Client;
beforeAll(async () => {
  api = await startApi();
  shop = await makeShop(api);
  ({ orderId } = await makeOrder(shop));
  owner = await rawConnection(api.database.migratorUrl);
});
afterAll(async () => {
  await owner.end();
  await api.stop();
});

const issue = (id: string) =>
  shop.inside((tx) => tx.invoice.update({ where: { id }, data: { issuedAt: new Date() } }));

it('gets its number from the database when it is issued, whatever number was asked for', async () => {
  const first = await draftInvoice(shop, orderId);
  const issued = await shop.inside((tx) =>
    tx.invoice.update({ where: { id: first }, data: { issuedAt: new Date(), number: 900 } }),
  );
  expect(issued.number).toBe(1);
  await expect(
    shop.inside((tx) =>
      tx.invoice.create({
        data: {
          orderId,
          contactId: shop.contactId,
          currency: 'USD',
          netMinor: 0,
          taxMinor: 0,
          grossMinor: 0,
          agreedMinor: 0,
          issuedAt: new Date(),
          number: 77,
        },
      }),
    ),
  ).rejects.toThrow(/begins as a draft/);
});

it('once issued is never changed or deleted, nor are its lines: not by the application, not by the owner', async () => {
  const id = await draftInvoice(shop, orderId);
  await issue(id);
  await expect(
    shop.inside((tx) => tx.invoice.update({ where: { id }, data: { netMinor: 1 } })),
  ).rejects.toThrow(/is issued/);
  await expect(shop.inside((tx) => tx.invoice.delete({ where: { id } }))).rejects.toThrow();
  await expect(
    shop.inside((tx) =>
      tx.invoiceLine.updateMany({ where: { invoiceId: id }, data: { netMinor: 1 } }),
    ),
  ).rejects.toThrow(/is issued/);
  await expect(
    shop.inside((tx) => tx.invoiceLine.deleteMany({ where: { invoiceId: id } })),
  ).rejects.toThrow(/is issued/);
  for (const sql of [
    `UPDATE invoice SET gross_minor = 0 WHERE id = '${id}'`,
    `DELETE FROM invoice WHERE id = '${id}'`,
    `UPDATE invoice_line SET title = 'x' WHERE invoice_id = '${id}'`,
    `DELETE FROM invoice_line WHERE invoice_id = '${id}'`,
    'TRUNCATE invoice CASCADE',
    'TRUNCATE invoice_line CASCADE',
  ])
    expect(await stateOf(owner.query(sql)), sql).toBe('FL001');
});

it('is not issued while its lines do not add up to it', async () => {
  const wrong = await draftInvoice(shop, orderId, 1000n, 999n);
  await expect(issue(wrong)).rejects.toThrow(/lines add to 999, the invoice says 1000/);
});

it('numbers without a gap while eight issue at once and three in ten roll back', async () => {
  const other = await makeShop(api);
  const { orderId: order } = await makeOrder(other);
  const drafts = await Promise.all(Array.from({ length: 60 }, () => draftInvoice(other, order)));
  let given = 0;
  const lane = async (lane: number) => {
    const client = await rawConnection(api.database.appUrl);
    for (let turn = lane; turn < drafts.length; turn += 8) {
      const rollBack = turn % 10 < 3;
      const attempt = asShopForGood(client, other.shopId, async () => {
        await client.query('UPDATE invoice SET issued_at = now() WHERE id = $1', [drafts[turn]]);
        if (rollBack) throw new Error('rolled back on purpose');
      });
      if (rollBack) await expect(attempt).rejects.toThrow('on purpose');
      else {
        await attempt;
        given += 1;
      }
    }
    await client.end();
  };
  await Promise.all(Array.from({ length: 8 }, (_, index) => lane(index)));
  const { rows } = await owner.query(
    'SELECT number FROM invoice WHERE shop_id = $1 AND number IS NOT NULL ORDER BY number',
    [other.shopId],
  );
  expect(rows.map(({ number }) => number)).toEqual(
    Array.from({ length: given }, (_, index) => index + 1),
  );
  expect(given).toBe(42);
});
