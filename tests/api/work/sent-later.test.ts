import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import { momentOf } from '@fairlead/api/work/device-moment';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { at, benchOf, DAY_MS, type Phone, phone, stretches } from './late-phone.ts';
import { expectDone, expectRefused, mutate } from './orders.ts';

/** What telephones send late, twice, or with a clock that is wrong. */

let api: TestApi;
let now = new Date('2031-05-06T12:00:00Z');
beforeAll(async () => {
  api = await startApi({ now: () => now });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const bench = (count = 1) => {
  now = at('12:00');
  return benchOf(api, count);
};
/** A clock event as a phone sends it whose clock is off: it says what its own clock said. */
const clockOn = (
  shop: TestShop,
  device: Phone,
  kind: 'start' | 'switch' | 'stop',
  itemId: string | undefined,
  really: Date,
  clientEventId: string = randomUUID(),
) =>
  mutate(
    shop,
    'mechanic',
    'clock',
    {
      kind,
      itemId,
      at: new Date(really.getTime() - device.clockOffsetMs).toISOString(),
      clientEventId,
      device,
    },
    'at deviceAt',
  );
const noted = (really: Date, device = phone(), clientEventId: string = randomUUID()) => ({
  at: new Date(really.getTime() - device.clockOffsetMs).toISOString(),
  clientEventId,
  device,
});
describe('the clock of a phone', () => {
  it('that is wrong by a day, ahead or behind, gives the right stretch, and what it showed is kept', async () => {
    for (const offset of [DAY_MS, -DAY_MS, 0, 61 * 365 * DAY_MS]) {
      const { shop, items } = await bench();
      const device = phone(offset);
      const start = await clockOn(shop, device, 'start', items[0], at('08:00'));
      expect(start).toMatchObject({
        at: '2031-05-06T08:00:00.000Z',
        deviceAt: new Date(at('08:00').getTime() - offset).toISOString(),
      });
      expectDone(await clockOn(shop, device, 'stop', items[0], at('09:30')));
      expect(await stretches(shop)).toEqual([
        [items[0], '2031-05-06T08:00:00.000Z', '2031-05-06T09:30:00.000Z'],
      ]);
    }
  });

  it('cannot make anything happen after the shop was told of it', async () => {
    const { shop, items } = await bench();
    const start = await clockOn(shop, phone(), 'start', items[0], at('12:05'));
    expect(start).toMatchObject({ at: now.toISOString(), deviceAt: at('12:05').toISOString() });
  });

  it('is refused where its time cannot be true, with what is needed', async () => {
    const { shop, items } = await bench();
    const send = (given: string, clockOffsetMs: number, id: string = randomUUID()) =>
      mutate(shop, 'mechanic', 'clock', {
        kind: 'start',
        itemId: items[0],
        at: given,
        clientEventId: randomUUID(),
        device: { id, clockOffsetMs },
      });
    expectRefused(
      await send('1970-01-01T00:10:00Z', 0),
      'BAD_INPUT',
      /1970-01-01T00:10:00\.000Z by the device.*from 2000 on/,
    );
    expectRefused(await send('2031-05-06T08:00:00Z', 1e14), 'BAD_INPUT', /at most 200 years/);
    expectRefused(await send('2031-05-06T08:00:00Z', 0, 'a phone'), 'BAD_INPUT', /a UUID/);
    expect(() => momentOf(now, { id: randomUUID(), clockOffsetMs: Number.NaN }, now)).toThrow(
      /clockOffsetMs is NaN/,
    );
  });

  it('is read from every answer: the shop says its own time', async () => {
    const response = await fetch(`${api.origin}/healthz`);
    expect(response.headers.get('fairlead-time')).toBe(String(now.getTime()));
  });
});

describe('what happens to an item', () => {
  const finish = (
    shop: TestShop,
    itemId: string | undefined,
    given: object,
    role: 'mechanic' | 'inspector' = 'mechanic',
  ) =>
    mutate(
      shop,
      role,
      'finishItem',
      { itemId, workDone: 'Hose replaced, leak check good.', noted: given },
      'state events { kind at }',
    );

  it('counts from when it was noted, also by a phone whose clock is wrong', async () => {
    const { shop, items } = await bench();
    const done = await finish(shop, items[0], noted(at('16:40', '05'), phone(DAY_MS)));
    expect(done).toMatchObject({
      state: 'done',
      events: [{ kind: 'done', at: '2031-05-05T16:40:00.000Z' }],
    });
    const [row] = await shop.inside((tx) => tx.itemEvent.findMany());
    expect(row?.deviceAt).toEqual(at('16:40', '04'));
  });

  it('sent twice, and again after it went on, counts once and is answered as at first', async () => {
    const { shop, items } = await bench();
    const itemId = items[0];
    const device = phone();
    const wait = { itemId, waitingFor: 'parts', noted: noted(at('08:00'), device) };
    const resume = { itemId, noted: noted(at('09:00'), device) };
    const done = noted(at('10:00'), device);
    const reopen = { itemId, reason: 'Not finished after all.', noted: noted(at('11:00'), device) };
    const putOff = { itemId, reason: 'Next visit.', noted: noted(at('11:30'), device) };
    const all = [
      () => mutate(shop, 'inspector', 'waitItem', wait, 'state'),
      () => mutate(shop, 'inspector', 'resumeItem', resume, 'state'),
      () => finish(shop, itemId, done, 'inspector'),
      () => mutate(shop, 'inspector', 'reopenItem', reopen, 'state'),
      () => mutate(shop, 'inspector', 'putOffItem', putOff, 'state'),
    ];
    for (const send of all) (await Promise.all([send(), send(), send()])).map(expectDone);
    for (const send of all) expect(expectDone(await send())).toMatchObject({ state: 'put_off' });
    const events = await shop.inside((tx) => tx.itemEvent.findMany({ orderBy: { at: 'asc' } }));
    expect(events.map(({ kind, at: when }) => [kind, when.toISOString().slice(11, 16)])).toEqual([
      ['waiting', '08:00'],
      ['resumed', '09:00'],
      ['done', '10:00'],
      ['reopened', '11:00'],
      ['put_off', '11:30'],
    ]);
  });

  it('another thing under the same id is refused', async () => {
    const { shop, items } = await bench(2);
    const given = noted(at('10:00'));
    expectDone(await finish(shop, items[0], given));
    for (const [role, itemId] of [
      ['mechanic', items[1]],
      ['inspector', items[0]],
    ] as const)
      expectRefused(await finish(shop, itemId, given, role), 'CONFLICT', /needed is a new one/);
  });

  it('noted before something that the shop recorded first counts after it', async () => {
    const { shop, items } = await bench();
    expectDone(
      await mutate(shop, 'inspector', 'waitItem', { itemId: items[0], waitingFor: 'help' }),
    );
    const done = await finish(shop, items[0], noted(at('09:00')));
    expect(done).toMatchObject({
      state: 'done',
      events: [{ kind: 'waiting' }, { kind: 'done', at: '2031-05-06T12:00:00.001Z' }],
    });
  });

  it('is refused with who came first, when, and with which words', async () => {
    const { shop, items } = await bench();
    expectDone(await finish(shop, items[0], noted(at('10:40')), 'inspector'));
    expectRefused(
      await finish(shop, items[0], noted(at('09:00'))),
      'CONFLICT',
      /it is done; needed .* Test inspector said that it is done at 10:40 on 6 May 2031: “Hose replaced, leak check good\.”/,
    );
    expectRefused(
      await mutate(shop, 'mechanic', 'waitItem', {
        itemId: items[0],
        waitingFor: 'parts',
        noted: noted(at('11:00')),
      }),
      'CONFLICT',
      /Test inspector said that it is done/,
    );
  });

  it('whoever takes up a waiting item with the network down ends the wait when they did', async () => {
    const { shop, items } = await bench();
    now = at('07:00');
    expectDone(
      await mutate(shop, 'inspector', 'waitItem', { itemId: items[0], waitingFor: 'help' }),
    );
    now = at('12:00');
    const device = phone();
    expectDone(await clockOn(shop, device, 'start', items[0], at('08:00')));
    expectDone(await clockOn(shop, device, 'stop', items[0], at('09:00')));
    const done = await finish(shop, items[0], noted(at('09:00'), device));
    expect(done).toMatchObject({
      state: 'done',
      events: [
        { kind: 'waiting' },
        { kind: 'resumed', at: '2031-05-06T08:00:00.000Z' },
        { kind: 'done', at: '2031-05-06T09:00:00.000Z' },
      ],
    });
  });

  it('cautions count from when they were read', async () => {
    const { shop, items } = await bench();
    const input = { itemId: items[0], noted: noted(at('07:55'), phone(-DAY_MS)) };
    for (let sent = 0; sent < 2; sent += 1)
      expectDone(await mutate(shop, 'mechanic', 'readCautions', input));
    const rows = await shop.inside((tx) => tx.cautionReading.findMany());
    expect(rows.map((row) => row.at)).toEqual([at('07:55')]);
  });
});

describe('a finding', () => {
  it('counts from when it was found, by whatever clock', async () => {
    const { shop, orderId } = await bench();
    const device = phone(-DAY_MS);
    const finding = await mutate(
      shop,
      'mechanic',
      'noteFinding',
      {
        orderId: globalId('WorkOrder', orderId),
        title: 'Chafed line',
        words: '',
        zone: '',
        class: 'discrepancy',
        photoIds: [],
        foundAt: new Date(at('09:00').getTime() + DAY_MS).toISOString(),
        clientEventId: randomUUID(),
        device,
      },
      'foundAt',
    );
    expect(finding).toMatchObject({ foundAt: '2031-05-06T09:00:00.000Z' });
    const [row] = await shop.inside((tx) => tx.finding.findMany());
    expect(row).toMatchObject({ deviceAt: at('09:00', '07'), deviceId: device.id });
  });
});

describe('a device that changes hands', () => {
  it('sends what somebody noted only while they are signed in', async () => {
    const { shop, items } = await bench();
    const send = async (person: string) => {
      const response = await fetch(`${api.origin}/graphql`, {
        method: 'POST',
        headers: {
          'content-type': 'application/json',
          'apollo-require-preflight': '1',
          cookie: await shop.cookie('mechanic'),
          'fairlead-person': globalId('Person', person),
        },
        body: JSON.stringify({
          query: `mutation { clock(input: { kind: start, itemId: "${items[0]}", at: "${at('08:00').toISOString()}", clientEventId: "${randomUUID()}" }) { __typename ... on Refusal { code } } }`,
        }),
      });
      return (await response.json()) as unknown;
    };
    expect(await send(shop.people.inspector.id)).toEqual({
      data: { clock: { __typename: 'Refusal', code: 'SIGN_IN_NEEDED' } },
    });
    expect(await stretches(shop)).toEqual([]);
    expect(await send(shop.people.mechanic.id)).toEqual({
      data: { clock: { __typename: 'ClockEvent' } },
    });
  });
});
