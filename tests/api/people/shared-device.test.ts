import { createHash } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ask, startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { makeOrder } from '../work/orders.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const PIN = '814725';

interface Said {
  status: number;
  body: Record<string, unknown> & { error?: { code: string; message: string } };
  cookie: string;
}
async function post(path: string, body: unknown, cookie = '', headers = {}): Promise<Said> {
  const response = await fetch(`${api.origin}${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...(cookie && { cookie }), ...headers },
    body: JSON.stringify(body),
  });
  const set = response.headers.getSetCookie()[0] ?? '';
  return {
    status: response.status,
    body: (await response.json()) as Said['body'],
    cookie: set.split(';')[0] ?? '',
  };
}
const get = async (path: string, cookie = '') =>
  (await (await fetch(`${api.origin}${path}`, { headers: { cookie } })).json()) as {
    device: { name: string; people: { accountId: string; name: string }[] } | null;
    devices: { id: string; name: string }[];
  };

/** A shop with a registered device, on which the mechanic and the inspector have a PIN. */
async function withDevice(): Promise<{
  shop: TestShop;
  device: string;
  of: (name: string) => string;
}> {
  const shop = await makeShop(api);
  for (const role of ['mechanic', 'inspector'] as const)
    expect((await post('/auth/pin', { pin: PIN }, await shop.cookie(role))).status).toBe(200);
  const made = await post(
    '/auth/device',
    { name: 'Tablet by stand 2' },
    await shop.cookie('manager'),
  );
  expect(made.status).toBe(200);
  const { device } = await get('/auth/device', made.cookie);
  const of = (name: string) => device?.people.find((each) => each.name === name)?.accountId ?? '';
  return { shop, device: made.cookie, of };
}
/** `Test mechanic` or their e-mail address, as the account has it. */
const nameOf = async (shop: TestShop, role: 'mechanic' | 'inspector') => {
  const { rows } = await api.identity.query<{ name: string }>(
    `select a.name from identity.account a join identity.membership m on m.account_id = a.id where m.person_id = $1`,
    [shop.people[role].id],
  );
  return rows[0]?.name ?? '';
};
const viewer = async (cookie: string) =>
  (
    await ask<{ viewer: { shared: boolean; person: { name: string } } | null }>(
      api.origin,
      '{ viewer { shared person { name } } }',
      {},
      cookie,
    )
  ).data?.viewer;

describe('a shared device', () => {
  it('is registered by the manager, tells who has a PIN, and opens a session by it', async () => {
    const { shop, device, of } = await withDevice();
    expect((await get('/auth/device', device)).device).toMatchObject({ name: 'Tablet by stand 2' });
    expect((await get('/auth/device')).device).toBeNull();
    const accountId = of(await nameOf(shop, 'mechanic'));
    const opened = await post('/auth/quick', { accountId, pin: PIN }, device);
    expect([opened.status, opened.body]).toEqual([200, { ok: true }]);
    expect(await viewer(opened.cookie)).toEqual({
      shared: true,
      person: { name: 'Test mechanic' },
    });
    const { rows } = await api.identity.query<{ token: string; hours: number }>(
      `select token, round(extract(epoch from expires_at - now()) / 3600)::int as hours from identity.session where device_id is not null and account_id::text = $1`,
      [accountId],
    );
    expect(rows).toEqual([{ token: expect.stringMatching(/^[0-9a-f]{64}$/), hours: 12 }]);
    expect(JSON.stringify(rows)).not.toContain(opened.cookie.split('=')[1]?.slice(0, 20));
  });

  it('opens by a badge too, and by the newest one alone', async () => {
    const { shop, device } = await withDevice();
    const manager = await shop.cookie('manager');
    const make = () =>
      post('/auth/badge', { personId: globalId('Person', shop.people.mechanic.id) }, manager);
    const [first, second] = [await make(), await make()];
    expect(second.body['svg']).toContain('<svg');
    expect(second.body['badge']).toMatch(/^[\w-]{22}$/);
    expect((await post('/auth/quick', { badge: first.body['badge'] }, device)).status).toBe(401);
    const opened = await post('/auth/quick', { badge: second.body['badge'] }, device);
    expect(await viewer(opened.cookie)).toMatchObject({ person: { name: 'Test mechanic' } });
    const { rows } = await api.identity.query<{ digest: string }>(
      `select digest from identity.quick_key where kind = 'badge' and digest = $1`,
      [createHash('sha256').update(String(second.body['badge'])).digest('hex')],
    );
    expect(rows).toHaveLength(1);
  });

  it('there everybody is a mechanic: an inspector signs nothing with a PIN', async () => {
    const { shop, device, of } = await withDevice();
    const { id, items } = await makeOrder(shop);
    const opened = await post(
      '/auth/quick',
      { accountId: of(await nameOf(shop, 'inspector')), pin: PIN },
      device,
    );
    const release = await ask<{ released: { code?: string; message?: string } }>(
      api.origin,
      `mutation($input: ReleaseAircraftInput!) { released: releaseAircraft(input: $input) { ... on Refusal { code message } } }`,
      { input: { orderId: id, outcome: 'airworthy' } },
      opened.cookie,
    );
    expect(release.data?.released).toMatchObject({
      code: 'FORBIDDEN',
      message: expect.stringContaining('on a shared device; sign in with your password for more'),
    });
    const note = await ask<{ learned: { __typename: string } }>(
      api.origin,
      `mutation($input: LearnNoteInput!) { learned: learnNote(input: $input) { __typename } }`,
      {
        input: {
          itemId: items[0]?.id,
          words: 'Mind the bracket',
          clientEventId: '01890000-0000-7000-8000-000000000001',
        },
      },
      opened.cookie,
    );
    expect(note.data?.learned.__typename).toBe('LearnedNote');
    expect((await post('/auth/pin', { pin: '275918' }, opened.cookie)).body.error?.code).toBe(
      'FORBIDDEN',
    );
    expect((await post('/auth/device', { name: 'Mine' }, opened.cookie)).status).toBe(403);
  });

  it('after five wrong tries waits, for this person on this device alone', async () => {
    const { shop, device, of } = await withDevice();
    const accountId = of(await nameOf(shop, 'mechanic'));
    const said: string[] = [];
    for (let tries = 0; tries < 6; tries += 1) {
      const { body } = await post('/auth/quick', { accountId, pin: '000111' }, device);
      said.push(body.error?.message ?? '');
    }
    expect(said[0]).toBe('This is not their PIN. 4 more tries.');
    expect(said[3]).toBe('This is not their PIN. 1 more try.');
    expect(said[4]).toContain('wait 15 min');
    expect(said[5]).toContain('Too many wrong tries on this device: wait 15 min');
    expect((await post('/auth/quick', { accountId, pin: PIN }, device)).status).toBe(403);
    const other = of(await nameOf(shop, 'inspector'));
    expect((await post('/auth/quick', { accountId: other, pin: PIN }, device)).status).toBe(200);
    await api.identity.query(
      `update identity.quick_tries set locked_until = now() - interval '1 second' where account_id::text = $1`,
      [accountId],
    );
    expect((await post('/auth/quick', { accountId, pin: PIN }, device)).status).toBe(200);
  });

  it('ends with its registration, and so does every session on it', async () => {
    const { shop, device, of } = await withDevice();
    const manager = await shop.cookie('manager');
    const opened = await post(
      '/auth/quick',
      { accountId: of(await nameOf(shop, 'mechanic')), pin: PIN },
      device,
    );
    const { devices } = await get('/auth/devices', manager);
    expect(devices).toMatchObject([{ name: 'Tablet by stand 2' }]);
    const other = await makeShop(api);
    const [theirs, mechanics] = [await other.cookie('manager'), await shop.cookie('mechanic')];
    expect((await post('/auth/device/end', { id: devices[0]?.id }, theirs)).status).toBe(404);
    expect((await post('/auth/device/end', { id: devices[0]?.id }, mechanics)).status).toBe(403);
    expect((await post('/auth/device/end', { id: devices[0]?.id }, manager)).status).toBe(200);
    expect(await viewer(opened.cookie)).toBeNull();
    expect((await get('/auth/device', device)).device).toBeNull();
  });

  it('knows nobody of another shop', async () => {
    const [one, other] = [await withDevice(), await withDevice()];
    const accountId = one.of(await nameOf(one.shop, 'mechanic'));
    expect((await post('/auth/quick', { accountId, pin: PIN }, other.device)).status).toBe(401);
    const badge = await post(
      '/auth/badge',
      { personId: globalId('Person', one.shop.people.mechanic.id) },
      await one.shop.cookie('manager'),
    );
    expect((await post('/auth/quick', { badge: badge.body['badge'] }, other.device)).status).toBe(
      401,
    );
    const foreign = { personId: globalId('Person', one.shop.people.mechanic.id) };
    expect((await post('/auth/badge', foreign, await other.shop.cookie('manager'))).status).toBe(
      422,
    );
  });

  it('refuses what is no PIN, no device, no page of ours', async () => {
    const { shop, device, of } = await withDevice();
    const mechanic = await shop.cookie('mechanic');
    for (const pin of ['', '12345', '1234567', 'abcdef', '111111', '123456', '987654'])
      expect((await post('/auth/pin', { pin }, mechanic)).body.error?.code).toBe('BAD_INPUT');
    const accountId = of(await nameOf(shop, 'mechanic'));
    expect((await post('/auth/quick', { accountId, pin: PIN })).status).toBe(403);
    expect(
      (await post('/auth/quick', { accountId, pin: PIN }, 'fairlead.device=made.up')).status,
    ).toBe(403);
    expect((await post('/auth/quick', {}, device)).status).toBe(400);
    expect((await post('/auth/quick', { accountId: "' or 1=1", pin: PIN }, device)).status).toBe(
      401,
    );
    expect((await post('/auth/device', { name: 'x' }, await shop.cookie('manager'))).status).toBe(
      400,
    );
    expect((await post('/auth/device', { name: 'Tablet' }, mechanic)).status).toBe(403);
    expect((await post('/auth/device', { name: 'Tablet' })).status).toBe(401);
    const away = { origin: 'https://elsewhere.test' };
    expect((await post('/auth/quick', { accountId, pin: PIN }, device, away)).status).toBe(403);
  });
});
