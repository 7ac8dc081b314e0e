import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { add, flown, NOW, record } from './flown.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => NOW });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

describe('is refused', () => {
  it.each<[string, Record<string, unknown>, RegExp]>([
    ['a directive without its number', { kind: 'directive' }, /91\.417\(a\)\(2\)\(v\)/],
    ['an interval of nothing', { rule: 'recurring' }, /recurring needs how often/],
    ['an interval that is none', { rule: 'recurring', everyMonths: 0 }, /everyMonths is 0/],
    [
      'calendar months without how many',
      { rule: 'calendar_months' },
      /needs how many calendar months/,
    ],
    [
      'terms that the rule has itself',
      { everyHundredths: 5000 },
      /everyHundredths was given with the rule hundred_hour/,
    ],
    ['a life without its end', { rule: 'life_limit' }, /needs the limit/],
    ['no name', { title: ' ' }, /title has 0 characters/],
  ])('%s', async (_, over, words) => {
    const shop = await flown(api);
    expect(await add(shop, over)).toMatchObject({
      code: 'BAD_INPUT',
      message: expect.stringMatching(words),
    });
    expect(await shop.inside((tx) => tx.dueItem.count())).toBe(0);
  });
  it.each<[string, Record<string, unknown>, RegExp]>([
    ['compliance in the future', { doneOn: '2026-03-15' }, /today is 2026-03-14/],
    [
      'more hours than the aircraft has',
      { tisHundredths: 130_001 },
      /newest reading of .* is 1300\.0 h/,
    ],
    ['hours left out where they count', {}, /counts hours/],
    ['no method', { tisHundredths: 1, method: '' }, /method has 0 characters/],
  ])('%s', async (_, over, words) => {
    const shop = await flown(api);
    const { id = '' } = await add(shop);
    expect(await record(shop, id, over)).toMatchObject({
      code: 'BAD_INPUT',
      message: expect.stringMatching(words),
    });
    expect(await shop.inside((tx) => tx.dueEvent.count())).toBe(0);
  });
  it('from a mechanic, and for what is before the last time', async () => {
    const shop = await flown(api);
    expect((await add(shop, {}, 'mechanic')).code).toBe('FORBIDDEN');
    const { id = '' } = await add(shop);
    await record(shop, id, { tisHundredths: 125_000 });
    expect(
      (await record(shop, id, { doneOn: '2025-01-01', tisHundredths: 120_000 })).message,
    ).toMatch(/last done on 2026-01-20 at 1250\.0 h/);
    // The same again is the same.
    expect(await record(shop, id, { tisHundredths: 125_000 })).toEqual({ id });
    expect(await shop.inside((tx) => tx.dueEvent.count())).toBe(1);
  });
});
