/** Outside work: sent, promised, returned with its release tag, billed with a mark-up; common practice, no source. */
import type { Role } from '@fairlead/database';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { makeVisit } from '../../support/visit.ts';
import { draft, makeSold } from '../books/billing.ts';
import { MONDAY } from '../hangar/promised-visit.ts';

let now = MONDAY;
let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => now });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const DAY = 86_400_000;
const day = (after: number) => new Date(now.getTime() + after * DAY).toISOString().slice(0, 10);

interface Job {
  id: string;
  number: number;
  overdue: boolean;
  promisedOn: string | null;
  returnedAt: string | null;
  tag: string;
  withoutTag: string | null;
  returnedBy: { name: string } | null;
  documents: { url: string; name: string }[];
  bills: {
    cost: string | null;
    charge: { amount: string; title: string } | null;
    quoteLine: { title: string } | null;
  }[];
  code?: string;
  message?: string;
  field?: string;
}
const JOB = `id number overdue promisedOn returnedAt tag withoutTag returnedBy { name } documents { url name }
  bills { cost charge { amount title } quoteLine { title } }`;
const say = async (
  shop: TestShop,
  name: string,
  input: object,
  role: Role = 'mechanic',
): Promise<Job> => {
  const { data, errors } = await shop.as<{ done: Job }>(
    role,
    `mutation($input: ${name[0]?.toUpperCase()}${name.slice(1)}Input!) { done: ${name}(input: $input) { ... on OutsideJob { ${JOB} } ... on Refusal { code message field } } }`,
    { input },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.done;
};
const out = async (shop: TestShop) => {
  const { data } = await shop.as<{ outsideWork: { number: number; overdue: boolean }[] }>(
    'front_desk',
    'query { outsideWork { number overdue } }',
  );
  return data?.outsideWork;
};
const open = async (over: object = {}) => {
  const shop = await makeShop(api);
  const visit = await makeVisit(shop, { items: [{ title: 'Propeller', workDone: null }] });
  const sent = {
    itemId: visit.items[0],
    vendor: 'Strand Propeller Shop',
    what: 'Propeller for overhaul',
    serial: 'P-77',
    ...over,
  };
  return { shop, visit, sent };
};
const pdf = Buffer.from('%PDF-1.7\n1 0 obj\n<<>>\nendobj\ntrailer\n<<>>\nstartxref\n0\n%%EOF\n');
const keep = async (shop: TestShop, job: string, bytes: Buffer = pdf, role: Role = 'mechanic') => {
  const response = await fetch(`${api.origin}/certificates/outside/${job}?name=tag.pdf`, {
    method: 'POST',
    headers: {
      cookie: await shop.cookie(role),
      'x-fairlead': '1',
      'content-type': 'application/octet-stream',
    },
    body: new Uint8Array(bytes),
  });
  return {
    status: response.status,
    ...((await response.json()) as { id?: string; error?: { code: string } }),
  };
};
const promise = async (shop: TestShop, order: string) => {
  const { data } = await shop.as<{
    node: { promise: { sentence: string; beginsOn: string } | null };
  }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on WorkOrder { promise { sentence } } } }',
    { id: order },
  );
  return data?.node.promise?.sentence ?? '';
};

it('is sent and promised; the promise of the visit waits for it; overdue is shown; a tag brings it back', async () => {
  now = MONDAY;
  const { shop, visit, sent } = await open();
  const job = await say(shop, 'sendOut', sent);
  expect(job).toMatchObject({ number: 1, promisedOn: null, overdue: false, returnedAt: null });
  // Nobody has said a day: no day is promised.
  expect(await promise(shop, visit.order)).toContain(
    'Propeller for overhaul, from Strand Propeller Shop',
  );
  expect(await say(shop, 'sendOut', sent)).toMatchObject({
    code: 'CONFLICT',
    message: expect.stringContaining('is with Strand Propeller Shop already'),
  });

  expect(
    await say(shop, 'promiseBack', { jobId: job.id, promisedOn: day(3), saidBy: 'their desk' }),
  ).toMatchObject({ promisedOn: day(3) });
  const waits = await shop.as<{
    node: { expectations: { what: string; expectedOn: string | null }[] };
  }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on WorkItem { expectations { what expectedOn } } } }',
    { id: visit.items[0] },
  );
  expect(waits.data?.node.expectations[0]).toEqual({
    what: 'Propeller for overhaul, from Strand Propeller Shop',
    expectedOn: day(3),
  });

  now = new Date(MONDAY.getTime() + 3 * DAY);
  expect(await out(shop)).toEqual([{ number: 1, overdue: false }]);
  now = new Date(MONDAY.getTime() + 4 * DAY);
  expect(await out(shop)).toEqual([{ number: 1, overdue: true }]);

  expect(await say(shop, 'returnOutside', { jobId: job.id, tag: ' ' })).toMatchObject({
    code: 'AGAINST_RULE',
    field: 'tag',
    message:
      'Outside job 1, “Propeller for overhaul”, came back without a release tag: neither its number nor its photo is kept. Keep one of them, or give your reason for taking it back all the same; it is kept under your name.',
  });
  const back = await say(shop, 'returnOutside', { jobId: job.id, tag: 'ARC-1182' });
  expect(back).toMatchObject({
    tag: 'ARC-1182',
    withoutTag: null,
    overdue: false,
    returnedBy: { name: 'Test mechanic' },
  });
  // Said twice it is said once.
  expect(await say(shop, 'returnOutside', { jobId: job.id, tag: 'other' })).toMatchObject({
    tag: 'ARC-1182',
  });
  expect(await out(shop)).toEqual([]);
  expect(await say(shop, 'promiseBack', { jobId: job.id, saidBy: 'x' })).toMatchObject({
    code: 'CONFLICT',
  });
});

it('comes back with the photo of its tag alone, kept as it came; or without, for a reason under a name', async () => {
  now = MONDAY;
  const { shop, sent } = await open();
  const job = await say(shop, 'sendOut', sent);
  expect(await keep(shop, job.id, Buffer.from('no document'))).toMatchObject({ status: 400 });
  expect(await keep(shop, 'nothing')).toMatchObject({ status: 400 });
  const kept = await keep(shop, job.id);
  expect(kept.status).toBe(201);
  expect((await keep(shop, job.id)).id).toBe(kept.id);
  const back = await say(shop, 'returnOutside', { jobId: job.id });
  expect(back.documents).toHaveLength(1);
  const asked = await fetch(`${api.origin}${back.documents[0]?.url}`, {
    headers: { cookie: await shop.cookie('inspector') },
  });
  expect(Buffer.from(await asked.arrayBuffer())).toEqual(pdf);
  const other = await open();
  expect(
    (
      await fetch(`${api.origin}${back.documents[0]?.url}`, {
        headers: { cookie: await other.shop.cookie('inspector') },
      })
    ).status,
  ).toBe(404);

  const bare = await say(shop, 'sendOut', { ...sent, serial: 'P-78' });
  expect(
    await say(shop, 'returnOutside', { jobId: bare.id, withoutTag: true, reason: 'x' }),
  ).toMatchObject({ code: 'BAD_INPUT', field: 'reason' });
  expect(
    await say(
      shop,
      'returnOutside',
      { jobId: bare.id, withoutTag: true, reason: 'Sent back untouched.' },
      'inspector',
    ),
  ).toMatchObject({
    withoutTag: 'Sent back untouched.',
    returnedBy: { name: 'Test inspector' },
  });
});

it('is billed once, with its mark-up, as a charge that needs the owner’s yes; or by the charge that the quote has for it', async () => {
  now = MONDAY;
  const shop = await makeShop(api);
  const visit = await makeSold(shop, {
    lines: [
      { title: 'Propeller off and on', likelyMinor: 9_500n },
      {
        title: 'Propeller shop',
        pricing: 'fixed',
        charge: 'outside_work',
        likelyMinor: 80_000n,
        unitPrice: '800',
      },
    ],
    ceiling: 130_000n,
    items: [{ line: 0, title: 'Propeller', seconds: 3600, workDone: null }],
  });
  const sent = {
    itemId: visit.items[0],
    vendor: 'Strand Propeller Shop',
    what: 'Propeller for overhaul',
  };
  const first = await say(shop, 'sendOut', sent);
  const line = (id: string | undefined) => Buffer.from(`QuoteLine:${id}`).toString('base64');
  const bill = { jobId: first.id, reference: 'R 9', cost: '70000' };
  expect(await say(shop, 'billOutside', bill)).toMatchObject({ code: 'FORBIDDEN' });
  expect(await say(shop, 'billOutside', { ...bill, cost: '0' }, 'front_desk')).toMatchObject({
    code: 'BAD_INPUT',
  });
  expect(
    await say(shop, 'billOutside', { ...bill, quoteLineId: line(visit.lineIds[0]) }, 'front_desk'),
  ).toMatchObject({ code: 'NOT_FOUND' });
  expect(
    await say(
      shop,
      'billOutside',
      { ...bill, percent: '5', quoteLineId: line(visit.lineIds[1]) },
      'front_desk',
    ),
  ).toMatchObject({ message: expect.stringContaining('that price is firm') });
  const quoted = await say(
    shop,
    'billOutside',
    { ...bill, quoteLineId: line(visit.lineIds[1]) },
    'front_desk',
  );
  expect(quoted.bills).toEqual([
    { cost: '70000', charge: null, quoteLine: { title: 'Propeller shop' } },
  ]);
  expect(await draft(shop, visit)).toMatchObject({ net: '89500', beyond: '0' });

  const second = await say(shop, 'sendOut', { ...sent, what: 'Governor for overhaul' });
  // 420.50 and 15 % of it, 63.075, half up: 483.58.
  const on = { jobId: second.id, reference: 'R 10', cost: '42050', percent: '15' };
  const billed = await say(shop, 'billOutside', on, 'front_desk');
  expect(billed.bills[0]?.charge).toEqual({
    amount: '48358',
    title: 'Governor for overhaul, by Strand Propeller Shop',
  });
  expect(await say(shop, 'billOutside', on, 'front_desk')).toMatchObject({ code: 'CONFLICT' });
  // 895.00 and 483.58 are 1,378.58; agreed are 1,300.00: the charge gives way, as the last one said.
  const made = await draft(shop, visit);
  expect(made).toMatchObject({ net: '130000', beyond: '7858' });
  expect(made.lines.map(({ title, net }) => [title, net])).toEqual([
    ['Propeller off and on', '9500'],
    ['Propeller shop', '80000'],
    ['Governor for overhaul, by Strand Propeller Shop', '48358'],
    [
      'Governor for overhaul, by Strand Propeller Shop. Beyond what was agreed for the order: not billed',
      '-7858',
    ],
  ]);
  const cost = await shop.as<{
    node: { costSoFar: string; beyondAuthority: string; charges: { id: string }[] };
  }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on WorkOrder { costSoFar beyondAuthority charges { id } } } }',
    { id: visit.order },
  );
  expect(cost.data?.node).toMatchObject({ costSoFar: '137858', beyondAuthority: '7858' });
  // What it cost is no mechanic's business.
  const seen = await shop.as(
    'mechanic',
    'query($id: ID!) { node(id: $id) { ... on OutsideJob { bills { cost } } } }',
    { id: second.id },
  );
  expect(seen.data).toEqual({ node: { bills: [{ cost: null }] } });
  const ended = await shop.as<{ done: { ended: string } }>(
    'front_desk',
    'mutation($input: EndOrderChargeInput!) { done: endOrderCharge(input: $input) { ... on OrderCharge { ended } } }',
    { input: { chargeId: cost.data?.node.charges[0]?.id, reason: 'Their mistake.' } },
  );
  expect(ended.data?.done.ended).toBe('Their mistake.');
  expect(await draft(shop, visit)).toMatchObject({ net: '89500', beyond: '0' });
});

it('refuses a day that has passed, words that say nothing, an item that is done, and a charge without a price', async () => {
  now = MONDAY;
  const { shop, visit, sent } = await open();
  expect(await say(shop, 'sendOut', { ...sent, promisedOn: day(-1) })).toMatchObject({
    code: 'BAD_INPUT',
    field: 'promisedOn',
  });
  expect(await say(shop, 'sendOut', { ...sent, vendor: ' ' })).toMatchObject({ field: 'vendor' });
  expect(
    await say(shop, 'sendOut', { ...sent, sentAt: new Date(now.getTime() + DAY).toISOString() }),
  ).toMatchObject({ field: 'sentAt' });
  const done = await makeVisit(shop, { items: [{}] });
  expect(await say(shop, 'sendOut', { ...sent, itemId: done.items[0] })).toMatchObject({
    code: 'CONFLICT',
  });
  const charge = async (input: object, role: Role = 'front_desk') =>
    (
      await shop.as<{ done: { code?: string; amount?: string } }>(
        role,
        'mutation($input: AddOrderChargeInput!) { done: addOrderCharge(input: $input) { ... on OrderCharge { amount } ... on Refusal { code message } } }',
        { input: { orderId: visit.order, kind: 'freight', ...input } },
      )
    ).data?.done;
  expect(await charge({})).toMatchObject({ code: 'BAD_INPUT' });
  expect(await charge({ price: '100', cost: '90' })).toMatchObject({ code: 'BAD_INPUT' });
  expect(await charge({ price: '100' }, 'mechanic')).toMatchObject({ code: 'FORBIDDEN' });
  expect(await charge({ price: '12345' })).toEqual({ amount: '12345' });
  expect(await shop.inside((tx) => tx.outsideJob.count())).toBe(0);
});
