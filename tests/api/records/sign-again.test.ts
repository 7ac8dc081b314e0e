import { globalId, keyOf } from '@fairlead/api/ids';
import { hashPassword } from '@fairlead/api/people/password';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { type EntryAsked, entryDraft, makeVisit, signEntry } from '../../support/visit.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const PASSWORD = 'three grey geese';

/** A visit to sign, by an inspector with a password. */
async function toSign() {
  const shop = await makeShop(api);
  const visit = await makeVisit(shop);
  await shop.cookie('inspector');
  await api.identity.query(
    'update identity.credential c set password = $2 from identity.account a where a.id = c.account_id and a.email = $1',
    [shop.people.inspector.email, await hashPassword(PASSWORD)],
  );
  const asked: EntryAsked = {
    orderId: visit.order,
    bookId: globalId('RecordBook', shop.bookId),
    outcome: 'airworthy',
  };
  const { text } = await entryDraft(shop, asked);
  return { shop, asked, text: text ?? '' };
}
async function again(
  shop: TestShop,
  body: Record<string, unknown>,
  { cookie = undefined as string | undefined, headers = {} } = {},
) {
  const response = await fetch(`${api.origin}/auth/again`, {
    method: 'POST',
    headers: {
      'content-type': 'application/json',
      cookie: cookie ?? (await shop.cookie('inspector')),
      ...headers,
    },
    body: JSON.stringify(body),
  });
  const answer = (await response.json()) as { again?: string; error?: { message: string } };
  return { status: response.status, ...answer };
}
const countEntries = (shop: TestShop) => shop.inside((tx) => tx.recordEntry.count());

describe('an entry is signed after signing in again', () => {
  it('with the password, for that entry, once', async () => {
    const { shop, asked, text } = await toSign();
    const said = await again(shop, { ...asked, text, password: PASSWORD });
    expect([said.status, said.again?.length]).toEqual([200, 43]);
    const signed = await signEntry(shop, asked, { text, again: said.again ?? '' });
    expect(signed.id).toBeDefined();
    // Sent again because the answer was lost: the same entry.
    expect((await signEntry(shop, asked, { text, again: said.again ?? '' })).id).toBe(signed.id);
    expect(await countEntries(shop)).toBe(1);
    const corrected = { ...asked, correctsId: signed.id ?? '', reason: 'wrong chapter' };
    const next = await entryDraft(shop, corrected);
    expect(
      await signEntry(shop, corrected, { text: next.text ?? '', again: said.again ?? '' }),
    ).toMatchObject({ code: 'SIGN_IN_NEEDED', message: expect.stringMatching(/once/) });
    expect(await countEntries(shop)).toBe(1);
  });
  it('leaves behind what the tests write in its place', async () => {
    const { shop, asked, text } = await toSign();
    const row = async () =>
      (
        await api.identity.query(
          'select what, length(token) as token, round(extract(epoch from expires_at - now()) / 10) as tens from identity.sign_again s join identity.account a on a.id = s.account_id where a.email = $1',
          [shop.people.inspector.email],
        )
      ).rows;
    await again(shop, { ...asked, text, password: PASSWORD });
    const real = await row();
    await api.identity.query('delete from identity.sign_again');
    await shop.signAgain('inspector', {
      orderId: keyOf('WorkOrder', asked.orderId, 'orderId'),
      bookId: shop.bookId,
      text,
    });
    expect(await row()).toEqual(real);
    expect(real).toHaveLength(1);
  });
  it('a signature that is refused uses nothing up', async () => {
    const { shop, asked, text } = await toSign();
    const { again: token = '' } = await again(shop, { ...asked, text, password: PASSWORD });
    expect(
      (await signEntry(shop, asked, { text, again: token, signature: 'Somebody else' })).code,
    ).toBe('BAD_INPUT');
    expect((await signEntry(shop, asked, { text, again: token })).id).toBeDefined();
  });
  it.each<[string, (token: string, given: Awaited<ReturnType<typeof toSign>>) => Promise<string>]>([
    ['nothing', () => Promise.resolve('')],
    ['something made up', () => Promise.resolve('x'.repeat(43))],
    [
      'what was said for another text',
      async (_, { shop, asked, text }) =>
        (await again(shop, { ...asked, text: `${text} `, password: PASSWORD })).again ?? '',
    ],
    [
      'what somebody else said',
      (_, { shop, asked, text }) =>
        shop.signAgain('manager', {
          orderId: keyOf('WorkOrder', asked.orderId, 'orderId'),
          bookId: shop.bookId,
          text,
        }),
    ],
    [
      'what was said too long ago',
      async (token) => {
        await api.identity.query(
          "update identity.sign_again set expires_at = now() - interval '1 second'",
        );
        return token;
      },
    ],
  ])('is refused with %s, and nothing is signed', async (_, other) => {
    const given = await toSign();
    const { shop, asked, text } = given;
    const { again: token = '' } = await again(shop, { ...asked, text, password: PASSWORD });
    expect(await signEntry(shop, asked, { text, again: await other(token, given) })).toMatchObject({
      code: 'SIGN_IN_NEEDED',
      message: expect.stringMatching(/^Nothing was signed: .*Type your password again\.$/),
    });
    expect(await countEntries(shop)).toBe(0);
  });
  it('is not open to a wrong password, and after five of them to none', async () => {
    const { shop, asked, text } = await toSign();
    for (let tries = 0; tries < 5; tries += 1)
      expect(await again(shop, { ...asked, text, password: 'three grey ducks' })).toMatchObject({
        status: 401,
        error: { message: expect.stringMatching(/not your password/) },
      });
    expect(await again(shop, { ...asked, text, password: PASSWORD })).toMatchObject({
      status: 403,
      error: { message: expect.stringMatching(/too many wrong passwords/) },
    });
  });
  it('is not open to a PIN on a shared device, a stranger, a foreign page and nonsense', async () => {
    const { shop, asked, text } = await toSign();
    const body = { ...asked, text, password: PASSWORD };
    await api.identity.query(
      `with d as (insert into identity.device (shop_id, name, token, registered_by) values ($1, 'Tablet', $2, $3) returning id)
       update identity.session s set device_id = d.id from d, identity.account a where a.id = s.account_id and a.email = $4`,
      [
        shop.shopId,
        shop.shopId.replaceAll('-', '').repeat(2),
        shop.people.manager.id,
        shop.people.inspector.email,
      ],
    );
    expect(await again(shop, body)).toMatchObject({
      status: 403,
      error: { message: expect.stringMatching(/a PIN or badge on a shared device signs no entry/) },
    });
    expect((await again(shop, body, { cookie: '' })).status).toBe(401);
    expect((await again(shop, body, { headers: { origin: 'http://elsewhere.test' } })).status).toBe(
      403,
    );
    const other = await toSign();
    for (const wrong of [
      { text: 7 },
      { orderId: 'x' },
      { bookId: '' },
      { text: 'x'.repeat(100_001) },
    ])
      expect(
        (
          await again(other.shop, {
            ...other.asked,
            text: other.text,
            password: PASSWORD,
            ...wrong,
          })
        ).status,
      ).toBe(400);
  });
});
