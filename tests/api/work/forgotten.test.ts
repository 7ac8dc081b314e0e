import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { addJobs, learn, makeShop, makeTask, type TestShop } from '../../support/shop.ts';
import {
  clockAt,
  expectDone,
  expectRefused,
  makeAgreedQuote,
  makeOrder,
  mutate,
} from './orders.ts';

/** Clocks that were left running, under whom somebody works, and what a running clock comes to. */

let api: TestApi;
let now = new Date('2031-05-06T07:30:00Z');
beforeAll(async () => {
  api = await startApi({ now: () => now });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

// 2031-05-05 is a Monday.
const at = (time: string, day = '05') => new Date(`2031-05-${day}T${time}:00Z`);
const HOUR_MS = 3_600_000;

/** A shop whose people are in from seven to four o'clock on weekdays, unless told otherwise. */
async function shopWith({ hours = true, count = 2 } = {}) {
  const shop = await makeShop(api);
  if (hours)
    await shop.inside((tx) =>
      tx.weeklyHours.createMany({
        data: [1, 2, 3, 4, 5].map((weekday) => ({
          shopId: shop.shopId,
          weekday,
          fromMinute: 7 * 60,
          toMinute: 16 * 60,
        })),
      }),
    );
  const order = await makeOrder(shop, { items: Array.from({ length: count }, () => ({})) });
  return { shop, order, items: order.items.map(({ id }) => id) };
}

interface Asked {
  startId: string;
  why: string;
  startedAt: string;
  endedAt: string | null;
  p99Hours: number | null;
  person: { name: string };
  item: { id: string };
  suggestions: { at: string; kind: string; what: string }[];
}
const fields =
  'startId why startedAt endedAt p99Hours person { name } item { id } suggestions { at kind what }';

/** What somebody is asked about at the bench. */
async function askedOf(shop: TestShop, role: Role = 'mechanic'): Promise<Asked[]> {
  const answer = await shop.as<{ bench: { forgotten: Asked[] } }>(
    role,
    `{ bench { forgotten { ${fields} } } }`,
  );
  expect(answer.errors).toBeUndefined();
  return answer.data?.bench.forgotten ?? [];
}
async function theOne(shop: TestShop): Promise<Asked> {
  const [asked] = await askedOf(shop);
  if (!asked) throw new Error('Nothing is asked about');
  return asked;
}

const answer = (
  shop: TestShop,
  role: Role,
  startId: string,
  stoppedAt: Date | null,
  reason = 'Forgot to stop it',
  clientEventId: string = randomUUID(),
) =>
  mutate(
    shop,
    role,
    'answerForgottenClock',
    { startId, ...(stoppedAt && { stoppedAt: stoppedAt.toISOString() }), reason, clientEventId },
    'kind at reason answers { id }',
  );

const stretches = (shop: TestShop) =>
  shop.inside(async (tx) => {
    const rows = await tx.stretch.findMany({ orderBy: { startedAt: 'asc' } });
    return rows.map(({ itemId, startedAt, endedAt }) => [
      globalId('WorkItem', itemId),
      startedAt.toISOString().slice(8, 16),
      endedAt?.toISOString().slice(8, 16) ?? null,
    ]);
  });

describe('a clock left running', () => {
  it('is asked about the next morning, not the same evening, with when its person may have stopped', async () => {
    const { shop, order, items } = await shopWith();
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
    const { shop, items } = await shopWith();
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
    const { shop, items } = await shopWith();
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
    const { shop, items } = await shopWith();
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
    const { shop, items } = await shopWith();
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
    const { shop, items } = await shopWith();
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
    const { shop, items } = await shopWith();
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
    const { shop, items } = await shopWith({ hours: false });
    await clockAt(shop, 'mechanic', 'start', items[0] ?? '', at('08:00'));
    now = at('20:00');
    expect(await askedOf(shop)).toEqual([]);
    now = new Date(+at('20:00') + 60_000);
    expect(await askedOf(shop)).toMatchObject([{ why: 'ran_very_long', suggestions: [] }]);
  });

  it('is asked about where it ran longer than 99 in 100 such jobs, while that is fresh', async () => {
    const { shop } = await shopWith();
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

/** Makes the shop's mechanic an apprentice and adds another mechanic who supervises. */
async function withApprentice() {
  const made = await shopWith();
  const { shop } = made;
  const other = await shop.inside(async (tx) => {
    await tx.person.update({
      where: { id: shop.people.mechanic.id },
      data: { apprentice: true },
    });
    const { id } = await tx.person.create({
      data: { shopId: shop.shopId, name: 'Able Other', initials: 'AO', roles: ['mechanic'] },
    });
    return globalId('Person', id);
  });
  const inspector = globalId('Person', shop.people.inspector.id);
  return { ...made, other, inspector };
}

const startUnder = (shop: TestShop, itemId: string, when: Date, supervisedById: string) =>
  mutate(shop, 'mechanic', 'clock', {
    kind: 'start',
    itemId,
    at: when.toISOString(),
    clientEventId: randomUUID(),
    supervisedById,
  });

describe('under whose supervision', () => {
  it('an apprentice is asked, and may name whoever works by themselves', async () => {
    const { shop } = await withApprentice();
    const bench = (role: Role) =>
      shop.as(role, '{ bench { supervised supervisors { name } } }').then(({ data }) => data);
    expect(await bench('mechanic')).toEqual({
      bench: {
        supervised: true,
        supervisors: [{ name: 'Able Other' }, { name: 'Test inspector' }],
      },
    });
    expect(await bench('inspector')).toEqual({ bench: { supervised: false, supervisors: [] } });
    expect(await bench('manager')).toMatchObject({
      bench: { supervised: false, supervisors: [{}, {}] },
    });
  });

  it('the hours stand with both, and a correction gives them to whom they belong', async () => {
    const { shop, items, other, inspector } = await withApprentice();
    now = at('12:00');
    expectDone(await startUnder(shop, items[0] ?? '', at('08:00'), other));
    expectDone(await clockAt(shop, 'mechanic', 'stop', null, at('10:30')));
    const record = async () => {
      const { data } = await shop.as<{ practiceRecord: { people: Record<string, unknown>[] } }>(
        'manager',
        '{ practiceRecord(from: "2031-05-05", to: "2031-05-05") { __typename ... on PracticeRecord { people { name worked supervised overseen } } } }',
      );
      return data?.practiceRecord.people;
    };
    expect(await record()).toEqual([
      { name: 'Able Other', worked: 0, supervised: 0, overseen: 2.5 },
      { name: 'Test mechanic', worked: 2.5, supervised: 2.5, overseen: 0 },
    ]);
    const began = async () => {
      const { data } = await shop.as<{
        node: { stretches: { began: { id: string }; supervisedBy: { name: string } | null }[] };
      }>(
        'mechanic',
        'query($id: ID!) { node(id: $id) { ... on WorkItem { stretches { began { id } supervisedBy { name } } } } }',
        { id: items[0] },
      );
      return data?.node.stretches[0];
    };
    const eventId = (await began())?.began.id;
    const correct = (role: Role, supervision: object | undefined, when = at('08:00')) =>
      mutate(shop, role, 'correctClock', {
        eventId,
        at: when.toISOString(),
        ...(supervision && { supervision }),
        reason: 'It was the other one',
        clientEventId: randomUUID(),
      });
    expectDone(await correct('mechanic', { byId: inspector }));
    expect((await began())?.supervisedBy).toEqual({ name: 'Test inspector' });
    // A better time says nothing of who supervised.
    expectDone(await correct('mechanic', undefined, at('08:30')));
    expect((await began())?.supervisedBy).toEqual({ name: 'Test inspector' });
    expect(await record()).toEqual([
      { name: 'Test inspector', worked: 0, supervised: 0, overseen: 2 },
      { name: 'Test mechanic', worked: 2, supervised: 2, overseen: 0 },
    ]);
    expectDone(await correct('manager', {}, at('08:30')));
    expect((await began())?.supervisedBy).toBeNull();
    expect(await record()).toEqual([
      { name: 'Test mechanic', worked: 2, supervised: 0, overseen: 0 },
    ]);
  });

  it('nobody supervises themselves, an apprentice nobody, and a stop has no supervision', async () => {
    const { shop, items, other } = await withApprentice();
    now = at('12:00');
    const self = globalId('Person', shop.people.mechanic.id);
    expectRefused(
      await startUnder(shop, items[0] ?? '', at('08:00'), self),
      'BAD_INPUT',
      /not an apprentice, and not oneself/,
    );
    expectDone(await startUnder(shop, items[0] ?? '', at('08:00'), other));
    expectDone(await clockAt(shop, 'mechanic', 'stop', null, at('10:00')));
    const events = await shop.inside((tx) => tx.clockEvent.findMany({ orderBy: { at: 'asc' } }));
    const correct = (index: number, byId: string) =>
      mutate(shop, 'mechanic', 'correctClock', {
        eventId: globalId('ClockEvent', events[index]?.id ?? ''),
        at: events[index]?.at.toISOString(),
        supervision: { byId },
        reason: 'Somebody else',
        clientEventId: randomUUID(),
      });
    expectRefused(await correct(0, self), 'BAD_INPUT', /not oneself/);
    expectRefused(await correct(1, other), 'BAD_INPUT', /A stop has no supervision/);
  });
});

describe('what a running clock comes to', () => {
  interface Ahead {
    node: { costSoFar: string; costAhead: { at: string; cost: string }[] };
  }
  const costs = async (shop: TestShop, id: string) => {
    const { data } = await shop.as<Ahead>(
      'mechanic',
      'query($id: ID!) { node(id: $id) { ... on WorkOrder { costSoFar costAhead { at cost } } } }',
      { id },
    );
    if (!data) throw new Error('no order');
    return data.node;
  };

  const soldAs = async (line: object) => {
    const shop = await makeShop(api);
    const [quoteLineId] = await makeAgreedQuote(shop, null, {
      lines: [line],
      ceilings: [100_000n],
    });
    const order = await makeOrder(shop, { items: [{ quoteLineId: quoteLineId ?? null }] });
    return { shop, order, itemId: order.items[0]?.id ?? '' };
  };

  it('is foretold step by step, and each step is what the order then costs', async () => {
    const { shop, order, itemId } = await soldAs({ unitPrice: '95.50' });
    await clockAt(shop, 'mechanic', 'start', itemId, at('08:00'));
    now = at('08:31');
    const { costAhead } = await costs(shop, order.id);
    // Tenths of an hour over eight hours.
    expect(costAhead).toHaveLength(80);
    expect(costAhead.map(({ at: when }) => when)).toEqual(
      costAhead.map(({ at: when }) => when).toSorted(),
    );
    for (const index of [0, 1, 37, 79]) {
      const step = costAhead[index];
      now = new Date(step?.at ?? '');
      expect((await costs(shop, order.id)).costSoFar, step?.at).toBe(step?.cost);
      now = new Date(+now - 60_000);
      expect((await costs(shop, order.id)).costSoFar, step?.at).not.toBe(step?.cost);
    }
  });

  it('stays as it is where nothing runs, or what runs was sold at a fixed price', async () => {
    now = at('12:00');
    const { shop, order, itemId } = await soldAs({ pricing: 'fixed', likelyMinor: 40_000n });
    expect((await costs(shop, order.id)).costAhead).toEqual([]);
    await clockAt(shop, 'mechanic', 'start', itemId, at('08:00'));
    expect(await costs(shop, order.id)).toEqual({ costSoFar: '40000', costAhead: [] });
  });
});
