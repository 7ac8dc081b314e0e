import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { at, benchOf, DAY_MS, type Phone, phone, stretches } from './late-phone.ts';
import { expectDone, mutate } from './orders.ts';

/** What a telephone gathered while it was away, sent at once. */

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
type Sent = ['start' | 'switch' | 'stop', string | undefined, Date, string?];
interface Many {
  clockMany: {
    __typename: string;
    answers: { clientEventId: string; refusal: string | null }[];
    remarks: { clientEventId: string; words: string }[];
  };
}
/** All that a phone has gathered, at once. */
async function sendAll(shop: TestShop, device: Phone, sent: readonly Sent[]) {
  const events = sent.map(([kind, itemId, really, clientEventId = randomUUID()]) => ({
    kind,
    itemId,
    at: new Date(really.getTime() - device.clockOffsetMs).toISOString(),
    clientEventId,
    device,
  }));
  const answer = await shop.as<Many>(
    'mechanic',
    `mutation($events: [ClockInput!]!) { clockMany(input: { events: $events }) { __typename ... on Refusal { message }
      ... on ClockAnswers { answers { clientEventId refusal } remarks { clientEventId words } } } }`,
    { events },
  );
  if (!answer.data) throw new Error(JSON.stringify(answer));
  const { answers, remarks } = answer.data.clockMany;
  expect(answers.map(({ clientEventId }) => clientEventId)).toEqual(
    events.map(({ clientEventId }) => clientEventId),
  );
  return {
    refusals: answers.map(({ refusal }) => refusal),
    remarks: remarks.map(({ words }) => words),
  };
}

describe('what a clock did while its phone was away comes at once', () => {
  it('each event is recorded or refused by itself, in its order, and sent again nothing is added', async () => {
    const { shop, items } = await bench(2);
    const device = phone(-DAY_MS);
    const other = randomUUID();
    expectDone(
      await mutate(shop, 'inspector', 'clock', {
        kind: 'stop',
        at: at('07:00').toISOString(),
        clientEventId: other,
      }),
    );
    const sent: Sent[] = [
      ['start', items[0], at('08:00'), randomUUID()],
      ['switch', items[1], at('09:00'), randomUUID()],
      ['start', globalId('WorkItem', randomUUID()), at('09:10'), randomUUID()],
      ['start', shop.aircraftId, at('09:20'), randomUUID()],
      ['switch', undefined, at('09:25'), randomUUID()],
      ['start', items[0], at('09:30'), other],
      ['stop', items[1], at('10:00'), randomUUID()],
    ];
    for (const again of [false, true, true]) {
      const { refusals } = await sendAll(shop, device, again ? [...sent].reverse() : sent);
      expect(again ? refusals.reverse() : refusals).toEqual([
        null,
        null,
        expect.stringMatching(/no such item/),
        expect.stringMatching(/not an id/),
        expect.stringMatching(/without an item/),
        expect.stringMatching(/for somebody else/),
        null,
      ]);
      expect(await stretches(shop)).toEqual([
        [items[0], '2031-05-06T08:00:00.000Z', '2031-05-06T09:00:00.000Z'],
        [items[1], '2031-05-06T09:00:00.000Z', '2031-05-06T10:00:00.000Z'],
      ]);
    }
    expect(await shop.inside((tx) => tx.clockEvent.count())).toBe(4);
  });

  it('a clock that is thought to be ahead of the shop keeps its order', async () => {
    const { shop, items } = await bench(2);
    await sendAll(shop, phone(), [
      ['start', items[0], at('11:00')],
      ['stop', items[0], at('12:10')],
      ['start', items[1], at('12:11')],
      ['switch', items[0], at('12:12')],
      ['stop', items[0], at('12:13')],
      ['start', items[1], at('12:14')],
    ]);
    const ends = await stretches(shop);
    expect(ends.map(([item]) => item)).toEqual([items[0], items[1], items[0], items[1]]);
    expect(ends.at(-1)).toEqual([items[1], '2031-05-06T12:00:00.000Z', null]);
  });

  it('200 come at once; more are refused by their number', async () => {
    const { shop, items } = await bench();
    const minutes = Array.from(
      { length: 200 },
      (_, n): Sent => [
        n % 2 === 0 ? 'start' : 'stop',
        items[0],
        new Date(at('02:00').getTime() + n * 60_000),
      ],
    );
    expect((await sendAll(shop, phone(), minutes)).refusals.every((each) => each === null)).toBe(
      true,
    );
    expect(await stretches(shop)).toHaveLength(100);
    await expect(
      sendAll(shop, phone(), [...minutes, ['stop', undefined, at('11:00')]]),
    ).rejects.toThrow();
  });

  it('its person is told what went on meanwhile: somebody closed the item, or put it off', async () => {
    const { shop, items } = await bench(2);
    now = at('09:00');
    expectDone(
      await mutate(shop, 'inspector', 'finishItem', { itemId: items[0], workDone: 'All done.' }),
    );
    expectDone(
      await mutate(shop, 'inspector', 'putOffItem', { itemId: items[1], reason: 'Next visit.' }),
    );
    now = at('12:00');
    const { remarks } = await sendAll(shop, phone(), [
      ['start', items[0], at('08:30')],
      ['switch', items[1], at('08:45')],
      ['switch', items[0], at('08:50')],
      ['stop', items[0], at('10:00')],
    ]);
    expect(remarks).toEqual([
      '“Test item 1”: Test inspector said that it is done at 09:00 on 6 May 2031. What you clocked stays on it, and the desk sees it.',
      '“Test item 2”: Test inspector put it off at 09:00 on 6 May 2031. What you clocked stays on it, and the desk sees it.',
    ]);
    expect(await stretches(shop)).toHaveLength(3);
  });

  it('the order was cancelled', async () => {
    const { shop, items, orderId } = await bench();
    await shop.inside((tx) => tx.orderEvent.create({ data: { orderId, kind: 'cancelled' } }));
    const { remarks } = await sendAll(shop, phone(), [['start', items[0], at('08:30')]]);
    expect(remarks).toEqual([
      expect.stringMatching(/order \d+ was cancelled meanwhile\. What you/),
    ]);
  });

  it('two devices of one person: the later start ends the earlier, and the late phone is told', async () => {
    const { shop, items } = await bench(2);
    const [tablet, pocket] = [phone(), phone(DAY_MS)];
    await sendAll(shop, tablet, [['start', items[1], at('10:30')]]);
    const { remarks } = await sendAll(shop, pocket, [['start', items[0], at('10:00')]]);
    expect(remarks).toEqual([
      'Your clock went on to “Test item 2” elsewhere at 10:30 on 6 May 2031: this counts until then.',
    ]);
    expect(await stretches(shop)).toEqual([
      [items[0], '2031-05-06T10:00:00.000Z', '2031-05-06T10:30:00.000Z'],
      [items[1], '2031-05-06T10:30:00.000Z', null],
    ]);
  });

  it('nothing is said of what comes at once, or was followed by the same phone', async () => {
    const { shop, items } = await bench(2);
    const device = phone();
    for (const time of ['12:00', '08:00'])
      expect((await sendAll(shop, device, [['start', items[0], at(time)]])).remarks).toEqual([]);
  });
});
