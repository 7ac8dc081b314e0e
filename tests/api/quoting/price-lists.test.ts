/** Dated price lists: appended, never changed, and kept with what was quoted by them. Bands and caps are common practice, no source. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { draft as draftInvoice, issueTo, makeSold } from '../books/billing.ts';
import {
  draft,
  forOwner,
  gid,
  makeTasks,
  quoted,
  refused,
  revise,
  tasksOf,
} from './quoting-shop.ts';

let api: TestApi;
let now = new Date('2031-05-07T12:00:00Z');
beforeAll(async () => {
  api = await startApi({ now: () => now });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Said {
  id: string;
  unitPrice: string | null;
  code?: string;
  message?: string;
  field?: string;
}
async function say(
  shop: TestShop,
  name: 'addMarkUp' | 'addSuppliesRule' | 'changePart' | 'addPart',
  input: Record<string, unknown>,
  role: Parameters<TestShop['as']>[0] = 'manager',
): Promise<Said> {
  const type = `${name[0]?.toUpperCase()}${name.slice(1)}Input`;
  const on = { addMarkUp: 'MarkUpList', addSuppliesRule: 'SuppliesRule' }[name as 'addMarkUp'];
  const { data } = await shop.as<{ done: Said }>(
    role,
    `mutation($input: ${type}!) { done: ${name}(input: $input) { ... on ${on ?? 'Part'} { id ${on ? '' : 'unitPrice'} } ... on Refusal { code message field } } }`,
    { input },
  );
  if (!data) throw new Error(`${name} answered nothing`);
  return data.done;
}
const bands = (...pairs: [string, string][]) =>
  pairs.map(([costFrom, percent]) => ({ costFrom, percent }));
const lines = async (shop: TestShop, id: string) => {
  const { data } = await shop.as<{
    node: {
      newest: {
        lines: {
          title: string;
          unitPrice: string;
          likely: string;
          pricedBy: string | null;
          cap: string | null;
        }[];
      };
    };
  }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Quote { newest { lines { title unitPrice likely pricedBy cap } } } } }',
    { id },
  );
  return data?.node.newest.lines ?? [];
};
const terms = { title: 'Hose', category: 'parts' };

async function withPart(shop: TestShop, unitPrice: string | null, unitCost?: string) {
  return shop.inside(async (tx) => {
    const part = await tx.part.create({
      data: { shopId: shop.shopId, number: 'H-1', title: 'Hose', unitPrice },
    });
    if (unitCost !== undefined)
      await tx.lot.create({
        data: {
          ...{ partId: part.id, supplier: 'S', batch: 'B', unitCost },
          receivedOn: new Date('2031-01-01'),
        },
      });
    return part.id;
  });
}

describe('the price of a part', () => {
  it('counts from its day on, and what was quoted keeps the one that it was quoted at', async () => {
    now = new Date('2031-05-07T12:00:00Z');
    const shop = await makeShop(api);
    const id = await withPart(shop, '40');
    const partId = gid('Part', id);
    const tasks = tasksOf(await makeTasks(shop, 1));
    const wanted = { ...forOwner(shop), tasks, parts: [{ partId, quantity: '1' }] };
    const first = quoted(await draft(shop, wanted));
    expect(await say(shop, 'changePart', { partId, ...terms, unitPrice: '45.5' })).toMatchObject({
      unitPrice: '45.5',
    });
    await say(shop, 'changePart', { partId, ...terms, unitPrice: '50', priceFrom: '2031-06-01' });
    expect((await lines(shop, quoted(await draft(shop, wanted)).id))[1]).toMatchObject({
      ...{ unitPrice: '45.5', pricedBy: 'At its price, which holds from 2031-05-07.' },
    });
    expect((await lines(shop, first.id))[1]).toMatchObject({ unitPrice: '40', pricedBy: null });
    now = new Date('2031-06-01T12:00:00Z');
    expect((await lines(shop, quoted(await draft(shop, wanted)).id))[1]).toMatchObject({
      unitPrice: '50',
    });
    const { data } = await shop.as<{ node: { prices: unknown[]; pricedBy: string } }>(
      'mechanic',
      'query($id: ID!) { node(id: $id) { ... on Part { pricedBy prices { unitPrice validFrom by { name } } } } }',
      { id: partId },
    );
    expect(data?.node).toEqual({
      pricedBy: 'Its own price, from 2031-06-01.',
      prices: [
        { unitPrice: '50', validFrom: '2031-06-01', by: { name: 'Test manager' } },
        { unitPrice: '45.5', validFrom: '2031-05-07', by: { name: 'Test manager' } },
      ],
    });
    expect(
      await say(shop, 'changePart', { partId, ...terms, unitPrice: '1', priceFrom: '2031-05-31' }),
    ).toMatchObject({
      ...{ code: 'AGAINST_RULE', field: 'priceFrom' },
      message: expect.stringContaining('needed is today, 2031-06-01, or later'),
    });
    // Not even the shop's own code may change the first one in its place.
    await expect(
      shop.inside((tx) => tx.part.update({ where: { id }, data: { unitPrice: '1' } })),
    ).rejects.toThrow(/never changed/);
  });

  it('without one of its own is its cost with the mark-up of its band, on the quote and on the bill', async () => {
    now = new Date('2031-05-07T12:00:00Z');
    const shop = await makeShop(api);
    expect(await say(shop, 'addPart', { ...terms, number: 'X', unit: 'each' })).toMatchObject({
      ...{ code: 'AGAINST_RULE', field: 'unitPrice' },
      message: expect.stringContaining('no mark-up bands on that day'),
    });
    await say(shop, 'addMarkUp', {
      validFrom: '2031-01-01',
      bands: bands(['10', '35'], ['0', '60'], ['100', '20']),
    });
    const id = await withPart(shop, null, '12');
    const partId = gid('Part', id);
    const tasks = tasksOf(await makeTasks(shop, 1));
    const wanted = { ...forOwner(shop), tasks, parts: [{ partId, quantity: '2' }] };
    const quote = quoted(await draft(shop, wanted));
    // 12.00 and 35 % of it are 16.20, twice.
    expect((await lines(shop, quote.id))[1]).toMatchObject({
      ...{ unitPrice: '16.2', likely: '3240' },
      pricedBy: 'Cost 12 + 35 % by the band, which holds from 2031-01-01.',
    });
    await say(shop, 'addMarkUp', { validFrom: '2031-05-07', bands: bands(['0', '50']) });
    expect((await lines(shop, quoted(await draft(shop, wanted)).id))[1]).toMatchObject({
      unitPrice: '18',
    });
    expect((await lines(shop, quote.id))[1]).toMatchObject({ unitPrice: '16.2' });
    // On the bill each lot is marked up from what it cost itself.
    const visit = await makeSold(shop, {
      ...{ lines: [{ title: 'Work', likelyMinor: 9500n }], ceiling: 100_000n },
      items: [{ title: 'Work', line: 0, seconds: 3600 }],
    });
    const item = visit.itemIds[0] ?? '';
    await issueTo(shop, item, { partId: id, quantity: '1', unitCost: '20' });
    await issueTo(shop, item, { partId: id, quantity: '2', unitCost: '0.035' });
    const invoice = await draftInvoice(shop, visit);
    expect(
      invoice.lines.slice(1).map(({ quantity, unitPrice, net }) => [quantity, unitPrice, net]),
    ).toEqual(
      expect.arrayContaining([
        ['1', '30', '3000'],
        ['2', '0.0525', '11'],
      ]),
    );
    const { data } = await shop.as<{ node: { costSoFar: string } }>(
      'front_desk',
      'query($id: ID!) { node(id: $id) { ... on WorkOrder { costSoFar } } }',
      { id: visit.order },
    );
    expect(data?.node.costSoFar).toBe(invoice.net);
  });

  it('is refused where neither a price nor a cost says one', async () => {
    const shop = await makeShop(api);
    await say(shop, 'addMarkUp', { validFrom: '2031-01-01', bands: bands(['0', '60']) });
    const partId = gid('Part', await withPart(shop, null));
    const tasks = tasksOf(await makeTasks(shop, 1));
    const answer = await draft(shop, {
      ...forOwner(shop),
      tasks,
      parts: [{ partId, quantity: '1' }],
    });
    expect(refused(answer)).toMatchObject({
      code: 'AGAINST_RULE',
      message: expect.stringContaining(
        'Hose has no price of its own on 2031-05-07, and none of it ever came',
      ),
    });
  });

  it.each([
    [
      'addMarkUp',
      { bands: bands(['0', '60']) },
      'a list of mark-up bands already, by Test manager',
    ],
    ['addSuppliesRule', { percent: '5' }, 'a rule for shop supplies already: 5 %, by Test manager'],
  ] as const)(
    '%s: of two given for one day at once the later is told of the other, and may put it right',
    async (name, list, words) => {
      const shop = await makeShop(api);
      const validFrom = '2031-05-07';
      const both = await Promise.all([1, 2].map(() => say(shop, name, { validFrom, ...list })));
      const [kept] = both.filter(({ id }) => id !== undefined);
      const [told] = both.filter(({ code }) => code !== undefined);
      expect(told).toMatchObject({
        ...{ code: 'CONFLICT', field: 'replacesId' },
        message: `From ${validFrom} there is ${words}. To put it right, say that yours replaces it.`,
      });
      const replacesId = kept?.id;
      const right = await say(shop, name, { validFrom, ...list, replacesId });
      expect(right.id).toBeTruthy();
      // That one is not the newest any more.
      expect(await say(shop, name, { validFrom, ...list, replacesId })).toMatchObject({
        code: 'CONFLICT',
      });
    },
  );

  it('bands are whole, begin at 0 and count from today on', async () => {
    const shop = await makeShop(api);
    const validFrom = '2031-05-07';
    const wrong: [unknown, string][] = [
      [[], '0 bands were given: needed are 1 to 30.'],
      [bands(['5', '60']), 'The lowest band begins at a cost of 5: needed is one that begins at 0'],
      [bands(['0', '60'], ['0.0', '30']), 'Two bands begin at a cost of 0: name each once.'],
      [bands(['0', '1001']), 'bands is 1001: needed is 0 to 1000'],
      [bands(['-1', '10']), 'bands is -1'],
    ];
    for (const [given, message] of wrong)
      expect(await say(shop, 'addMarkUp', { validFrom, bands: given })).toMatchObject({
        ...{ code: 'BAD_INPUT', field: 'bands' },
        message: expect.stringContaining(message),
      });
    await say(shop, 'addMarkUp', { validFrom: '2030-01-01', bands: bands(['0', '60']) });
    expect(
      await say(shop, 'addMarkUp', { validFrom: '2031-05-06', bands: bands(['0', '50']) }),
    ).toMatchObject({ code: 'AGAINST_RULE', field: 'validFrom' });
    expect(
      await say(shop, 'addMarkUp', { validFrom, bands: bands(['0', '50']) }, 'front_desk'),
    ).toMatchObject({ code: 'FORBIDDEN' });
  });
});

describe('shop supplies by rule', () => {
  it('are a share of the labour up to the cap of the day, and the cap is kept', async () => {
    now = new Date('2031-05-07T12:00:00Z');
    const shop = await makeShop(api);
    const tasks = tasksOf(await makeTasks(shop, 1));
    const wanted = { ...forOwner(shop), tasks, charges: [{ kind: 'supplies' }] };
    expect(refused(await draft(shop, wanted)).message).toContain(
      'needs one of a price and a share of the labour: neither is given, and the shop has no rule for its supplies.',
    );
    await say(shop, 'addSuppliesRule', { percent: '5', cap: '800', validFrom: '2031-05-01' });
    const first = quoted(await draft(shop, wanted));
    expect((await lines(shop, first.id))[1]).toEqual({
      ...{ title: 'Shop supplies', unitPrice: '8', likely: '800', cap: '800' },
      pricedBy:
        "5 % of the likely labour, at most 8.00 USD, by the shop's rule, which holds from 2031-05-01.",
    });
    await say(shop, 'addSuppliesRule', { percent: '5', validFrom: '2031-06-01' });
    now = new Date('2031-06-01T12:00:00Z');
    const june = quoted(
      await revise(shop, {
        quoteId: first.id,
        fromRevision: 1,
        tasks,
        charges: [{ kind: 'supplies' }],
      }),
    );
    expect((await lines(shop, june.id))[1]).toMatchObject({ cap: null });
    // 5 % of what all the labour likely comes to, half a cent up.
    const supplies = BigInt(june.newest.lines[1]?.likely ?? '0');
    expect(supplies).toBe(((BigInt(june.newest.likely) - supplies) * 5n + 50n) / 100n);
    expect(
      await say(shop, 'addSuppliesRule', { percent: '0', validFrom: '2031-06-01' }),
    ).toMatchObject({
      field: 'percent',
    });
    expect(
      await say(shop, 'addSuppliesRule', { percent: '3', cap: '0', validFrom: '2031-06-01' }),
    ).toMatchObject({ field: 'cap', message: expect.stringContaining('needed is more than 0') });
  });
});
