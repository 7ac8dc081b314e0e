import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { move, stocked } from './stocked.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const find = async (shop: TestShop, code: string) => {
  const { data, errors } = await shop.as<{
    findInStores: { lots: { batch: string }[]; parts: { number: string }[] };
  }>(
    'mechanic',
    'query($code: String!) { findInStores(code: $code) { lots { batch } parts { number } } }',
    { code },
  );
  const found = data?.findInStores;
  return found
    ? [...found.parts.map(({ number }) => number), ...found.lots.map(({ batch }) => batch)]
    : (errors?.[0]?.extensions.code ?? 'nothing');
};

it('a whole number finds its part or its lots, however it is printed; a part of one finds nothing', async () => {
  const { shop, delivery } = await stocked(api, { batch: 'CL-10 77', tag: 'EB/5101' });
  await move(shop, 'receiveLot', { ...delivery, batch: 'CL-1078', tag: 'EB/5101' });
  await move(shop, 'receiveLot', { ...delivery, batch: 'Ä-5', tag: '' });
  expect(await find(shop, 'G-1')).toEqual(['G-1']);
  expect(await find(shop, ' g1\n')).toEqual(['G-1']);
  expect(await find(shop, 'CL1077')).toEqual(['CL-10 77']);
  expect(await find(shop, 'eb 5101')).toEqual(expect.arrayContaining(['CL-10 77', 'CL-1078']));
  expect(await find(shop, 'ä5')).toEqual(['Ä-5']);
  expect(await find(shop, 'CL107')).toEqual([]);
  // A lot without a certificate is not found by an empty one.
  expect(await find(shop, '--')).toBe('BAD_INPUT');
  expect(await find(shop, "' OR true --")).toEqual([]);
  const stranger = await stocked(api, { batch: 'ELSEWHERE' });
  expect(await find(stranger.shop, 'CL1077')).toEqual([]);
});
