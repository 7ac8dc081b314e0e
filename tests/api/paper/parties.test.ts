import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { issuedInvoice, purchaseDrafted } from './full-shop.ts';
import { poppler, print, words } from './printed.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const address = {
  addressLine1: '4 Breakwater Row',
  addressLine2: null,
  city: 'Teststrand',
  postcode: '2900-123',
  country: 'PT',
};
const move = (shop: TestShop) =>
  shop.inside(async (tx) => {
    await tx.shop.updateMany({ data: { ...address, vatNumber: 'PT999999990' } });
    await tx.contact.updateMany({ data: { ...address, addressLine1: '9 Invented Lane' } });
  });
const lines = ['Teststrand, 2900-123', 'Portugal'];

// EN 16931: BG-5 with BT-35, BT-37, BT-38 and BT-40 for the seller, BG-8 for the buyer, BT-31.
it.skipIf(!poppler)(
  'an invoice says where both sides lived when it was issued, and the VAT number',
  async () => {
    const { shop, invoice } = await issuedInvoice(api, { lines: 2, findings: 0, each: 0 });
    const other = await issuedInvoice(api, { lines: 2, findings: 0, each: 0, before: move });
    await move(shop);
    const early = await words((await print(api, shop, `invoice/${invoice.id}.pdf`)).bytes);
    expect(early).not.toContain('Portugal');
    const said = await words(
      (await print(api, other.shop, `invoice/${other.invoice.id}.pdf`)).bytes,
    );
    for (const line of ['4 Breakwater Row', '9 Invented Lane', ...lines, 'VAT number PT999999990'])
      expect(said).toContain(line);
  },
);

it.skipIf(!poppler)('a purchase order says where to send it', async () => {
  const { shop, id } = await purchaseDrafted(api);
  await move(shop);
  const said = await words((await print(api, shop, `purchase-order/${id}.pdf`)).bytes);
  for (const line of ['4 Breakwater Row', ...lines]) expect(said).toContain(line);
  expect(said).not.toContain('PT999999990');
});
