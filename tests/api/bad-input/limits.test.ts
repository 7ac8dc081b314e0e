import { randomBytes } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ask, startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';

let api: TestApi;
let shop: TestShop;
beforeAll(async () => {
  api = await startApi();
  shop = await makeShop(api);
});
afterAll(() => api.stop());

const codeOf = async (query: string) =>
  (await shop.as('manager', query)).errors?.[0]?.extensions.code;

describe('a request that asks for too much', () => {
  it('is refused by depth', async () => {
    const deep = `{ quotes { edges { node { order { quotes { order { quotes { order { quotes { order { quotes { order { number } } } } } } } } } } } } }`;
    expect(await codeOf(deep)).toBe('BAD_INPUT');
  });
  it('is refused by the number of aliases', async () => {
    expect(
      await codeOf(
        `{ ${Array.from({ length: 300 }, (_, index) => `a${index}: people { id }`).join(' ')} }`,
      ),
    ).toBe('BAD_INPUT');
  });
  it('is refused by complexity', async () => {
    expect(
      await codeOf(
        '{ orders { edges { node { findings { quotes { revisions { lines { because { sentence } } decisions { wordsShown } } } } } } } }',
      ),
    ).toBe('BAD_INPUT');
  });
  it('is refused by its number of tokens', async () => {
    const answer = await shop.as('manager', `{ people { ${'id '.repeat(7000)} } }`);
    expect(answer.status).toBe(400);
  });
  it('is refused by size, with a sentence', async () => {
    const answer = await ask(
      api.origin,
      '{ people { id } }',
      { padding: 'x'.repeat(600_000) },
      await shop.cookie('manager'),
    );
    expect(answer.status).toBe(413);
  });
  it('answers within the limits', async () => {
    expect(
      (
        await shop.as(
          'manager',
          '{ people { id name roles } viewer { person { name } shop { name currency } } }',
        )
      ).errors,
    ).toBeUndefined();
  });
});

describe('a request that is no request', () => {
  const post = (body: string, headers: Record<string, string> = {}) =>
    fetch(`${api.origin}/graphql`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', 'apollo-require-preflight': '1', ...headers },
      body,
    });
  it.each([
    ['broken JSON', '{"query":'],
    ['an empty body', ''],
    ['a list', '[]'],
    ['a number', '7'],
    ['no query', '{}'],
    ['a query of another kind', '{"query":7}'],
    ['bytes', randomBytes(200).toString('latin1')],
    ['variables of another kind', '{"query":"{ __typename }","variables":7}'],
  ])('%s gets 400', async (_, body) => {
    const response = await post(body);
    expect(response.status).toBe(400);
    expect(await response.text()).not.toMatch(/\bat .*\.(ts|js):\d/);
  });
  it('a form from another site is not read at all', async () => {
    const response = await fetch(`${api.origin}/graphql`, {
      method: 'POST',
      headers: { 'content-type': 'text/plain' },
      body: JSON.stringify({ query: '{ __typename }' }),
    });
    expect(response.status).toBeGreaterThanOrEqual(400);
    expect(response.status).toBeLessThan(500);
  });
  it('GET never changes anything', async () => {
    const query = encodeURIComponent(
      'mutation { readCautions(input: {itemId: "x"}) { __typename } }',
    );
    const response = await fetch(`${api.origin}/graphql?query=${query}`, {
      headers: { 'apollo-require-preflight': '1', cookie: await shop.cookie('manager') },
    });
    expect(response.status).toBe(405);
  });
  it('an address that does not exist gets 404 in JSON', async () => {
    const response = await fetch(`${api.origin}/nothing/here`);
    expect(response.status).toBe(404);
    expect(await response.json()).toMatchObject({ error: { code: 'NOT_FOUND' } });
  });
});

it('nobody signed in reads nothing, and is told to sign in', async () => {
  const answer = await shop.as(null, '{ viewer { person { name } } people { name } }');
  expect(answer.errors?.[0]?.extensions.code).toBe('SIGN_IN_NEEDED');
  expect((await shop.as(null, '{ viewer { person { name } } }')).data).toEqual({ viewer: null });
});

it('health and readiness answer without a sign-in', async () => {
  expect((await fetch(`${api.origin}/healthz`)).status).toBe(200);
  expect((await fetch(`${api.origin}/readyz`)).status).toBe(200);
});
