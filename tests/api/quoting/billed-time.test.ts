/** What a quote says is what the bill will: the drawn hours of an item are rounded as the invoice rounds the clock. */
import { billedHours, secondsFrom } from '@fairlead/money';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { addJobs, learn, makeShop, makeTask } from '../../support/shop.ts';
import { draft, forOwner, gid, quoted, tasksOf } from './quoting-shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

/** Minor units of an hour in a test's shop. */
const RATE = 9500n;
const billedAs = '{ ... on QuoteRevision { billedAs } }';

it('a task of 0.2 h is quoted at the minimum of 1.0 h that it will be billed, low, likely and high alike', async () => {
  const shop = await makeShop(api, { billingMinimum: '1.0' });
  const task = await makeTask(shop, { title: 'Replace a bulb' });
  await addJobs(
    shop,
    task.key,
    Array.from({ length: 40 }, (_, k) => 0.2 * (0.95 + k / 400)),
  );
  await learn(shop);
  const { newest } = quoted(await draft(shop, { ...forOwner(shop), tasks: tasksOf([task]) }));
  const [line] = newest.lines;
  expect(line?.hours?.p90).toBeLessThan(0.5);
  const hour = String(RATE);
  for (const of of [line, newest])
    expect(of).toMatchObject({ low: hour, likely: hour, p80: hour, high: hour });
});

it('two small tasks are two minimums, beside one that takes long in its own steps', async () => {
  const shop = await makeShop(api, { billingMinimum: '1.0', billingStep: '0.5' });
  const small = [await makeTask(shop), await makeTask(shop)];
  const long = await makeTask(shop);
  for (const [at, { key }] of [...small, long].entries())
    await addJobs(
      shop,
      key,
      Array.from({ length: 40 }, (_, k) => (at === 2 ? 6 : 0.1) * (0.9 + k / 200)),
    );
  await learn(shop);
  const { newest } = quoted(
    await draft(shop, { ...forOwner(shop), tasks: tasksOf([...small, long]) }),
  );
  const rule = { step: '0.5', rounding: 'up', minimum: '1.0' } as const;
  const tenths = (amount: string) => (BigInt(amount) * 10n) / RATE;
  for (const [figure, hours] of [
    ['low', 'p10'],
    ['likely', 'p50'],
    ['high', 'p90'],
  ] as const) {
    const own = Number(billedHours(secondsFrom(newest.lines[2]?.hours?.[hours] ?? 0), rule));
    expect(newest.lines[2]?.[figure]).toBe(String(BigInt(own * 10) * (RATE / 10n)));
    // Two hours of minimums, and what is drawn of the long one: within a step of its own quantile.
    expect(Number(tenths(newest[figure])) / 10 - 2).toBeGreaterThanOrEqual(own - 0.5);
    expect(Number(tenths(newest[figure])) / 10 - 2).toBeLessThanOrEqual(own + 0.5);
    // Any draw is a whole number of steps.
    expect(Number(tenths(newest[figure])) % 5).toBe(0);
  }
});

it('a quote says by which rule it was foretold, also after the shop bills by another', async () => {
  const shop = await makeShop(api, { billingMinimum: '0.5' });
  const quote = quoted(
    await draft(shop, { ...forOwner(shop), tasks: tasksOf([await makeTask(shop)]) }),
  );
  await shop.inside((tx) => tx.shop.updateMany({ data: { billingMinimum: null } }));
  const { data } = await shop.as<{ node: { newest: { billedAs: string } } }>(
    'front_desk',
    `query ($id: ID!) { node(id: $id) { ... on Quote { newest ${billedAs} } } }`,
    { id: quote.id },
  );
  expect(data?.node.newest.billedAs).toBe(
    'The time on an item is billed in steps of 0.1 h, a step begun counts whole, at least 0.5 h; the amounts are foretold so.',
  );
  const forecast = await shop.as<{ quoteForecast: { billedAs: string } }>(
    'front_desk',
    'query ($input: QuoteForecastInput!) { quoteForecast(input: $input) { ... on QuoteForecast { billedAs } } }',
    {
      input: {
        aircraftId: gid('Aircraft', shop.aircraftId),
        tasks: tasksOf([await makeTask(shop)]),
      },
    },
  );
  expect(forecast.data?.quoteForecast.billedAs).not.toContain('at least');
});
