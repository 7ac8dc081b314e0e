import ICAL from 'ical.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { add, aircraft, flown, NOW, record } from './flown.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => NOW });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

describe('a calendar (RFC 5545), read by another library', () => {
  const feed = async (shop: TestShop, all = false) =>
    (
      await shop.as<{ makeDueFeed: { path: string } }>(
        'front_desk',
        'mutation($id: ID) { makeDueFeed(aircraftId: $id) { ... on DueFeedAddress { path } } }',
        { id: all ? null : aircraft(shop) },
      )
    ).data?.makeDueFeed.path ?? '';
  const read = async (path: string) => {
    const response = await fetch(`${api.origin}${path}`);
    return {
      status: response.status,
      type: response.headers.get('content-type'),
      text: await response.text(),
    };
  };
  it('has each item on its day; by hours on the day of its busiest use', async () => {
    const shop = await flown(api);
    const hundred = await add(shop);
    const annual = await add(shop, { title: 'Annual; list, 4', rule: 'annual' });
    await add(shop, { title: 'Not reckoned', rule: 'annual' });
    await record(shop, hundred.id ?? '', { doneOn: '2025-12-01', tisHundredths: 123_450 });
    await record(shop, annual.id ?? '', { doneOn: '2025-03-10' });
    const answer = await read(await feed(shop));
    expect([answer.status, answer.type]).toEqual([200, 'text/calendar; charset=utf-8']);
    const calendar = new ICAL.Component(ICAL.parse(answer.text));
    const events = calendar.getAllSubcomponents('vevent').map((each) => new ICAL.Event(each));
    expect(
      events.map(({ summary, startDate, endDate }) => [
        summary.replace(/^QQ-\w+: /, ''),
        startDate.isDate,
        String(startDate),
        String(endDate),
      ]),
    ).toEqual([
      ['Annual; list, 4', true, '2026-03-31', '2026-04-01'],
      ['100-hour (about)', true, '2026-04-17', '2026-04-18'],
    ]);
    expect(events[0]?.description).toMatch(/91\.409\(a\)[\s\S]*Due dates are aids/);
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(2);
    const every = answer.text.split('\r\n');
    expect(Math.max(...every.map((line) => Buffer.byteLength(line)))).toBeLessThanOrEqual(75);
  });
  it('opens by its address alone, which a new one ends; of the shop it has every aircraft', async () => {
    const [shop, other] = [await flown(api), await flown(api)];
    for (const each of [shop, other]) {
      const { id = '' } = await add(each, { rule: 'annual' });
      await record(each, id);
    }
    const first = await feed(shop);
    const second = await feed(shop);
    expect([(await read(first)).status, (await read(second)).status]).toEqual([404, 200]);
    const all = await read(await feed(shop, true));
    expect(all.text.match(/BEGIN:VEVENT/g)).toHaveLength(1);
    expect((await read('/due/guessed.ics')).status).toBe(404);
  });
});
