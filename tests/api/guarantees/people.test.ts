import type pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { asShop, rawConnection, stateOf } from './raw.ts';

let api: TestApi;
let shop: TestShop;
let app: pg.Client;
let owner: pg.Client;
beforeAll(async () => {
  api = await startApi();
  shop = await makeShop(api);
  app = await rawConnection(api.database.appUrl);
  owner = await rawConnection(api.database.migratorUrl);
});
afterAll(async () => {
  await Promise.all([app.end(), owner.end()]);
  await api.stop();
});

describe('hours', () => {
  const hours = (weekday: number, from: number, to: number, personId: string | null = null) =>
    shop.inside((tx) =>
      tx.weeklyHours.create({
        data: { shopId: shop.shopId, personId, weekday, fromMinute: from, toMinute: to },
      }),
    );
  const days = (first: string, last: string, personId: string | null = null) =>
    shop.inside((tx) =>
      tx.dayException.create({
        data: {
          shopId: shop.shopId,
          personId,
          firstDay: new Date(first),
          lastDay: new Date(last),
          reason: 'away',
        },
      }),
    );

  it('of a week never overlap on one day, for one person or for the shop itself', async () => {
    const { id } = shop.people.mechanic;
    await hours(1, 480, 720, id);
    await hours(1, 720, 900, id);
    await expect(hours(1, 700, 730, id)).rejects.toThrow(/weekly_hours_once/);
    await hours(1, 480, 720);
    await expect(hours(1, 0, 1440)).rejects.toThrow(/weekly_hours_once/);
    for (const [weekday, from, to] of [
      [8, 1, 2],
      [0, 1, 2],
    ] as const)
      await expect(hours(weekday, from, to)).rejects.toThrow(/weekly_hours_weekday/);
    for (const [from, to] of [
      [5, 5],
      [-1, 5],
      [5, 1441],
    ] as const)
      await expect(hours(7, from, to)).rejects.toThrow(/weekly_hours_in_a_day/);
  });

  it('of an exception stand once a day, also when eight ask at once', async () => {
    const tries = await Promise.allSettled(
      Array.from({ length: 8 }, () => days('2031-07-01', '2031-07-14')),
    );
    expect(tries.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    await expect(days('2031-07-14', '2031-07-15')).rejects.toThrow(/exception_once_a_day/);
    await days('2031-07-14', '2031-07-15', shop.people.mechanic.id);
    await expect(days('2031-08-02', '2031-08-01')).rejects.toThrow(
      /exception_ends|range lower bound/,
    );
  });
});

describe('somebody who leaves', () => {
  const count = async (table: string, personId: string) => {
    const admin = await rawConnection(api.database.adminUrl);
    const { rows } = await admin.query(
      `select count(*)::int as n from identity.${table} t where exists (select from identity.membership m
        where m.account_id = t.account_id and m.person_id = $1)`,
      [personId],
    );
    await admin.end();
    return rows[0].n as number;
  };

  it('loses sessions, membership and account in the same commit, whoever wrote it, and gets none again', async () => {
    await shop.cookie('mechanic');
    const { id, email } = shop.people.mechanic;
    expect(await count('session', id)).toBe(1);
    await shop.inside((tx) => tx.person.update({ where: { id }, data: { active: false } }));
    const admin = await rawConnection(api.database.adminUrl);
    const { rows } = await admin.query(
      'select (select count(*) from identity.account where email = $1)::int as accounts, (select count(*) from identity.membership where person_id = $2)::int as members',
      [email, id],
    );
    await admin.end();
    expect(rows[0]).toEqual({ accounts: 0, members: 0 });
    expect(
      (await shop.as<{ viewer: null }>('mechanic', '{ viewer { person { id } } }')).data?.viewer,
    ).toBeNull();
    await expect(
      api.app.signIn.createAccount({
        email,
        password: 'somebody who left',
        name: 'X',
        shopId: shop.shopId,
        personId: id,
      }),
    ).rejects.toThrow(/left gets no sign-in/);
  });

  it('is never the last manager, not even for the owner of the tables', async () => {
    const { id } = shop.people.manager;
    for (const change of ['active = false', "roles = '{mechanic}'"])
      expect(
        await stateOf(owner.query(`UPDATE person SET ${change} WHERE id = $1`, [id])),
        change,
      ).toBe('FL004');
  });
});

describe('the shop', () => {
  it('counts its versions and those of its people itself', async () => {
    await shop.inside((tx) =>
      tx.shop.update({ where: { id: shop.shopId }, data: { version: 77 } }),
    );
    const { version } = await shop.inside((tx) => tx.shop.findFirstOrThrow());
    expect(version).toBe(2);
  });

  it('is no repair station without a number', async () => {
    expect(
      await stateOf(
        owner.query(
          "UPDATE shop SET standing = 'repair_station', certificate_number = '' WHERE id = $1",
          [shop.shopId],
        ),
      ),
    ).toBe('23514');
  });

  it('tells nobody else of its sign-ins, and takes no invitation for a stranger', async () => {
    const other = await makeShop(api);
    await other.cookie('inspector');
    await shop.cookie('inspector');
    const seen = await asShop(app, shop.shopId, () =>
      app.query('SELECT person_id FROM sign_ins()'),
    );
    const ids = seen.rows.map(({ person_id }: { person_id: string }) => person_id);
    expect(ids).toContain(shop.people.inspector.id);
    expect(ids).not.toContain(other.people.inspector.id);
    const asked = await asShop(app, shop.shopId, () =>
      app.query(
        "SELECT invite_person($1, 'a@b.example', decode(repeat('00', 32), 'hex'), now() + interval '1 day') AS said",
        [other.people.front_desk.id],
      ),
    );
    expect(asked.rows[0].said).toBe('person_unknown');
    expect(
      await asShop(app, shop.shopId, () => stateOf(app.query('SELECT * FROM identity.invitation'))),
    ).toBe('42501');
  });
});
