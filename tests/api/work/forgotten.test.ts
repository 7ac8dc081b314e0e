import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { addJobs, learn, makeTask } from '../../support/shop.ts';
import { answer, askedOf, at, HOUR_MS, shopWith, stretches, theOne } from './bench-week.ts';
import { clockAt, expectDone, expectRefused, makeOrder, mutate } from './orders.ts';

/** Clocks that were left running. */

let api: TestApi;
let now = new Date('2031-05-06T07:30:00Z');
beforeAll(async () => {
  api = await startApi({ now: () => now });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

describe('a clock left running', () => {
  it('is asked about the next morning, not the same evening, with when its person may have stopped', async () => {
    const { shop, order, items } = await shopWith(api);
    now = at('15:00');
    await clockAt(shop, 'mechanic', 'start', items[0] ?? '', at('14:10'));
    expectDone(
      await mutate(shop, 'mechanic', 'noteFinding', {
        orderId: order.id,
        itemId: items[0],
        title: 'Chafed hose',
        words: '',
        zone: '',
        class: 'discrepancy',
        photoIds: [],
        foundAt: at('14:40').toISOString(),
        clientEventId: randomUUID(),
      }),
    );
    // Overtime until midnight is nothing to ask about: eight hours after the end of their day it is.
    now = at('23:59');
    expect(await askedOf(shop)).toEqual([]);
    now = at('07:30', '06');
    const asked = await theOne(shop);
    expect(asked).toMatchObject({
      why: 'ran_past_hours',
      startedAt: at('14:10').toISOString(),
      endedAt: null,
      person: { name: 'Test mechanic' },
      item: { id: items[0] },
      suggestions: [
        { at: at('14:40').toISOString(), kind: 'last_sign', what: 'finding “Chafed hose”' },
        { at: at('16:00').toISOString(), kind: 'end_of_hours', what: '' },
      ],
    });
    // Only they are asked; the desk sees it in a list.
    expect(await askedOf(shop, 'inspector')).toEqual([]);
  });

  it('locks nobody out: the next start counts at once, and the question stays until it is answered', async () => {
    const { shop, items } = await shopWith(api);
    await clockAt(shop, 'mechanic', 'start', items[0] ?? '', at('14:10'));
    now = at('07:30', '06');
    expectDone(await clockAt(shop, 'mechanic', 'switch', items[1] ?? '', at('07:05', '06')));
    const asked = await theOne(shop);
    expect(asked).toMatchObject({ endedAt: at('07:05', '06').toISOString() });
    const said = expectDone(await answer(shop, 'mechanic', asked.startId, at('15:50')));
    expect(said).toMatchObject({
      kind: 'stop',
      at: at('15:50').toISOString(),
      reason: 'Forgot to stop it',
      answers: { id: asked.startId },
    });
    expect(await stretches(shop)).toEqual([
      [items[0], '05T14:10', '05T15:50'],
      [items[1], '06T07:05', null],
    ]);
    expect(await askedOf(shop)).toEqual([]);
  });

  it('keeps what was recorded: the answer is one more event', async () => {
    const { shop, items } = await shopWith(api);
    await clockAt(shop, 'mechanic', 'start', items[0] ?? '', at('14:10'));
    now = at('07:30', '06');
    const { startId } = await theOne(shop);
    await answer(shop, 'mechanic', startId, at('16:00'));
    const events = await shop.inside((tx) => tx.clockEvent.findMany({ orderBy: { id: 'asc' } }));
    expect(events.map(({ kind, at: when }) => [kind, when.toISOString().slice(8, 16)])).toEqual([
      ['start', '05T14:10'],
      ['stop', '05T16:00'],
    ]);
  });

  it('may be right: then it runs on and is asked about again only after another night', async () => {
    const { shop, items } = await shopWith(api);
    await clockAt(shop, 'mechanic', 'start', items[0] ?? '', at('14:10'));
    now = at('07:30', '06');
    const { startId } = await theOne(shop);
    const said = expectDone(await answer(shop, 'mechanic', startId, null, 'Night shift'));
    expect(said).toMatchObject({ kind: 'correction', at: at('14:10').toISOString() });
    expect(await askedOf(shop)).toEqual([]);
    expect(await stretches(shop)).toEqual([[items[0], '05T14:10', null]]);
    now = at('23:00', '06');
    expect(await askedOf(shop)).toEqual([]);
    now = at('07:30', '07');
    expect(await askedOf(shop)).toHaveLength(1);
  });

  it('is said once, however often the telephone sends it; another answer to it is a word more', async () => {
    const { shop, items } = await shopWith(api);
    await clockAt(shop, 'mechanic', 'start', items[0] ?? '', at('14:10'));
    now = at('07:30', '06');
    const { startId } = await theOne(shop);
    const id = randomUUID();
    const [one, two] = await Promise.all([
      answer(shop, 'mechanic', startId, at('16:00'), 'Forgot', id),
      answer(shop, 'mechanic', startId, at('16:00'), 'Forgot', id),
    ]);
    expect(expectDone(one).id).toBe(expectDone(two).id);
    expectDone(await answer(shop, 'mechanic', startId, at('15:30'), 'It was earlier'));
    expect(await stretches(shop)).toEqual([[items[0], '05T14:10', '05T15:30']]);
    expectRefused(
      await answer(shop, 'mechanic', startId, at('15:45'), 'And later'),
      'CONFLICT',
      /at 15:45 on 5 May 2031: the clock began at 14:10 .* ended at 15:30 .*Needed is a time between the two/,
    );
    const taken = randomUUID();
    expectDone(await clockAt(shop, 'mechanic', 'start', items[1] ?? '', at('07:10', '06'), taken));
    expectRefused(
      await answer(shop, 'mechanic', startId, at('15:00'), 'The id of another', taken),
      'CONFLICT',
      /needed is a new one/,
    );
    expectRefused(
      await answer(shop, 'mechanic', globalId('ClockEvent', randomUUID()), at('15:00'), 'Of none'),
      'NOT_FOUND',
      /start of a clock/,
    );
  });

  it('wants a reason, and a time while it ran', async () => {
    const { shop, items } = await shopWith(api);
    await clockAt(shop, 'mechanic', 'start', items[0] ?? '', at('14:10'));
    now = at('07:30', '06');
    const { startId } = await theOne(shop);
    expectRefused(await answer(shop, 'mechanic', startId, null, ' '), 'BAD_INPUT', /reason/);
    for (const wrong of [at('14:10'), at('07:31', '06')])
      expectRefused(
        await answer(shop, 'mechanic', startId, wrong),
        'CONFLICT',
        /Needed is a time between the two/,
      );
    expect(await stretches(shop)).toEqual([[items[0], '05T14:10', null]]);
  });

  it('is answered by its person or the manager, and seen in a list by the desk', async () => {
    const { shop, items } = await shopWith(api);
    await clockAt(shop, 'mechanic', 'start', items[0] ?? '', at('14:10'));
    now = at('07:30', '06');
    const { startId } = await theOne(shop);
    const list = (role: Role) =>
      shop.as(
        role,
        `{ forgottenClocks { __typename ... on ForgottenClocks { clocks { person { name } why } } ... on Refusal { code } } }`,
      );
    for (const role of ['front_desk', 'inspector', 'manager'] as const)
      expect((await list(role)).data).toMatchObject({
        forgottenClocks: { clocks: [{ person: { name: 'Test mechanic' }, why: 'ran_past_hours' }] },
      });
    expect((await list('mechanic')).data).toMatchObject({ forgottenClocks: { code: 'FORBIDDEN' } });
    expectRefused(
      await answer(shop, 'inspector', startId, at('16:00')),
      'FORBIDDEN',
      /they or the manager/,
    );
    expectRefused(await answer(shop, 'front_desk', startId, at('16:00')), 'FORBIDDEN', /./);
    expectDone(await answer(shop, 'manager', startId, at('16:00'), 'Seen leaving'));
    expect((await list('manager')).data).toMatchObject({ forgottenClocks: { clocks: [] } });
    expect(await askedOf(shop)).toEqual([]);
  });

  it('is asked about after twelve hours where nothing says when its person is in', async () => {
    const { shop, items } = await shopWith(api, { hours: false });
    await clockAt(shop, 'mechanic', 'start', items[0] ?? '', at('08:00'));
    now = at('20:00');
    expect(await askedOf(shop)).toEqual([]);
    now = new Date(+at('20:00') + 60_000);
    expect(await askedOf(shop)).toMatchObject([{ why: 'ran_very_long', suggestions: [] }]);
  });

  it('is asked about where it ran longer than 99 in 100 such jobs, while that is fresh', async () => {
    const { shop } = await shopWith(api);
    const task = await makeTask(shop);
    await addJobs(shop, task.key, [1.9, 2, 2.1, 2, 1.8, 2.2, 2, 2.1, 1.9, 2, 2.05, 1.95]);
    await learn(shop);
    const { items } = await makeOrder(shop, { items: [{ taskId: task.id }] });
    const id = items[0]?.id ?? '';
    // Eight hours within the day, stopped in order: no hours were overrun.
    now = at('15:40');
    await clockAt(shop, 'mechanic', 'start', id, at('07:10'));
    await clockAt(shop, 'mechanic', 'stop', id, at('15:30'));
    const [asked] = await askedOf(shop);
    expect(asked).toMatchObject({ why: 'longer_than_such_jobs', item: { id } });
    // By the same model that quotes; twelve jobs of two hours leave eight far outside.
    expect(asked?.p99Hours).toBeGreaterThan(2.2);
    expect(asked?.p99Hours).toBeLessThan(8);
    now = new Date(+at('15:30') + 73 * HOUR_MS);
    expect(await askedOf(shop)).toEqual([]);
  });
});
