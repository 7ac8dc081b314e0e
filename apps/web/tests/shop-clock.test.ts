import { expect, test } from 'vitest';
import { afterAnswer, isFresh, offsetAtSending } from '../lib/clock-offset.ts';

const DAY = 86_400_000;
const NOON = Date.parse('2031-05-06T12:00:00Z');

test('the first answer says how far the device’s clock is off, half of the way taken off', () => {
  // Asked at 0 s, heard at 4 s by a clock a day behind; the shop wrote its time in between.
  expect(
    afterAnswer(
      { offsetMs: 0, heard: 0 },
      { shop: NOON, asked: NOON - DAY, heard: NOON - DAY + 4000 },
    ),
  ).toEqual({ offsetMs: DAY - 2000, heard: NOON + 2000 });
});

test('whatever the way there and back, it is off by half of the round trip at most', () => {
  for (const offset of [-40 * DAY, -DAY, -1, 0, 61, DAY, 40 * DAY])
    for (const there of [0, 1, 40, 3000, 20_000])
      for (const back of [0, 1, 40, 3000, 20_000]) {
        const asked = NOON - offset;
        const answer = { shop: NOON + there, asked, heard: asked + there + back };
        const { offsetMs } = afterAnswer({ offsetMs: 0, heard: 0 }, answer);
        expect(Math.abs(offsetMs - offset)).toBeLessThanOrEqual((there + back) / 2 + 1);
      }
});

test('a little more or less changes nothing, so that two events keep their order; a clock that was set does', () => {
  const known = { offsetMs: 500, heard: NOON };
  const answer = (offset: number) => ({ shop: NOON, asked: NOON - offset, heard: NOON - offset });
  for (const offset of [500, -1500, 2500])
    expect(afterAnswer(known, answer(offset)).offsetMs).toBe(500);
  for (const offset of [-1501, 2501, DAY])
    expect(afterAnswer(known, answer(offset)).offsetMs).toBe(offset);
  // A slow answer explains more.
  expect(afterAnswer(known, { shop: NOON, asked: NOON, heard: NOON + 30_000 }).offsetMs).toBe(500);
});

test('what was known when something was noted counts, also when the clock was put right later', () => {
  const heard = NOON - 3600_000;
  const noted = { at: NOON + DAY, offsetMs: -DAY, heard };
  expect(offsetAtSending(noted, { shop: NOON + 7200_000, offsetMs: 0 })).toBe(-DAY);
});

test('a clock that was set between the last answer and the event is seen by the next answer', () => {
  const heard = NOON - 3600_000;
  // It had been right; somebody set it a day ahead, then noted this at noon.
  const noted = { at: NOON + DAY, offsetMs: 0, heard };
  expect(offsetAtSending(noted, { shop: NOON + 7200_000, offsetMs: -DAY })).toBe(-DAY);
  // A telephone that fell back to its first day, and still is there.
  const first = { at: Date.parse('1970-01-01T00:10:00Z'), offsetMs: 0, heard };
  const years = NOON - first.at;
  expect(offsetAtSending(first, { shop: NOON + 7200_000, offsetMs: years })).toBe(years);
});

test('where neither can be true, it counts between the last answer before it and now', () => {
  const heard = NOON - 3600_000;
  const sending = { shop: NOON + 7200_000, offsetMs: 0 };
  const early = { at: 0, offsetMs: 0, heard };
  expect(early.at + offsetAtSending(early, sending)).toBe(heard);
  const late = { at: NOON + 9 * DAY, offsetMs: 0, heard };
  expect(late.at + offsetAtSending(late, sending)).toBe(sending.shop);
});

test('it always counts between the last answer before it and now', () => {
  const offsets = [-NOON, -DAY, -1, 0, 3000, DAY, NOON];
  for (const at of [0, NOON - DAY, NOON, NOON + 1, NOON + DAY, 2 * NOON])
    for (const offsetMs of offsets)
      for (const later of offsets)
        for (const waited of [0, 1, 60_000, DAY, 30 * DAY]) {
          const shop = NOON + waited;
          const noted = { at, offsetMs, heard: NOON };
          const counts = at + offsetAtSending(noted, { shop, offsetMs: later });
          expect(counts).toBeGreaterThanOrEqual(NOON - 2000);
          expect(counts).toBeLessThanOrEqual(shop + 2000);
        }
});

test('a device that was set since the last answer, or has not heard for long, hears the shop first', () => {
  const known = { offsetMs: -86_400_000, heard: 1_000_000 };
  const device = known.heard - known.offsetMs;
  expect(isFresh(known, device + 59_000)).toBe(true);
  expect(isFresh(known, device + 61_000)).toBe(false);
  expect(isFresh(known, device - 2 * 86_400_000)).toBe(false);
  expect(isFresh({ offsetMs: 0, heard: 0 }, 10)).toBe(false);
});
