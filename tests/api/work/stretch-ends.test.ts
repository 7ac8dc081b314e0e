import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { clockAt, makeOrder, mutate } from './orders.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const at = (time: string) => `2026-03-02T${time}:00Z`;
const endsIn = async (shop: TestShop) => {
  const { data } = await shop.as<{
    bench: { items: { stretches: { began: { id: string }; ended: { id: string } | null }[] }[] };
  }>('mechanic', '{ bench { items { stretches { began { id } ended { id } } } } }');
  return data?.bench.items.map(({ stretches }) =>
    stretches.map(({ began, ended }) => [began.id, ended?.id ?? null]),
  );
};

it('names the event behind each end of a stretch, a switch for two of them, and null while it runs', async () => {
  const shop = await makeShop(api);
  const {
    items: [a, b],
  } = await makeOrder(shop, { items: [{}, {}] });
  if (!a || !b) throw new Error('two items');
  const start = await clockAt(shop, 'mechanic', 'start', a.id, at('08:00'));
  const goOver = await clockAt(shop, 'mechanic', 'switch', b.id, at('09:00'));
  expect(await endsIn(shop)).toEqual([[[start.id, goOver.id]], [[goOver.id, null]]]);
  const stop = await clockAt(shop, 'mechanic', 'stop', b.id, at('10:00'));
  expect(await endsIn(shop)).toEqual([[[start.id, goOver.id]], [[goOver.id, stop.id]]]);
});

it('names the event itself after a correction, also where two events fall on one instant', async () => {
  const shop = await makeShop(api);
  const {
    items: [a, b],
  } = await makeOrder(shop, { items: [{}, {}] });
  if (!a || !b) throw new Error('two items');
  const start = await clockAt(shop, 'mechanic', 'start', a.id, at('08:00'));
  const stop = await clockAt(shop, 'mechanic', 'stop', a.id, at('12:00'));
  const next = await clockAt(shop, 'mechanic', 'start', b.id, at('13:00'));
  await mutate(
    shop,
    'mechanic',
    'correctClock',
    { eventId: stop.id, at: at('13:00'), reason: 'worked on', clientEventId: randomUUID() },
    'id',
  );
  expect(await endsIn(shop)).toEqual([[[start.id, stop.id]], [[next.id, null]]]);
  // The time that was recorded counts no more: nothing is found at it.
  await mutate(
    shop,
    'mechanic',
    'correctClock',
    { eventId: stop.id, at: at('11:00'), reason: 'no, before', clientEventId: randomUUID() },
    'id',
  );
  expect(await endsIn(shop)).toEqual([[[start.id, stop.id]], [[next.id, null]]]);
});
