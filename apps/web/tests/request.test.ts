import { afterEach, expect, test, vi } from 'vitest';
import { request, type TypedDocument } from '../graphql/request.ts';
import { contentPolicy } from '../lib/content-policy.ts';

const document: TypedDocument<{ one: number }, Record<string, never>> = {
  toString: () => '{ one }',
};

function answering(response: Response | Error) {
  const fetch = vi.fn(async (_url: string, _init: RequestInit) => {
    if (response instanceof Error) throw response;
    return response;
  });
  vi.stubGlobal('fetch', fetch);
  return fetch;
}

const json = (body: unknown, init?: ResponseInit) => new Response(JSON.stringify(body), init);

afterEach(() => vi.unstubAllGlobals());

test('a complete answer is handed on, asked for as the API wants to be asked', async () => {
  const fetch = answering(json({ data: { one: 1 } }));
  expect(await request(document)).toEqual({ one: 1 });
  const [url, init] = fetch.mock.calls[0] ?? [];
  expect(url).toBe('/graphql');
  expect(init?.credentials).toBe('same-origin');
  expect(init?.headers).toMatchObject({ 'apollo-require-preflight': '1' });
  expect(init?.body).toBe('{"query":"{ one }","variables":{}}');
});

test('no network, no session and a refusal are told apart', async () => {
  answering(new TypeError('fetch failed'));
  await expect(request(document)).rejects.toMatchObject({ kind: 'away', code: 'NETWORK' });

  answering(
    json(
      { error: { code: 'UNAVAILABLE', message: 'soon' } },
      { status: 503, headers: { 'retry-after': '3' } },
    ),
  );
  await expect(request(document)).rejects.toMatchObject({
    kind: 'away',
    message: 'soon',
    retryAfterSeconds: 3,
  });

  answering(json({ errors: [{ message: 'Who?', extensions: { code: 'SIGN_IN_NEEDED' } }] }));
  await expect(request(document)).rejects.toMatchObject({ kind: 'signIn', message: 'Who?' });

  answering(json({}, { status: 401 }));
  await expect(request(document)).rejects.toMatchObject({ kind: 'signIn' });

  answering(
    json({ data: null, errors: [{ message: 'Not yours', extensions: { code: 'FORBIDDEN' } }] }),
  );
  await expect(request(document)).rejects.toMatchObject({ kind: 'refused', code: 'FORBIDDEN' });
});

test('what is not JSON is a refusal or a broken line, not a crash', async () => {
  answering(new Response('<html>', { status: 200 }));
  await expect(request(document)).rejects.toMatchObject({ kind: 'refused', code: 'HTTP_200' });
  answering(new Response('Internal Server Error', { status: 500 }));
  await expect(request(document)).rejects.toMatchObject({ kind: 'away', code: 'HTTP_500' });
});

test('the policy lets no script in without its nonce', () => {
  const policy = contentPolicy('abc', false);
  expect(policy).toContain("script-src 'self' 'nonce-abc' 'strict-dynamic'");
  expect(policy).not.toContain('unsafe-eval');
  expect(policy.match(/script-src[^;]*/)?.[0]).not.toContain('unsafe-inline');
  expect(contentPolicy([], false)).toContain("script-src 'none';");
});
