import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop } from '../../support/shop.ts';
import { rawConnection } from '../guarantees/raw.ts';
import { clockAt, expectDone, makeOrder } from '../work/orders.ts';
import { openStream, type Stream } from './stream.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

/** Long enough for news to come, where it came wrongly. */
const QUIET_MS = 800;
const addressOf = (query: string) =>
  `${api.origin}/graphql/stream?query=${encodeURIComponent(query)}`;
/** What the shop's making still told has passed. */
const quiet = async (stream: Stream) => {
  while ((await stream.next(QUIET_MS)) !== null);
};
const changes = 'subscription { changes { things } }';
const thingsIn = (told: { data: string } | null): string[] =>
  told === null
    ? []
    : (JSON.parse(told.data) as { data: { changes: { things: string[] } } }).data.changes.things;

it('tells the shop what kind of thing changed, and no other shop', async () => {
  const [shop, other] = [await makeShop(api), await makeShop(api)];
  const { items } = await makeOrder(shop);
  const here = await openStream(addressOf(changes), await shop.cookie('manager'));
  const there = await openStream(addressOf(changes), await other.cookie('manager'));
  expect([here.status, there.status]).toEqual([200, 200]);
  expect(here.headers.get('content-type')).toContain('text/event-stream');
  await quiet(here);
  await quiet(there);
  expectDone(await clockAt(shop, 'mechanic', 'start', items[0]?.id ?? '', '2026-03-02T08:00:00Z'));
  const told = await here.next();
  expect(told?.event).toBe('next');
  expect(thingsIn(told)).toEqual(['clock_event']);
  expect(await there.next(QUIET_MS)).toBeNull();
  here.leave();
  there.leave();
});

it('tells nothing of what was rolled back, and many rows of one transaction once', async () => {
  const shop = await makeShop(api);
  const stream = await openStream(addressOf(changes), await shop.cookie('front_desk'));
  await quiet(stream);
  await expect(
    shop.inside(async (tx) => {
      await tx.stand.updateMany({ data: { name: 'Elsewhere' } });
      throw new Error('changed my mind');
    }),
  ).rejects.toThrow('changed my mind');
  expect(await stream.next(QUIET_MS)).toBeNull();
  await shop.inside(async (tx) => {
    await tx.person.updateMany({ data: { active: true } });
    await tx.stand.updateMany({ data: { name: 'Stand one' } });
  });
  expect(thingsIn(await stream.next())).toEqual(['person', 'stand']);
  expect(await stream.next(QUIET_MS)).toBeNull();
  stream.leave();
});

it('ends with the session, and says nothing more', async () => {
  const shop = await makeShop(api);
  const cookie = await shop.cookie('mechanic');
  const stream = await openStream(addressOf(changes), cookie);
  await quiet(stream);
  await api.identity.query(
    `delete from identity.session where account_id in
       (select account_id from identity.membership where person_id = $1)`,
    [shop.people.mechanic.id],
  );
  await shop.inside((tx) => tx.stand.updateMany({ data: { name: 'Moved' } }));
  expect((await stream.next())?.event).toBe('complete');
  expect(await stream.ends()).toBe(true);
});

it('after the line to the database was lost it says that anything may have changed', async () => {
  const shop = await makeShop(api);
  const stream = await openStream(addressOf(changes), await shop.cookie('manager'));
  await quiet(stream);
  const admin = await rawConnection(api.database.adminUrl);
  try {
    const { rowCount } = await admin.query(
      `select pg_terminate_backend(pid) from pg_stat_activity where query = 'listen fairlead'
         and datname = current_database()`,
    );
    expect(rowCount).toBe(1);
  } finally {
    await admin.end();
  }
  const told = await stream.next(8000);
  expect(told?.event).toBe('next');
  expect(thingsIn(told)).toEqual([]);
  await shop.inside((tx) => tx.stand.updateMany({ data: { name: 'Back again' } }));
  expect(thingsIn(await stream.next())).toEqual(['stand']);
  stream.leave();
});

it('streams subscriptions, to who is signed in, and nothing else', async () => {
  const shop = await makeShop(api);
  const cookie = await shop.cookie('manager');
  const refused = async (query: string, as = cookie) => {
    const { status, refusal } = await openStream(addressOf(query), as);
    return [status, (JSON.parse(refusal) as { error: { code: string } }).error.code];
  };
  expect(await refused(changes, '')).toEqual([401, 'SIGN_IN_NEEDED']);
  expect(await refused('{ viewer { person { name } } }')).toEqual([400, 'BAD_INPUT']);
  expect(await refused('mutation { askBacktest { __typename } }')).toEqual([400, 'BAD_INPUT']);
  expect(await refused('subscription {')).toEqual([400, 'BAD_INPUT']);
  expect(await refused('')).toEqual([400, 'BAD_INPUT']);
  const wrong = await openStream(addressOf('subscription { nothing }'), cookie);
  expect((await wrong.next())?.data).toContain('Cannot query field');
  expect(await wrong.ends()).toBe(true);
  expect((await openStream(`${api.origin}/graphql/stream`, cookie)).status).toBe(400);
  const asked = await shop.as('manager', changes);
  expect(asked.data ?? null).toBeNull();
  expect(asked.errors?.[0]?.extensions.code).toBe('BAD_INPUT');
});
