import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeOrder } from '../guarantees/rows.ts';
import { type SettingsShop, settingsShop, sheetOf, shopInput } from './settings-shop.ts';

let api: TestApi;
let shop: SettingsShop;
beforeAll(async () => {
  api = await startApi();
  shop = await settingsShop(api);
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const change = (over: Record<string, unknown>, of = shop) =>
  of.say(
    'changeShop',
    'ChangeShopInput',
    shopInput(over),
    '... on Shop { version clearanceMm billingStep standing certificateNumber }',
  );

describe('the shop', () => {
  it('is set by its manager, and says who did it and when', async () => {
    expect(await change({})).toMatchObject({
      __typename: 'Shop',
      version: 2,
      clearanceMm: 1500,
      billingStep: '0.25',
    });
    const sheet = await sheetOf(shop);
    expect(sheet.lastChange?.by).toBe('Test manager');
    expect(Date.parse(sheet.lastChange?.at ?? '')).toBeGreaterThan(Date.now() - 60_000);
    expect(sheet.changes[0]).toMatchObject({ by: 'Test manager', about: null });
    expect(sheet.changes[0]?.words).toContain('clearance, mm: 1000, now 1500');
    expect(sheet.changes[0]?.words).toContain('billed time is rounded: up, now nearest');
  });

  it('tells the second of two managers what came first, and loses nothing of it', async () => {
    const { version } = (await sheetOf(shop)).shop;
    const [one, other] = await Promise.all([
      change({ expectedVersion: version, name: 'First name' }),
      change({ expectedVersion: version, name: 'Other name' }),
    ]);
    const [won, lost] = one.__typename === 'Shop' ? [one, other] : [other, one];
    expect(won.__typename).toBe('Shop');
    expect(lost).toMatchObject({ code: 'CONFLICT', field: 'expectedVersion' });
    expect(lost.message).toMatch(
      /was changed by Test manager on \d{4}-.*you read version \d+, it is \d+/,
    );
    const sheet = await sheetOf(shop);
    expect(sheet.shop.version).toBe(version + 1);
    expect(sheet.shop.name).toBe(won === one ? 'First name' : 'Other name');
  });

  it.each([
    [{ name: '  ' }, 'name', 'name has 0 characters: needed are 1 to 120.'],
    [{ timeZone: 'Nowhere/Strand' }, 'timeZone', 'IANA time zone'],
    [{ timeZone: '+01:00' }, 'timeZone', 'IANA time zone'],
    [{ currency: 'XXX1' }, 'currency', 'ISO 4217'],
    [{ clearanceMm: -1 }, 'clearanceMm', 'clearanceMm is -1: needed is 0 to 20,000 mm'],
    [{ billingStep: '0' }, 'billingStep', 'more than 0 to 8'],
    [{ billingStep: '0.125' }, 'billingStep', 'at most 2 decimals'],
    [
      { standing: 'repair_station' },
      'certificateNumber',
      'needed is the number of its certificate',
    ],
    [{ timeInServiceBasis: '' }, 'timeInServiceBasis', 'needed are 3 to 300'],
  ])('refuses %o', async (over, field, sentence) => {
    const said = await change({ expectedVersion: 99, ...over });
    expect(said).toMatchObject({ code: 'BAD_INPUT', field });
    expect(said.message).toContain(sentence);
  });

  it('becomes a repair station with its number, and mechanics again', async () => {
    const { version } = (await sheetOf(shop)).shop;
    expect(
      await change({
        expectedVersion: version,
        standing: 'repair_station',
        certificateNumber: 'T9RS',
      }),
    ).toMatchObject({ standing: 'repair_station', certificateNumber: 'T9RS' });
    expect(await change({ expectedVersion: version + 1, certificateNumber: '' })).toMatchObject({
      standing: 'mechanics',
      certificateNumber: null,
    });
  });
});

it('keeps its currency once something was quoted in it, and says why', async () => {
  const ours = await settingsShop(api);
  expect((await sheetOf(ours)).currencyStays).toBeNull();
  expect(await change({ currency: 'EUR' }, ours)).toMatchObject({ version: 2 });
  expect(await change({ expectedVersion: 2, currency: 'USD' }, ours)).toMatchObject({ version: 3 });
  await makeOrder(ours);
  expect((await sheetOf(ours)).currencyStays).toBe('It stays USD: amounts were quoted in it.');
  const said = await change({ expectedVersion: 3, currency: 'EUR' }, ours);
  expect(said).toMatchObject({ code: 'AGAINST_RULE', field: 'currency' });
  await expect(
    ours.inside((tx) => tx.shop.update({ where: { id: ours.shopId }, data: { currency: 'EUR' } })),
  ).rejects.toThrow(/the currency stays|FL001/i);
});
