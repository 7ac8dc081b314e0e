import { hashOf } from '@fairlead/api/owner/secret';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { sayCivilDay } from '../../../packages/hangar/src/index.ts';
import { startApi, type TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { rawConnection, stateOf } from '../guarantees/raw.ts';
import { linkTo, offeredFinding } from '../owner/owner-shop.ts';
import { poppler, print, words } from '../paper/printed.ts';
import { gid, type Quote, sentQuote } from '../quoting/quoting-shop.ts';
import { openShop } from './promised-visit.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => new Date('2026-11-30T08:00:00Z') });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Shown {
  beginsOn: string;
  p50: string | null;
  p80: string | null;
  sentence: string;
}
const pageOf = async (path: string) => {
  const response = await fetch(`${api.origin}${path}`);
  expect(response.status).toBe(200);
  return (await response.json()) as {
    offers: { promise: Shown | null }[];
    order: { promise: Shown | null } | null;
  };
};
const promiseOf = async (shop: TestShop, quote: Quote) => {
  const { data } = await shop.as<{ node: { newest: { promise: Shown } } }>(
    'front_desk',
    'query ($id: ID!) { node(id: $id) { ... on Quote { newest { promise { beginsOn p50 p80 sentence } } } } }',
    { id: quote.id },
  );
  return data!.node.newest.promise;
};

it('shows the owner of a quote the days that were kept with its revision, and nothing of how they came about', async () => {
  const shop = await openShop(api);
  const quote = await sentQuote(shop);
  const link = await linkTo(shop, { quoteId: quote.id });
  const { offers, order } = await pageOf(link);
  expect(order).toBeNull();
  expect(offers[0]?.promise).toMatchObject(await promiseOf(shop, quote));
  expect(offers[0]?.promise?.p80).toBe('2026-11-30');
  expect(Object.keys(offers[0]?.promise ?? {}).sort()).toEqual(
    ['atBestP50', 'atBestP80', 'beginsOn', 'p50', 'p80', 'sentence'].sort(),
  );
});

it('shows the owner of an order its day as it is now', async () => {
  const shop = await openShop(api);
  const { link, order } = await offeredFinding(shop);
  const { order: shown } = await pageOf(link);
  expect(shown?.promise?.sentence).toMatch(/ Finding 1 is not agreed and not counted\.$/);
  expect(shown?.promise).toMatchObject({ p80: expect.stringMatching(/^2026-1[12]-\d\d$/) });
  await shop.inside((tx) =>
    tx.orderEvent.create({ data: { orderId: order.id, kind: 'cancelled' } }),
  );
  expect((await pageOf(link)).order?.promise).toBeNull();
});

it("gives the link's role the days of its own offers, column by column", async () => {
  const shop = await openShop(api);
  const [own, other] = [await sentQuote(shop), await sentQuote(shop)];
  const secret = (await linkTo(shop, { quoteId: own.id })).replace('/owner/', '');
  const raw = await rawConnection(api.database.appUrl);
  const asLink = async <T>(work: () => Promise<T>): Promise<T> => {
    await raw.query('BEGIN');
    try {
      await raw.query("SELECT set_config('role', 'fairlead_link', true)");
      await raw.query('SELECT * FROM resolve_link($1)', [hashOf(secret)]);
      return await work();
    } finally {
      await raw.query('ROLLBACK');
    }
  };
  try {
    const seen = await asLink(
      async () => (await raw.query('SELECT p80_on FROM return_promise')).rows,
    );
    expect(seen).toHaveLength(1);
    // Insufficient privilege, PostgreSQL: 42501.
    for (const column of ['basis', 'made_at', 'order_id'])
      expect(await asLink(() => stateOf(raw.query(`SELECT ${column} FROM return_promise`)))).toBe(
        '42501',
      );
    expect(await asLink(() => stateOf(raw.query('SELECT id FROM expectation')))).toBe('42501');
    expect(await asLink(() => stateOf(raw.query('DELETE FROM return_promise')))).toBe('42501');
  } finally {
    await raw.end();
  }
  expect(other.number).not.toBe(own.number);
});

it.skipIf(!poppler)('prints the same days on the quote', async () => {
  const shop = await openShop(api);
  const quote = await sentQuote(shop);
  const { p80 } = await promiseOf(shop, quote);
  const said = await words((await print(api, shop, `quote/${quote.id}.pdf`)).bytes);
  expect(said).toContain('Ready, if accepted');
  expect(said).toContain(`by ${sayCivilDay(p80!, p80!)}`);
  expect(said).toContain('the work itself is most of it');
});

it("keeps one shop's days from another", async () => {
  const [shop, other] = [await openShop(api), await openShop(api)];
  const quote = await sentQuote(shop);
  expect(await other.inside((tx) => tx.returnPromise.count())).toBe(0);
  const { data } = await other.as('front_desk', 'query ($id: ID!) { node(id: $id) { id } }', {
    id: gid('Quote', quote.id),
  });
  expect(data?.node ?? null).toBeNull();
});
