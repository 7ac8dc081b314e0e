import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { send } from './files.ts';
import { aircraft, flown, NOW, type Said } from './flown.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => NOW });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Reading {
  readingHundredths: number;
  tisHundredths: number;
  offsetHundredths: number;
  source: string;
  reason: string;
  readBy: { name: string } | null;
}
const READINGS = `readings(first: 3) { readingHundredths tisHundredths offsetHundredths source reason readBy { name } }`;
const read = async (
  shop: TestShop,
  reading: number,
  over: Record<string, unknown> = {},
): Promise<Said & { readings?: Reading[] }> => {
  const { data, errors } = await shop.as<{ recordReading: Said & { readings: Reading[] } }>(
    'mechanic',
    `mutation($input: RecordReadingInput!) { recordReading(input: $input) { ... on Aircraft { ${READINGS} } ... on Refusal { code message } } }`,
    {
      input: {
        aircraftId: aircraft(shop),
        meter: 'tachometer',
        readingHundredths: reading,
        ...over,
      },
    },
  );
  return data?.recordReading ?? { message: JSON.stringify(errors) };
};
const count = (shop: TestShop) => shop.inside((tx) => tx.meterReading.count());

describe('a meter that is read', () => {
  it('gives the time in service, under the name of who read it', async () => {
    const shop = await flown(api);
    expect((await read(shop, 130_510)).readings?.[0]).toEqual({
      ...{ readingHundredths: 130_510, tisHundredths: 130_510, offsetHundredths: 0 },
      ...{ source: 'read', reason: '', readBy: { name: 'Test mechanic' } },
    });
  });
  it('and is replaced keeps the time running on (14 CFR 1.1): out at 2450.3 reading 0.0, now 12.7, is 2463.0', async () => {
    const shop = await makeShop(api);
    await read(shop, 245_000);
    const replaced = await read(shop, 0, { oldReadingHundredths: 245_030 });
    expect(replaced.readings?.[0]).toMatchObject({
      ...{ source: 'replaced', tisHundredths: 245_030, offsetHundredths: 245_030 },
    });
    const { readings } = await read(shop, 1270, { reason: 'Flown on a long day' });
    expect(readings?.[0]).toMatchObject({ tisHundredths: 246_300, offsetHundredths: 245_030 });
  });
  it('backwards or in a jump is questioned, and taken only with a reason by name', async () => {
    const shop = await flown(api);
    const before = await count(shop);
    expect(await read(shop, 129_990)).toMatchObject({
      code: 'AGAINST_RULE',
      message: expect.stringMatching(
        /goes backwards: 1299\.90 h, and it read 1300\.00 h before.*say why/,
      ),
    });
    expect((await read(shop, 135_000)).message).toMatch(/jumps: .* more than the days have/);
    expect((await read(shop, 129_990, { reason: ' x ' })).code).toBe('AGAINST_RULE');
    expect(await count(shop)).toBe(before);
    const { readings } = await read(shop, 129_990, { reason: 'The last figure was mistyped' });
    expect(readings?.[0]).toMatchObject({
      ...{ tisHundredths: 129_990, reason: 'The last figure was mistyped' },
      readBy: { name: 'Test mechanic' },
    });
  });
  it('is refused on a day to come, before the last one, without a photo that exists, and as a replacement of nothing', async () => {
    const shop = await flown(api);
    const before = await count(shop);
    expect((await read(shop, 130_100, { readOn: '2026-03-15' })).message).toMatch(
      /today is 2026-03-14/,
    );
    expect((await read(shop, 130_100, { readOn: '2026-03-13' })).message).toMatch(
      /a meter was read on 2026-03-14 already/,
    );
    expect((await read(shop, 130_100, { readOn: '2026-02-29' })).message).toMatch(/2026-02-29/);
    const photoId = globalId('Photo', '00000000-0000-7000-8000-000000000000');
    expect(await read(shop, 130_100, { photoId })).toMatchObject({ code: 'NOT_FOUND' });
    expect((await read(shop, 0, { meter: 'airborne', oldReadingHundredths: 100 })).message).toMatch(
      /never read here/,
    );
    expect(await read(shop, -1)).toMatchObject({ code: 'BAD_INPUT' });
    expect(await count(shop)).toBe(before);
  });
});

interface Taken extends Said {
  flights?: number;
  hundredths?: number;
  landings?: number;
  starts?: number;
  refused?: { line: number; value: string; problem: string }[];
}
const take = async (shop: TestShop, csv: string | Buffer): Promise<Taken> =>
  (await send(api, shop, 'flights', csv)).said as Taken;

describe('a list of flights', () => {
  it('is added to the time in service, once', async () => {
    const shop = await makeShop(api);
    await read(shop, 130_000, { readOn: '2026-03-01' });
    const list =
      'date,flight_time,landings,starts\n2026-03-10,1:15,3,2\n2026-03-10,0.5,1,1\n2026-03-12,2,1,1\n';
    expect(await take(shop, list)).toEqual({
      ...{ flights: 3, hundredths: 375, landings: 5, starts: 4, cycles: 3, refused: [] },
    });
    const newest = await shop.inside((tx) =>
      tx.meterReading.findFirstOrThrow({ orderBy: { readAt: 'desc' } }),
    );
    expect(newest).toMatchObject({ tisHundredths: 130_375, source: 'flight_list' });
    expect((await take(shop, list)).refused?.map(({ line, problem }) => [line, problem])).toEqual(
      [2, 3, 4].map((line) => [line, 'is counted already by the last reading']),
    );
    expect(await shop.inside((tx) => tx.flight.count())).toBe(3);
  });
  it('of which one row is refused leaves nothing half-done', async () => {
    const shop = await makeShop(api);
    await read(shop, 130_000, { readOn: '2026-03-01' });
    const taken = await take(shop, 'date,flight_time\n2026-03-10,1\n2026-02-29,1\n');
    expect(taken).toMatchObject({
      flights: 0,
      refused: [{ line: 3, value: '2026-02-29', problem: 'is no day that exists' }],
    });
    expect(await shop.inside((tx) => tx.flight.count())).toBe(0);
  });
  it('needs a reading to be added to, and is of a size', async () => {
    const shop = await makeShop(api);
    expect(await take(shop, 'date,flight_time\n2026-03-10,1\n')).toMatchObject({
      error: { code: 'AGAINST_RULE' },
    });
    expect(await take(shop, 'x'.repeat(2_100_000))).toMatchObject({ error: { code: 'TOO_LARGE' } });
    expect(await take(shop, Buffer.from([0xff, 0xfe]))).toMatchObject({
      error: { message: expect.stringMatching(/not UTF-8/) },
    });
  });
});
