import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';

let api: TestApi;
let shop: TestShop;
beforeAll(async () => {
  api = await startApi();
  shop = await makeShop(api);
});
afterAll(() => api.stop());

const soon = (given: string) =>
  shop.as(
    'front_desk',
    `{ node(id: "${globalId('Aircraft', shop.aircraftId)}") { ... on Aircraft { due(${given}) { tisHundredths } } } }`,
  );

it.each([
  ['soonHundredths: -1', 'soonHundredths is -1: needed is 0 to 1000000.'],
  ['soonDays: 10001', 'soonDays is 10001: needed is 0 to 10000.'],
])('how soon is soon has its bounds: %s', async (given, sentence) => {
  const { errors } = await soon(given);
  expect(errors?.[0]).toMatchObject({ message: sentence, extensions: { code: 'BAD_INPUT' } });
});

it('and within them it is answered', async () => {
  expect((await soon('soonHundredths: 0, soonDays: 10000')).errors).toBeUndefined();
});
