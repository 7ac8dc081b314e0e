import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ask, startApi, type TestApi } from '../../support/api.ts';
import { rawConnection } from '../guarantees/raw.ts';
import { makeOrder, uuid } from '../guarantees/rows.ts';
import { type Said, type SettingsShop, settingsShop, sheetOf } from './settings-shop.ts';

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

const WEB = 'http://shop.test';
const PASSWORD = 'a rope through a ring, always';
const post = async (path: string, body: unknown, headers: Record<string, string> = {}) => {
  const response = await fetch(`${api.origin}${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin: WEB, ...headers },
    body: JSON.stringify(body),
  });
  const said = (await response.json()) as Record<string, string> & {
    error?: { code: string; message: string };
  };
  const cookie = response.headers
    .getSetCookie()
    .map((each) => each.split(';')[0])
    .join('; ');
  return { status: response.status, said, cookie };
};
const secretOf = (said: Said) =>
  ((said['invitation'] ?? said) as { path: string }).path.split('#')[1] ?? '';
const signIn = (email: string, password = PASSWORD) =>
  post('/auth/sign-in/email', { email, password });
const viewer = (cookie: string) =>
  ask<{ viewer: { person: { name: string } } | null }>(
    api.origin,
    '{ viewer { person { name } } }',
    {},
    cookie,
  );

let count = 0;
const add = (over: Record<string, unknown> = {}, of = shop) => {
  count += 1;
  return of.say(
    'addPerson',
    'AddPersonInput',
    {
      name: `Newcomer ${count}`,
      initials: `N${count}`,
      roles: ['mechanic'],
      apprentice: false,
      ...over,
    },
    '... on AddedPerson { person { id name version active } invitation { email path expiresAt } }',
  );
};
const person = (said: Said) => said['person'] as { id: string; version: number; active: boolean };
const leave = (id: string, expectedVersion: number, of = shop) =>
  of.say(
    'deactivatePerson',
    'PersonAsReadInput',
    { personId: id, expectedVersion },
    '... on PersonLeft { clockStopped person { active version } }',
  );

describe('an invitation', () => {
  it('is a link shown once: whom it is for, a password of their own, and it opens nothing again', async () => {
    const email = `Wren-${uuid()}@Strand.Example`;
    const said = await add({ name: 'Wren Ashby', initials: 'WA', email });
    expect(said['invitation']).toMatchObject({
      email: email.toLowerCase(),
      path: expect.stringMatching(/^\/invited#[\w-]{32}$/),
    });
    const secret = secretOf(said);
    expect((await post('/auth/invitation', { secret })).said).toEqual({
      name: 'Wren Ashby',
      shop: 'Test Shop',
      email: email.toLowerCase(),
    });
    const short = await post('/auth/invitation/accept', { secret, password: 'short' });
    expect([short.status, short.said.error?.message]).toEqual([
      400,
      'The password has 5 characters; it needs 10 to 128.',
    ]);
    const both = await Promise.all(
      [1, 2].map(() => post('/auth/invitation/accept', { secret, password: PASSWORD })),
    );
    expect(both.map(({ status }) => status).sort()).toEqual([200, 404]);
    expect((await post('/auth/invitation', { secret })).status).toBe(404);
    const entered = await signIn(email);
    expect(entered.status).toBe(200);
    expect((await viewer(entered.cookie)).data?.viewer?.person.name).toBe('Wren Ashby');
    const sheet = await sheetOf(shop);
    expect(sheet.people.find((each) => each.person.name === 'Wren Ashby')?.signIn).toEqual({
      email: email.toLowerCase(),
      invitedUntil: null,
    });
  });

  it('keeps no secret: the database holds a digest only', async () => {
    const secret = secretOf(await add({ email: `digest-${uuid()}@strand.example` }));
    const admin = await rawConnection(api.database.adminUrl);
    const { rows } = await admin.query(
      'select count(*)::int as n, bool_or(i::text like $1) as shown from identity.invitation i',
      [`%${secret}%`],
    );
    await admin.end();
    expect(rows[0]).toMatchObject({ shown: false });
    expect(rows[0]?.n).toBeGreaterThan(0);
  });

  it('made anew, takes the earlier one back', async () => {
    const email = `again-${uuid()}@strand.example`;
    const first = await add({ email });
    const second = await shop.say(
      'invitePerson',
      'InvitePersonInput',
      { personId: person(first).id, email },
      '... on Invitation { email path expiresAt }',
    );
    expect((await post('/auth/invitation', { secret: secretOf(first) })).status).toBe(404);
    expect((await post('/auth/invitation', { secret: secretOf(second) })).status).toBe(200);
  });

  it('says no to an address that is taken, to none, and to somebody who signs in already', async () => {
    await shop.cookie('mechanic');
    const { email } = shop.people.mechanic;
    expect(await add({ email })).toMatchObject({ code: 'CONFLICT', field: 'email' });
    expect(await add({ email: 'no address' })).toMatchObject({ code: 'BAD_INPUT', field: 'email' });
    expect(
      await shop.say(
        'invitePerson',
        'InvitePersonInput',
        { personId: shop.person('mechanic'), email: `x-${email}` },
        '... on Invitation { path }',
      ),
    ).toMatchObject({ code: 'CONFLICT', message: 'Test mechanic has a sign-in already.' });
    // Refused whole: nobody was added.
    expect(
      (await sheetOf(shop)).people.filter(({ person: { name } }) => name === `Newcomer ${count}`),
    ).toEqual([]);
  });

  it('is not taken from another site, nor from nonsense', async () => {
    const secret = secretOf(await add({ email: `foreign-${uuid()}@strand.example` }));
    const foreign = await post(
      '/auth/invitation/accept',
      { secret, password: PASSWORD },
      { origin: 'http://elsewhere.example' },
    );
    expect([foreign.status, foreign.said.error?.code]).toEqual([403, 'FOREIGN_ORIGIN']);
    for (const body of [{}, { secret: 7 }, { secret: ['x'] }, [], { secret: 'x'.repeat(5000) }])
      expect((await post('/auth/invitation/accept', body)).status).toBe(404);
    expect((await post('/auth/invitation', { secret })).status).toBe(200);
  });
});

describe('somebody', () => {
  it('is changed with what belongs together, and the second of two managers is told', async () => {
    const made = person(await add({ initials: 'TWO' }));
    const change = (over: Record<string, unknown>) =>
      shop.say(
        'changePerson',
        'ChangePersonInput',
        {
          personId: made.id,
          expectedVersion: made.version,
          name: 'Newcomer',
          initials: 'TWO',
          roles: ['mechanic', 'inspector'],
          apprentice: false,
          ...over,
        },
        '... on Person { version roles }',
      );
    expect(await change({ roles: [] })).toMatchObject({ code: 'BAD_INPUT', field: 'roles' });
    expect(await change({ apprentice: true })).toMatchObject({
      code: 'BAD_INPUT',
      field: 'apprentice',
    });
    expect(await change({ initials: 'A B' })).toMatchObject({
      code: 'BAD_INPUT',
      field: 'initials',
    });
    expect(await change({ initials: 'MA' })).toMatchObject({ code: 'CONFLICT', field: 'initials' });
    const both = await Promise.all([change({}), change({ roles: ['front_desk'] })]);
    expect(both.map(({ __typename }) => __typename).sort()).toEqual(['Person', 'Refusal']);
    expect(both.find(({ code }) => code)).toMatchObject({
      code: 'CONFLICT',
      message: expect.stringContaining('was changed by Test manager'),
    });
  });

  it('who leaves is out at once: clock stopped, next request refused, address free; and can be taken back', async () => {
    const email = `leaver-${uuid()}@strand.example`;
    const said = await add({ name: 'Leaver', initials: 'LV', email });
    await post('/auth/invitation/accept', { secret: secretOf(said), password: PASSWORD });
    const { cookie } = await signIn(email);
    const { itemId } = await makeOrder(shop);
    const started = await ask<{ clock: Said }>(
      api.origin,
      'mutation($input: ClockInput!) { clock(input: $input) { __typename } }',
      {
        input: {
          kind: 'start',
          itemId: globalId('WorkItem', itemId),
          at: new Date(Date.now() - 3_600_000).toISOString(),
          clientEventId: uuid(),
        },
      },
      cookie,
    );
    expect(started.data?.clock.__typename).toBe('ClockEvent');
    const onSheet = async () =>
      (await sheetOf(shop)).people.find((each) => each.person.name === 'Leaver');
    expect(await onSheet()).toMatchObject({ clockRuns: true, signIn: { email } });

    expect(await leave(person(said).id, person(said).version)).toMatchObject({
      clockStopped: true,
      person: { active: false },
    });
    expect((await viewer(cookie)).data?.viewer).toBeNull();
    const people = await ask(api.origin, '{ people { name } }', {}, cookie);
    expect(people.errors?.[0]?.extensions.code).toBe('SIGN_IN_NEEDED');
    expect((await signIn(email)).status).toBe(401);
    const left = await onSheet();
    expect(left).toMatchObject({ clockRuns: false, signIn: null, person: { active: false } });
    const [stretch] = await shop.inside((tx) => tx.stretch.findMany({ where: { itemId } }));
    expect(
      ((stretch?.endedAt?.getTime() ?? 0) - (stretch?.startedAt.getTime() ?? 0)) / 3_600_000,
    ).toBeCloseTo(1, 1);

    const version = left?.person.version ?? 0;
    expect(await leave(person(said).id, version)).toMatchObject({
      code: 'CONFLICT',
      message: 'Leaver has left already.',
    });
    expect(
      await shop.say(
        'invitePerson',
        'InvitePersonInput',
        { personId: person(said).id, email },
        '... on Invitation { path }',
      ),
    ).toMatchObject({ code: 'AGAINST_RULE' });
    expect(await add({ initials: 'LV' })).toMatchObject({
      message: expect.stringContaining('who has left'),
    });
    expect(
      await shop.say(
        'takeBackPerson',
        'PersonAsReadInput',
        { personId: person(said).id, expectedVersion: version },
        '... on Person { active }',
      ),
    ).toMatchObject({ active: true });
    expect(
      await shop.say(
        'invitePerson',
        'InvitePersonInput',
        { personId: person(said).id, email },
        '... on Invitation { path }',
      ),
    ).toMatchObject({ __typename: 'Invitation' });
  });

  it('is never the last manager to leave or to be something else, also when two go at once', async () => {
    const ours = await settingsShop(api);
    const only = await ours.version('manager');
    expect(await leave(ours.person('manager'), only, ours)).toMatchObject({
      code: 'AGAINST_RULE',
      message: expect.stringContaining("the shop's only manager"),
    });
    expect(
      await ours.say(
        'changePerson',
        'ChangePersonInput',
        {
          personId: ours.person('manager'),
          expectedVersion: only,
          name: 'X',
          initials: 'MA2',
          roles: ['mechanic'],
          apprentice: false,
        },
        '... on Person { id }',
      ),
    ).toMatchObject({ code: 'AGAINST_RULE' });
    const second = person(await add({ initials: 'M2', roles: ['manager'] }, ours));
    const both = await Promise.all([
      leave(ours.person('manager'), only, ours),
      leave(second.id, second.version, ours),
    ]);
    // One went; the other is refused, or comes too late to ask.
    expect(both.filter(({ __typename }) => __typename === 'PersonLeft')).toHaveLength(1);
    const left = await ours.inside((tx) =>
      tx.person.count({ where: { active: true, roles: { has: 'manager' } } }),
    );
    expect(left).toBe(1);
  });
});

describe('a certificate', () => {
  const hold = (over: Record<string, unknown> = {}, of = shop) =>
    of.say(
      'addCertificate',
      'AddCertificateInput',
      {
        personId: of.person('mechanic'),
        kind: 'mechanic_airframe',
        number: 'T-77',
        validFrom: '2020-01-01',
        ...over,
      },
      '... on Certificate { id validUntil }',
    );
  const end = (certificateId: unknown, lastDay: string) =>
    shop.say(
      'endCertificate',
      'EndCertificateInput',
      { certificateId, lastDay },
      '... on Certificate { validUntil }',
    );

  it('is added once at a time, ended earlier and never later, and says what rests on it', async () => {
    const made = await hold();
    expect(made.__typename).toBe('Certificate');
    expect(await hold({ number: 'T-78', validFrom: '2021-01-01' })).toMatchObject({
      code: 'CONFLICT',
      message: expect.stringContaining('number T-77, from 2020-01-01'),
    });
    expect(
      await hold({ kind: 'repairman', validFrom: '2021-01-02', validUntil: '2021-01-01' }),
    ).toMatchObject({ code: 'BAD_INPUT', field: 'validUntil' });
    const mine = (await sheetOf(shop)).people.find(
      ({ person: { id } }) => id === shop.person('mechanic'),
    );
    expect(mine?.certificates.map(({ restsOnIt }) => restsOnIt)).toEqual([
      ['minor repair or alteration of the airframe', '100-hour inspection of the airframe'],
    ]);
    expect(await end(made['id'], '2019-12-31')).toMatchObject({
      code: 'BAD_INPUT',
      field: 'lastDay',
    });
    expect(await end(made['id'], '2026-06-30')).toMatchObject({ validUntil: '2026-06-30' });
    expect(await end(made['id'], '2027-01-01')).toMatchObject({
      code: 'CONFLICT',
      message: expect.stringContaining('It ends on 2026-06-30 already'),
    });
    expect(await hold({ number: 'T-78', validFrom: '2026-07-01' })).toMatchObject({
      __typename: 'Certificate',
    });
    const { changes } = await sheetOf(shop);
    expect(changes.map(({ words }) => words)).toContain(
      'mechanic airframe T-77 ends on 2026-06-30',
    );
  });

  it('without its inspection authorization leaves an inspector the 100-hour and takes the annual', async () => {
    const inspector = (await sheetOf(shop)).people.find(
      ({ person: { id } }) => id === shop.person('inspector'),
    );
    const rests = Object.fromEntries(
      (inspector?.certificates ?? []).map(({ certificate, restsOnIt }) => [
        certificate.kind,
        restsOnIt,
      ]),
    );
    expect(rests).toMatchObject({
      inspection_authorization: ['annual inspection'],
      mechanic_powerplant: [
        'minor repair or alteration of an engine or propeller',
        '100-hour inspection of the engine and propeller',
        // An inspection authorization is held by a mechanic with both ratings (14 CFR 65.91).
        'annual inspection',
      ],
    });
  });
});
