import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop } from '../../support/shop.ts';
import { clockAt, expectDone, expectRefused, makeOrder, mutate } from './orders.ts';

/** The second pair of eyes at a critical item, given with no network and sent later. */

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

it('a second look that comes late counts once, from when it was given, for the item as it stood then', async () => {
  const shop = await makeShop(api);
  const [item] = (await makeOrder(shop, { items: [{ critical: true }] })).items;
  if (!item) throw new Error('an item');
  const finish = () =>
    mutate(shop, 'mechanic', 'finishItem', { itemId: item.id, workDone: 'Hose replaced.' });
  const kept = () => shop.inside((tx) => tx.itemEvent.findMany({ where: { itemId: item.itemId } }));
  await shop.inside((tx) =>
    tx.person.update({
      where: { id: shop.people.manager.id },
      data: { roles: ['manager', 'mechanic'] },
    }),
  );
  await clockAt(shop, 'mechanic', 'start', item.id, '2026-03-02T08:00:00Z');
  await clockAt(shop, 'mechanic', 'stop', item.id, '2026-03-02T09:00:00Z');
  expectDone(await finish());
  const firstId = async () => {
    expectDone(await mutate(shop, 'inspector', 'initialItem', { itemId: item.id, second: false }));
    const [id] = await shop.inside((tx) =>
      tx.itemEvent.findMany({
        where: { itemId: item.itemId, kind: 'initialled' },
        orderBy: { id: 'desc' },
        select: { id: true },
      }),
    );
    return globalId('ItemEvent', id?.id ?? '');
  };
  /** As a telephone whose clock is an hour behind sends what was pressed just now. */
  const noted = () => ({
    at: new Date(Date.now() - 3_600_000).toISOString(),
    clientEventId: randomUUID(),
    device: { id: randomUUID(), clockOffsetMs: 3_600_000 },
  });
  const late = (role: 'mechanic' | 'inspector' | 'manager', over: Record<string, unknown>) =>
    mutate(
      shop,
      role,
      'initialItem',
      { itemId: item.id, second: true, noted: noted(), ...over },
      'state events { kind at by { name } }',
    );
  const before = await firstId();
  // The same person as at first, and who did the work: refused as if they had asked at the shop.
  expectRefused(
    await late('inspector', { firstId: before }),
    'AGAINST_RULE',
    /needs another pair of eyes: you gave the first initial yourself/,
  );
  expectRefused(
    await late('mechanic', { firstId: before }),
    'AGAINST_RULE',
    /needs another pair of eyes: you worked on it yourself/,
  );
  // Opened again and done again while the telephone was away.
  const looked = { firstId: before, noted: noted() };
  expectDone(
    await mutate(shop, 'mechanic', 'reopenItem', { itemId: item.id, reason: 'Wire missing.' }),
  );
  const since =
    /no longer as you looked at it at .*\. Test mechanic opened it again at .*: “Wire missing\.”\. Your look does not count for it: look at it as it stands now/;
  expectRefused(await late('manager', looked), 'CONFLICT', since);
  expectDone(await finish());
  expectRefused(await late('manager', looked), 'CONFLICT', since);
  const after = await firstId();
  expectRefused(await late('manager', looked), 'CONFLICT', since);
  expect(await kept()).toHaveLength(5);

  const said = { firstId: after, noted: noted() };
  const [one, two] = await Promise.all([late('manager', said), late('manager', said)]);
  for (const answer of [one, two]) expect(answer).toMatchObject({ state: 'inspected' });
  const looks = (await kept()).filter(({ kind }) => kind === 'second_inspected');
  expect(looks).toHaveLength(1);
  expect(looks[0]).toMatchObject({
    clientEventId: said.noted.clientEventId,
    deviceId: said.noted.device.id,
    deviceAt: new Date(said.noted.at),
  });
  expect(Math.abs((looks[0]?.at.getTime() ?? 0) - Date.now())).toBeLessThan(60_000);
  // Somebody else gave it meanwhile.
  await shop.inside((tx) =>
    tx.person.update({
      where: { id: shop.people.front_desk.id },
      data: { roles: ['front_desk', 'mechanic'] },
    }),
  );
  expectRefused(
    await mutate(shop, 'front_desk', 'initialItem', {
      ...{ itemId: item.id, second: true, firstId: after, noted: noted() },
    }),
    'CONFLICT',
    /was inspected a second time by Test manager already, at /,
  );
  expectRefused(
    await late('manager', { firstId: item.id, noted: noted() }),
    'BAD_INPUT',
    /firstId/,
  );
});
