import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import {
  decide,
  draft,
  forOwner,
  gid,
  makeTasks,
  quoted,
  sentQuote,
  tasksOf,
  yesTo,
} from './quoting-shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

/** What a list of quotes asks for, each with its lines. */
const LIST = `{ quotes(first: 100) { totalCount edges { node { number title state contact { name } aircraft { registration model { name } } package { title }
  newest { revision likely high tax sentAt lines { title likely task { key } part { number } hours { p50 } because { sentence } } decisions { choice contact { name } recordedBy { name } } } } } } }`;

const draftMany = async (shop: TestShop, count: number) => {
  for (let made = 0; made < count; made += 1) {
    const quote = await sentQuote(shop, { tasks: tasksOf(await makeTasks(shop, 2)) });
    if (made % 2 === 0) quoted(await decide(shop, yesTo(shop, quote)));
  }
};

const listed = async (shop: TestShop) => {
  await shop.cookie('front_desk');
  let answer:
    | Awaited<
        ReturnType<
          typeof shop.as<{
            quotes: { totalCount: number; edges: { node: { newest: { lines: unknown[] } } }[] };
          }>
        >
      >
    | undefined;
  const statements = await api.statementsOf(async () => {
    answer = await shop.as('front_desk', LIST);
  });
  expect(answer?.errors).toBeUndefined();
  return { statements, edges: answer?.data?.quotes.edges ?? [] };
};

describe('the number of SQL statements', () => {
  it('of a list of quotes with their lines is the same for 5 and for 25', async () => {
    const shop = await makeShop(api);
    await draftMany(shop, 5);
    const few = await listed(shop);
    await draftMany(shop, 20);
    const many = await listed(shop);
    expect([few.edges.length, many.edges.length]).toEqual([5, 25]);
    expect(many.edges.every(({ node }) => node.newest.lines.length === 2)).toBe(true);
    expect(many.statements).toHaveLength(few.statements.length);
    expect(few.statements.length).toBeGreaterThan(0);
    console.info(`a list of quotes takes ${few.statements.length} statements`);
  });

  it('of a draft, of a forecast and of a yes is the same for 5 tasks and for 40', async () => {
    const shop = await makeShop(api);
    const tasks = tasksOf(await makeTasks(shop, 40));
    const forecast =
      'query ($input: QuoteForecastInput!) { quoteForecast(input: $input) { ... on QuoteForecast { high lines { title } } } }';
    const counted = async (count: number) => {
      const input = { ...forOwner(shop), tasks: tasks.slice(0, count) };
      // The second draft of a shop finds its model open.
      await sentQuote(shop);
      let quote = await sentQuote(shop);
      const drafted = await api.statementsOf(async () => {
        quote = quoted(await draft(shop, input));
      });
      expect(quote.newest.lines).toHaveLength(count);
      const foretold = await api.statementsOf(() =>
        shop.as('front_desk', forecast, {
          input: { aircraftId: gid('Aircraft', shop.aircraftId), tasks: input.tasks },
        }),
      );
      const sent = await sentQuote(shop, input);
      const agreed = await api.statementsOf(async () =>
        quoted(await decide(shop, yesTo(shop, sent))),
      );
      return [drafted.length, foretold.length, agreed.length];
    };
    const five = await counted(5);
    expect(await counted(40)).toEqual(five);
    expect(Math.min(...five)).toBeGreaterThan(0);
    console.info(`statements of a draft, a forecast, a yes: ${five.join(', ')}`);
  });
});
