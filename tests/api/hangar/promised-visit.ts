import { globalId as gid } from '@fairlead/api/ids';
import type { TestApi } from '../../support/api.ts';
import { openInTheWeek } from '../../support/open-in-the-week.ts';
import { makeShop, makeTask, type TestShop } from '../../support/shop.ts';

/** Monday, 30 November 2026, 08:00 in the shop, which keeps UTC. */
export const MONDAY = new Date('2026-11-30T08:00:00Z');

export const PROMISE = `beginsOn outcome p50 p80 atBestP50 atBestP80 sentence hoursP50 hoursP80 parts { work away others waits } waits { words until }`;
export interface Promised {
  beginsOn: string;
  outcome: string;
  p50: string | null;
  p80: string | null;
  atBestP50: string | null;
  atBestP80: string | null;
  sentence: string;
  hoursP50: number;
  hoursP80: number;
  parts: { work: number; away: number; others: number; waits: number } | null;
  waits: { words: string; until: string | null }[];
}

/** A shop that is open Monday to Friday from 8 to 16; its mechanic and its inspector are in then. */
export async function openShop(api: TestApi): Promise<TestShop> {
  const shop = await makeShop(api);
  await openInTheWeek(shop, 8, 16);
  return shop;
}
export const away = (shop: TestShop, personId: string | null, firstDay: string, lastDay: string) =>
  shop.inside((tx) =>
    tx.dayException.create({
      data: {
        shopId: shop.shopId,
        personId,
        firstDay: new Date(firstDay),
        lastDay: new Date(lastDay),
        reason: 'Away',
      },
    }),
  );

export async function forecast(shop: TestShop, over: Record<string, unknown>): Promise<Promised> {
  const answer = await shop.as<{ quoteForecast: { promise: Promised } }>(
    'front_desk',
    `query ($input: QuoteForecastInput!) { quoteForecast(input: $input) { ... on Refusal { message } ... on QuoteForecast { promise { ${PROMISE} } } } }`,
    { input: { aircraftId: gid('Aircraft', shop.aircraftId), ...over } },
  );
  if (!answer.data?.quoteForecast.promise) throw new Error(JSON.stringify(answer));
  return answer.data.quoteForecast.promise;
}
/** A task whose hours are all but certain, so that days can be counted by hand: the model's own doubt is what is left. */
export const tasks = async (shop: TestShop, ...hours: number[]) =>
  Promise.all(
    hours.map(async (standardHours, index) => ({
      taskId: gid('Task', (await makeTask(shop, { title: `Task ${index + 1}`, standardHours })).id),
    })),
  );

const MUTATE = (name: string, type: string, of: string) =>
  `mutation ($input: ${type}!) { ${name}(input: $input) { __typename ... on Refusal { code message field } ${of} } }`;
export async function change(
  shop: TestShop,
  name: string,
  type: string,
  input: Record<string, unknown>,
  of: string,
  role: Parameters<TestShop['as']>[0] = 'front_desk',
) {
  const answer = await shop.as<Record<string, Record<string, unknown>>>(
    role,
    MUTATE(name, type, of),
    { input },
  );
  const given = answer.data?.[name];
  if (!given) throw new Error(`${name}: ${JSON.stringify(answer)}`);
  return given as { __typename: string; code: string; message: string; id: string } & Record<
    string,
    unknown
  >;
}

/** A visit that the owner agreed to, not arrived. */
export async function agreedVisit(shop: TestShop, ...hours: number[]) {
  const quote = await change(
    shop,
    'draftQuote',
    'DraftQuoteInput',
    {
      aircraftId: gid('Aircraft', shop.aircraftId),
      contactId: gid('Contact', shop.contactId),
      tasks: await tasks(shop, ...hours),
    },
    `... on Quote { id newest { promise { ${PROMISE} } } }`,
  );
  await change(
    shop,
    'sendQuote',
    'SendQuoteInput',
    { quoteId: quote.id, revision: 1, channel: 'email' },
    '... on Quote { id }',
  );
  const said = await change(
    shop,
    'recordDecision',
    'RecordDecisionInput',
    {
      quoteId: quote.id,
      revision: 1,
      contactId: gid('Contact', shop.contactId),
      choice: 'go_ahead',
      channel: 'telephone',
      wordsShown: 'What it may cost.',
    },
    '... on Quote { order { id items { id } } }',
  );
  const order = said.order as { id: string; items: { id: string }[] };
  return { quote: quote as typeof quote & { newest: { promise: Promised } }, order };
}
export const receive = (shop: TestShop, orderId: string) =>
  change(
    shop,
    'receiveAircraft',
    'ReceiveAircraftInput',
    { orderId, readings: [], squawks: [], received: [] },
    '... on WorkOrder { id }',
  );
export async function promised(shop: TestShop, orderId: string) {
  const answer = await shop.as<{
    node: { promise: Promised | null; promisedAtArrival: Promised | null };
  }>(
    'front_desk',
    `query ($id: ID!) { node(id: $id) { ... on WorkOrder { promise { ${PROMISE} } promisedAtArrival { ${PROMISE} } } } }`,
    { id: orderId },
  );
  if (!answer.data) throw new Error(JSON.stringify(answer));
  return answer.data.node;
}
