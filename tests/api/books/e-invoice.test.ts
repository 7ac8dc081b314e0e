import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { keepsTheRules, text, texts } from '../../support/e-invoice-rules.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { print } from '../paper/printed.ts';
import { bill, draft, issueTo, makeSold, release } from './billing.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const address = { line1: 'Hangar 2', city: 'Ebbsay', postcode: 'EB 1', country: 'us' };
const addressed = {
  addressLine1: 'Hangar 2',
  city: 'Ebbsay',
  country: 'US',
  taxNumber: 'T-1',
  registrationNumber: 'R-1',
};

/** A visit at a flat price, with a part and hours past the ceiling, released and drafted. */
async function drafted(over: Parameters<typeof makeShop>[1] = {}) {
  const shop = await makeShop(api, over);
  const visit = await makeSold(shop, {
    lines: [
      {
        title: '100-hour inspection',
        pricing: 'fixed',
        likelyMinor: 124_000n,
        unitPrice: '1240',
        taxRate: '4',
      },
      { title: 'Starter replaced', likelyMinor: 19_000n, taxRate: '4' },
    ],
    ceiling: 140_000n,
    items: [{ line: 1, seconds: 7200 }],
  });
  await issueTo(shop, visit.itemIds[0] ?? '', { unitPrice: '12.345', quantity: '3' });
  await release(shop, visit);
  const { id } = await draft(shop, visit);
  return { shop, visit, id };
}
const issue = (shop: TestShop, id: string) => bill(shop, 'issueInvoice', { invoiceId: id });
const xmlOf = (shop: TestShop, id: string, role: Parameters<typeof print>[3] = 'front_desk') =>
  print(api, shop, `invoice/${id}.xml`, role);
const setAddress = (
  shop: TestShop,
  postalAddress: unknown,
  role: 'front_desk' | 'mechanic' = 'front_desk',
) =>
  shop.as<{ done: { code?: string; message?: string; field?: string; postalAddress?: unknown } }>(
    role,
    `mutation($input: SetContactAddressInput!) { done: setContactAddress(input: $input) {
       ... on Contact { postalAddress { line1 line2 city postcode country } } ... on Refusal { code message field } } }`,
    { input: { contactId: globalId('Contact', shop.contactId), postalAddress } },
  );
const lacksOf = async (shop: TestShop, id: string) => {
  const { data } = await shop.as<{ node: { eInvoiceLacks: string[] } }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Invoice { eInvoiceLacks } } }',
    { id },
  );
  return data?.node.eInvoiceLacks;
};

it('answers the issued invoice as a file to keep, with what was paid since', async () => {
  const { shop, id } = await drafted(addressed);
  expect((await setAddress(shop, address)).data?.done.postalAddress).toEqual({
    ...address,
    line2: null,
    country: 'US',
  });
  expect(await lacksOf(shop, id)).toEqual([]);
  const { gross, number } = await issue(shop, id);
  await bill(shop, 'recordPayment', { invoiceId: id, amount: '5000', method: 'card' });
  const { status, headers, bytes } = await xmlOf(shop, id, 'mechanic');
  expect(status).toBe(200);
  expect(headers.get('content-type')).toBe('application/xml; charset=utf-8');
  expect(headers.get('content-disposition')).toBe(`attachment; filename="invoice-${number}.xml"`);
  expect(headers.get('cache-control')).toBe('no-store');
  const root = keepsTheRules(bytes.toString());
  // The flat price is one, hours are hours, a part is a piece, what is held back is taken off.
  expect(texts(root, 'InvoiceLine/InvoicedQuantity')).toContain('-1');
  const units = [...root.getElementsByTagName('cbc:InvoicedQuantity')].map((each) =>
    each.getAttribute('unitCode'),
  );
  expect(new Set(units)).toEqual(new Set(['C62', 'HUR', 'EA']));
  expect(text(root, 'LegalMonetaryTotal/PrepaidAmount')).toBe('50.00');
  expect(BigInt(text(root, 'LegalMonetaryTotal/PayableAmount').replace('.', ''))).toBe(
    BigInt(gross) - 5000n,
  );
  expect(text(root, 'PaymentTerms/Note')).toBe(`To be paid by ${text(root, 'DueDate')}.`);
});

it('keeps who billed whom as it was when issued, under the chain and for good', async () => {
  const { shop, id } = await drafted(addressed);
  await setAddress(shop, address);
  await issue(shop, id);
  await setAddress(shop, { ...address, city: 'Wrackport' });
  await shop.inside((tx) =>
    tx.shop.update({ where: { id: shop.shopId }, data: { name: 'Another' } }),
  );
  const root = keepsTheRules((await xmlOf(shop, id)).bytes.toString());
  expect(text(root, 'AccountingCustomerParty/Party/PostalAddress/CityName')).toBe('Ebbsay');
  expect(text(root, 'AccountingSupplierParty/Party/PartyLegalEntity/RegistrationName')).toBe(
    'Test Shop',
  );
  const [row] = await shop.inside((tx) =>
    tx.chainLink.findMany({ where: { kind: 'invoice' }, select: { payload: true } }),
  );
  expect(row?.payload).toMatchObject({
    invoice: { seller: { name: 'Test Shop' }, buyer: { city: 'Ebbsay' } },
  });
  // Nobody writes a party of their own, neither on a draft nor on what is issued.
  const other = await drafted(addressed);
  const data = { buyer: { name: 'Somebody else' } };
  for (const each of [{ shop, id }, other])
    await expect(
      each.shop.inside(
        (tx) =>
          tx.$executeRaw`UPDATE invoice SET buyer = ${JSON.stringify(data.buyer)}::jsonb WHERE shop_id = current_shop()`,
      ),
    ).rejects.toThrow(/never changed|parties_of_an_issued_one/);
});

it('writes a credit note as type 381, positive, with the invoice that it takes back', async () => {
  const { shop, id } = await drafted(addressed);
  await setAddress(shop, address);
  const { number, gross } = await issue(shop, id);
  const note = await bill(shop, 'creditInvoice', { invoiceId: id });
  const { bytes, headers } = await xmlOf(shop, note.id);
  expect(headers.get('content-disposition')).toContain(`credit-note-${note.number}.xml`);
  const root = keepsTheRules(bytes.toString());
  expect(text(root, 'BillingReference/InvoiceDocumentReference/ID')).toBe(`${number}`);
  expect(text(root, 'LegalMonetaryTotal/PayableAmount').replace('.', '')).toBe(gross);
});

it('refuses a draft, nobody, another shop and what is no invoice', async () => {
  const { shop, id } = await drafted(addressed);
  await setAddress(shop, address);
  expect(await xmlOf(shop, id)).toMatchObject({
    status: 422,
    error: { code: 'AGAINST_RULE', message: expect.stringContaining('Issue it first') },
  });
  await issue(shop, id);
  expect(await xmlOf(shop, id, null)).toMatchObject({
    status: 401,
    error: { code: 'SIGN_IN_NEEDED' },
  });
  const other = await makeShop(api);
  expect((await xmlOf(other, id)).status).toBe(404);
  for (const wrong of ['x', globalId('Invoice', 'x'), globalId('WorkOrder', shop.shopId)])
    expect([400, 404]).toContain((await xmlOf(shop, wrong)).status);
  // Whoever left may not have it any more, as with the PDF.
  expect((await xmlOf(shop, id, 'inspector')).status).toBe(200);
  await shop.inside((tx) =>
    tx.person.update({ where: { id: shop.people.inspector.id }, data: { active: false } }),
  );
  expect([401, 403]).toContain((await xmlOf(shop, id, 'inspector')).status);
});

it('says of a draft and of an issued invoice what it lacks, and how to come to one', async () => {
  const { shop, visit, id } = await drafted();
  const lacks = await lacksOf(shop, id);
  expect(lacks).toEqual([
    expect.stringMatching(/of the shop: a first line of the address, a city, a country/),
    expect.stringMatching(/BR-CO-26/),
    expect.stringMatching(/BR-S-02/),
    expect.stringMatching(
      /of the payer, Test Owner: a first line of the address, a city, a country/,
    ),
  ]);
  await issue(shop, id);
  const refused = await xmlOf(shop, id);
  expect(refused).toMatchObject({ status: 422, error: { code: 'AGAINST_RULE' } });
  for (const lack of lacks ?? []) expect(refused.error?.message).toContain(lack);
  expect(refused.error?.message).toContain('credit it and bill the order again');

  // Done as it says, it is there.
  await shop.inside((tx) => tx.shop.update({ where: { id: shop.shopId }, data: addressed }));
  await setAddress(shop, address);
  expect((await xmlOf(shop, id)).status).toBe(422);
  await bill(shop, 'creditInvoice', { invoiceId: id });
  const again = await issue(shop, (await draft(shop, visit)).id);
  expect((await xmlOf(shop, again.id)).status).toBe(200);
});

it('refuses a currency that does not have two decimals', async () => {
  const { shop, id } = await drafted({ ...addressed, currency: 'USD' });
  await setAddress(shop, address);
  await shop.inside(
    (tx) => tx.$executeRaw`UPDATE invoice SET currency = 'KWD' WHERE shop_id = current_shop()`,
  );
  expect(await lacksOf(shop, id)).toEqual([
    expect.stringMatching(/KWD, which does not have two decimals/),
  ]);
});

it('takes an address from the desk only, whole, in a country that there is', async () => {
  const shop = await makeShop(api);
  expect((await setAddress(shop, address, 'mechanic')).data?.done.code).toBe('FORBIDDEN');
  expect((await setAddress(shop, { ...address, country: 'QQ' })).data?.done).toMatchObject({
    code: 'BAD_INPUT',
    field: 'country',
    message: expect.stringContaining('"QQ"'),
  });
  expect((await setAddress(shop, { ...address, city: ' ' })).data?.done.field).toBe('city');
  expect((await setAddress(shop, null)).data?.done.postalAddress).toBeNull();
  for (const half of [`city = 'Ebbsay'`, `postcode = 'EB 1'`, `country = 'us'`])
    await expect(
      shop.inside((tx) =>
        tx.$executeRawUnsafe(`UPDATE contact SET ${half} WHERE shop_id = current_shop()`),
      ),
    ).rejects.toThrow(/contact_(address_whole|country_iso_3166)/);
  await expect(
    shop.inside(
      (tx) => tx.$executeRaw`UPDATE shop SET vat_number = '123' WHERE id = current_shop()`,
    ),
  ).rejects.toThrow(/vat_number_has_country/);
});

it('sets what the shop is registered as; what is left out stays', async () => {
  const shop = await makeShop(api);
  const change = async (over: object) => {
    const { data: now } = await shop.as<{ viewer: { shop: { version: number } } }>(
      'manager',
      '{ viewer { shop { version } } }',
    );
    const input = {
      expectedVersion: now?.viewer.shop.version,
      ...{ name: 'Test Shop', place: 'Nowhere Strand', timeZone: 'UTC', currency: 'USD' },
      ...{ standing: 'mechanics', clearanceMm: 1000, billingStep: '0.1', billingRounding: 'up' },
      timeInServiceBasis: 'tachometer',
      ...over,
    };
    const { data } = await shop.as<{ done: Record<string, unknown> }>(
      'manager',
      `mutation($input: ChangeShopInput!) { done: changeShop(input: $input) { ... on Refusal { code field message }
         ... on Shop { vatNumber taxNumber registrationNumber exemptionReason postalAddress { line1 country } } } }`,
      { input },
    );
    return data?.done;
  };
  const whole = {
    vatNumber: 'PT123456789',
    taxNumber: 'T-1',
    registrationNumber: null,
    exemptionReason: null,
    postalAddress: { line1: 'Hangar 2', country: 'US' },
  };
  expect(
    await change({ postalAddress: address, vatNumber: 'pt 123 456 789', taxNumber: 'T-1' }),
  ).toEqual(whole);
  expect(await change({ taxNumber: '' })).toEqual({ ...whole, taxNumber: null });
  expect(await change({ vatNumber: '123456789' })).toMatchObject({
    code: 'BAD_INPUT',
    field: 'vatNumber',
  });
  expect(await change({ postalAddress: null })).toMatchObject({ postalAddress: null });
});
