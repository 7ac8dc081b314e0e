import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { rawConnection } from '../guarantees/raw.ts';
import { type SettingsShop, settingsShop } from './settings-shop.ts';

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

/** A newcomer's invitation, as its secret. */
async function invited(name: string, initials: string): Promise<string> {
  const said = await shop.say(
    'addPerson',
    'AddPersonInput',
    {
      name,
      initials,
      roles: ['mechanic'],
      apprentice: false,
      email: `${initials.toLowerCase()}@strand.example`,
    },
    '... on AddedPerson { invitation { path } }',
  );
  return (said['invitation'] as { path: string }).path.split('#')[1] ?? '';
}

it('sweeping removes the sessions and invitations that are over, and nothing else', async () => {
  await invited('Over Already', 'OA');
  const stands = await invited('Still Welcome', 'SW');
  await shop.cookie('mechanic');
  await shop.cookie('inspector');
  const admin = await rawConnection(api.database.adminUrl);
  const left = async () => {
    const { rows } = await admin.query<Record<string, number>>(
      `select (select count(*)::int from identity.session) sessions,
              (select count(*)::int from identity.invitation) invitations,
              (select count(*)::int from identity.account) accounts,
              (select count(*)::int from identity.membership) memberships,
              (select count(*)::int from identity.credential) credentials`,
    );
    return rows[0];
  };
  try {
    const before = await left();
    // Three people came in: the manager to invite, the mechanic and the inspector.
    expect(before).toMatchObject({ sessions: 3, invitations: 2, accounts: 3 });
    expect(await api.app.signIn.sweep()).toBe(0);
    expect(await left()).toEqual(before);

    await admin.query(
      `update identity.session s set expires_at = now() - interval '1 second'
         from identity.membership m where m.account_id = s.account_id and m.person_id = $1`,
      [shop.people.mechanic.id],
    );
    await admin.query(
      `update identity.invitation set expires_at = now() - interval '1 second' where name = 'Over Already'`,
    );
    expect(await api.app.signIn.sweep()).toBe(2);
    expect(await left()).toEqual({ ...before, sessions: 2, invitations: 1 });
  } finally {
    await admin.end();
  }
  const viewer = async (role: 'mechanic' | 'inspector') =>
    (
      await shop.as<{ viewer: { person: { name: string } } | null }>(
        role,
        '{ viewer { person { name } } }',
      )
    ).data?.viewer?.person.name;
  expect(await viewer('inspector')).toBe('Test inspector');
  expect(await viewer('mechanic')).toBeUndefined();
  const opened = await fetch(`${api.origin}/auth/invitation`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin: 'http://shop.test' },
    body: JSON.stringify({ secret: stands }),
  });
  expect(opened.status).toBe(200);
});
