import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop } from '../../support/shop.ts';
import { aircraft, exported, received, shopWithRecords, verify } from './archive-shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

describe('an archive from another shop', () => {
  it('is kept as it came, read-only, with its proof, and goes on with the next archive', async () => {
    const [{ shop }, next] = [await shopWithRecords(api, 2, 'SAME-1'), await makeShop(api)];
    await next.inside((tx) =>
      tx.aircraft.update({ where: { id: next.aircraftId }, data: { serial: 'SAME-1' } }),
    );
    const { bytes } = await exported(api, shop);
    const verdict = await verify(bytes);
    const took = await received(api, next, bytes, `?keys=${verdict.seal?.key}`);
    expect(took).toMatchObject({ status: 201, body: { id: expect.any(String) } });
    expect((await received(api, next, bytes)).body.id).toBe(took.body.id);
    const { data } = await next.as<{ node: { received: Record<string, unknown>[] } }>(
      'inspector',
      'query($id: ID!) { node(id: $id) { ... on Aircraft { received { shop links key compared fault receivedBy { name } records { number kind text signature leftOut } } } } }',
      { id: aircraft(next) },
    );
    expect(data?.node.received).toEqual([
      {
        ...{ shop: 'Test Shop, Nowhere Strand', links: 2, compared: true, fault: null },
        key: verdict.seal?.key,
        receivedBy: { name: 'Test inspector' },
        records: [1, 2].map((number) => ({
          ...{ number, kind: 'entry', leftOut: false, signature: 'Test inspector' },
          text: expect.stringContaining('inspection'),
        })),
      },
    ]);
    await expect(
      next.inside((tx) => tx.receivedLink.updateMany({ data: { line: '' } })),
    ).rejects.toThrow();
    const on = await verify((await exported(api, next)).bytes);
    expect(on).toMatchObject({ holds: true, received: [{ holds: true, entries: 2 }] });
  });
  it.each<[string, (bytes: Buffer) => Buffer, string, RegExp, number]>([
    [
      'changed on the way',
      (bytes) => {
        bytes[3000]! ^= 1;
        return bytes;
      },
      '',
      /Nothing was kept: the archive does not hold/,
      422,
    ],
    ['cut off', (bytes) => bytes.subarray(0, -3000), '', /cut off/, 422],
    ['empty', () => Buffer.alloc(0), '', /cut off at byte 0/, 422],
    [
      'sealed with another key than was named',
      (bytes) => bytes,
      `?keys=${'A'.repeat(43)}`,
      /not one of those you named/,
      422,
    ],
    ['of another aircraft', (bytes) => bytes, '', /is of .*serial OTHER-1; .* has serial/, 400],
    [
      'with a fingerprint that is none',
      (bytes) => bytes,
      '?keys=abc',
      /“abc” is no fingerprint/,
      400,
    ],
  ])('%s is refused, and nothing is kept', async (what, change, query, words, status) => {
    const { shop } = await shopWithRecords(
      api,
      1,
      what === 'of another aircraft' ? 'OTHER-1' : undefined,
    );
    const next = await makeShop(api);
    const { bytes } = await exported(api, shop);
    const answer = await received(api, next, change(bytes), query);
    expect([answer.status, answer.body.error?.message]).toEqual([
      status,
      expect.stringMatching(words),
    ]);
    expect(await next.inside((tx) => tx.receivedArchive.count())).toBe(0);
  });
  it('is not taken from a foreign page, nor the shop’s own', async () => {
    const { shop } = await shopWithRecords(api, 1);
    const { bytes } = await exported(api, shop);
    expect((await received(api, shop, bytes, '', '')).status).toBe(403);
    expect(await received(api, shop, bytes)).toMatchObject({
      status: 409,
      body: { error: { message: expect.stringMatching(/this shop's own records/) } },
    });
  });
});
