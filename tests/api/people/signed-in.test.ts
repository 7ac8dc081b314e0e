import { afterAll, beforeAll, expect, test } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop } from '../../support/shop.ts';

const PASSWORD = 'tide-table under the windsock';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(() => api.stop());

/** Which columns of the account's rows are filled, and with what where it is the same for everybody. */
async function left(personId: string) {
  const { rows } = await api.identity.query<Record<'part', Record<string, unknown>>>(
    `select to_jsonb(p) as part
       from identity.membership m
       cross join lateral (
         select 1 as place, to_jsonb(a) from identity.account a where a.id = m.account_id
         union all select 2, to_jsonb(c) from identity.credential c where c.account_id = m.account_id
         union all select 3, to_jsonb(m)
         union all select 4, to_jsonb(s) || jsonb_build_object('days', round(extract(epoch from s.expires_at - s.created_at) / 86400))
           from identity.session s where s.account_id = m.account_id
       ) p (place, columns)
       cross join lateral (select p.columns) q
      where m.person_id = $1 order by p.place`,
    [personId],
  );
  const same = new Set([
    'provider_id',
    'email_verified',
    'user_agent',
    'ip_address',
    'shop_id',
    'days',
  ]);
  return rows.map(({ part }) =>
    Object.entries(part['columns'] as Record<string, unknown>).map(([column, value]) => [
      column,
      same.has(column) || value === null ? value : typeof value,
    ]),
  );
}

test('the tests’ own session is what signing in leaves behind, cookie and rows', async () => {
  const shop = await makeShop(api);
  const { id: personId, email } = shop.people.manager;
  const account = { email, name: email, password: PASSWORD, shopId: shop.shopId, personId };
  await api.app.signIn.createAccount(account);
  const response = await fetch(`${api.origin}/auth/sign-in/email`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin: 'http://shop.test' },
    body: JSON.stringify({ email, password: PASSWORD }),
  });
  expect(response.status).toBe(200);
  const real = response.headers.getSetCookie().map((cookie) => cookie.split(';')[0]);
  const ours = await shop.cookie('front_desk');

  const shape = (cookie = '') => {
    const [name, value = ''] = cookie.split('=');
    const signed = decodeURIComponent(value);
    return [
      name,
      signed.lastIndexOf('.'),
      Buffer.from(signed.split('.').at(-1) ?? '', 'base64').length,
    ];
  };
  expect(real.map(shape)).toEqual([shape(ours)]);
  expect(await left(shop.people.front_desk.id)).toEqual(await left(personId));
  expect((await left(personId)).length).toBe(4);
});
