import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { makeOrder } from '../guarantees/rows.ts';
import { statusOf } from './directive-shop.ts';
import { NOW, type Said } from './flown.ts';

let api: TestApi;
let now = NOW;
beforeAll(async () => {
  api = await startApi({ now: () => now });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Deadline {
  id: string;
  kind: string;
  title: string;
  detail: string;
  dueAt: string | null;
  dueOn: string | null;
  state: string;
  doneBy: string | null;
  doneWords: string;
}
const deadlines = async (shop: TestShop) => {
  const { data, errors } = await shop.as<{ deadlines: Deadline[] }>(
    'front_desk',
    '{ deadlines { id kind title detail dueAt dueOn state doneBy doneWords } }',
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.deadlines;
};
const say = async (
  shop: TestShop,
  mutation: string,
  variables: Record<string, unknown>,
  role: 'inspector' | 'mechanic' | 'manager' = 'inspector',
): Promise<Said> => {
  const { data, errors } = await shop.as<Record<string, Said>>(role, mutation, variables);
  return Object.values(data ?? {})[0] ?? { message: JSON.stringify(errors) };
};
const NOTE =
  'mutation($input: NoteDutyInput!) { noteDuty(input: $input) { ... on Duty { id } ... on Refusal { code message } } }';
const DO =
  'mutation($id: ID!, $words: String!) { doDuty(dutyId: $id, words: $words) { ... on Duty { id } ... on Refusal { code message } } }';

async function released(shop: TestShop, at: string): Promise<string> {
  const { orderId } = await makeOrder(shop);
  await shop.inside((tx) =>
    tx.orderEvent.create({
      data: {
        ...{ orderId, kind: 'released', outcome: 'airworthy', at: new Date(at) },
        byId: shop.people.inspector.id,
      },
    }),
  );
  return globalId('WorkOrder', orderId);
}

describe('what is owed to the authority', () => {
  it('the form of a major repair, within 48 hours of the approval (14 CFR part 43, Appendix B), also over a change of the clock', async () => {
    // In this zone clocks went forward on 29 March 2026 at 01:00 UTC: two days later by the calendar are 47 hours.
    const shop = await makeShop(api, { timeZone: 'Europe/Paris' });
    const orderId = await released(shop, '2026-03-14T08:30:00Z');
    const input = { orderId, kind: 'major_form', words: 'Spar repair' };
    const { id = '' } = await say(shop, NOTE, { input });
    expect(id).not.toBe('');
    // Said twice it is owed once.
    expect(await say(shop, NOTE, { input })).toEqual({ id });
    const [first] = await deadlines(shop);
    expect(first).toMatchObject({
      ...{ kind: 'major_form', title: 'Spar repair', state: 'soon', dueOn: null },
      detail: expect.stringMatching(/^QQ-\w+, order \d+$/),
    });
    expect(new Date(first?.dueAt ?? '').toISOString()).toBe('2026-03-16T08:30:00.000Z');
    expect((await statusOf(shop))[5]?.rows).toEqual([
      {
        what: expect.stringMatching(/^Spar repair, order \d+$/),
        ...{ status: 'form not sent yet', last: 'approved 2026-03-14' },
        next: 'to the authority by 2026-03-16 08:30 UTC',
      },
    ]);
    now = new Date('2026-03-16T08:30:01Z');
    expect((await deadlines(shop))[0]?.state).toBe('late');
    expect(await say(shop, DO, { id, words: 'Sent by post, copy in binder 4' })).toEqual({ id });
    expect((await deadlines(shop)).find(({ kind }) => kind === 'major_form')).toMatchObject({
      ...{ state: 'done', doneBy: 'Test inspector', doneWords: 'Sent by post, copy in binder 4' },
    });
    expect(await say(shop, DO, { id, words: 'Sent again' })).toMatchObject({
      message: expect.stringMatching(/^Test inspector said so already at 2026-03-16 08:30 UTC/),
    });
    expect((await statusOf(shop))[5]?.rows[0]).toMatchObject({
      status: 'form: Sent by post, copy in binder 4',
      last: 'approved 2026-03-14, sent 2026-03-16 by Test inspector',
    });
    now = NOW;
    // Across the night of the change the 48 hours stay 48.
    now = new Date('2026-03-28T20:00:00Z');
    const over = await released(shop, '2026-03-28T19:00:00Z');
    await say(shop, NOTE, { input: { ...input, orderId: over } });
    const due = (await deadlines(shop)).find(({ state }) => state === 'soon');
    expect(new Date(due?.dueAt ?? '').toISOString()).toBe('2026-03-30T19:00:00.000Z');
    now = NOW;
  });
  it('a serious defect, within 96 hours, by a repair station (14 CFR 145.221)', async () => {
    const shop = await makeShop(api, { standing: 'repair_station', certificateNumber: 'T9R' });
    const { orderId } = await makeOrder(shop);
    const input = {
      orderId: globalId('WorkOrder', orderId),
      kind: 'defect_report',
      words: 'Cracked spar',
    };
    const runsFrom = '2026-03-14T06:00:00Z';
    await say(shop, NOTE, { input: { ...input, runsFrom } });
    expect(new Date((await deadlines(shop))[0]?.dueAt ?? '').toISOString()).toBe(
      '2026-03-18T06:00:00.000Z',
    );
    expect(
      (
        await say(shop, NOTE, {
          input: { ...input, words: 'Later', runsFrom: '2026-03-14T09:01:00Z' },
        })
      ).message,
    ).toMatch(/it is 2026-03-14 09:00 UTC now/);
  });
  it('is refused before the approval, of a shop that is no station, and from a mechanic', async () => {
    const shop = await makeShop(api);
    const { orderId } = await makeOrder(shop);
    const input = {
      orderId: globalId('WorkOrder', orderId),
      kind: 'major_form',
      words: 'Spar repair',
    };
    expect((await say(shop, NOTE, { input })).message).toMatch(
      /is not approved: note it when it is/,
    );
    expect((await say(shop, NOTE, { input: { ...input, kind: 'defect_report' } })).message).toMatch(
      /asked of repair stations \(14 CFR 145\.221\)/,
    );
    expect(await say(shop, NOTE, { input }, 'mechanic')).toMatchObject({ code: 'FORBIDDEN' });
    expect(await shop.inside((tx) => tx.duty.count())).toBe(0);
  });
});

it('tools, certificates and data stand in the same list by their last day', async () => {
  const shop = await makeShop(api);
  await shop.inside(async (tx) => {
    const tool = await tx.tool.create({
      data: { shopId: shop.shopId, kind: 'torque_wrench', name: 'Wrench', number: 'T-4' },
    });
    await tx.toolCalibration.create({
      data: { toolId: tool.id, dueOn: new Date('2026-03-13'), byId: shop.people.manager.id },
    });
    await tx.certificate.create({
      data: {
        ...{ personId: shop.people.manager.id, kind: 'repairman', number: 'R-1' },
        ...{ validFrom: new Date('2025-01-01'), validUntil: new Date('2026-04-13') },
      },
    });
  });
  const ADD =
    'mutation($title: String!, $everyDays: Int!, $revision: String!, $on: Date) { addDataSource(title: $title, everyDays: $everyDays, revision: $revision, checkedOn: $on) { ... on DataSource { id } ... on Refusal { code message } } }';
  const manual = { title: 'Maker’s manual', everyDays: 90, revision: '12', on: '2026-01-20' };
  const { id = '' } = await say(shop, ADD, manual);
  expect((await say(shop, ADD, manual)).code).toBe('CONFLICT');
  expect((await say(shop, ADD, { ...manual, title: 'X2', everyDays: 0 })).message).toMatch(/is 0/);
  expect((await say(shop, ADD, { ...manual, title: 'X2', on: '2026-03-15' })).message).toMatch(
    /today is 2026-03-14/,
  );
  const stands = (await deadlines(shop)).map(({ kind, title, dueOn, state }) => [
    kind,
    title,
    dueOn,
    state,
  ]);
  expect(stands).toEqual([
    ['tool', 'Wrench', '2026-03-13', 'late'],
    ['certificate', 'Test manager', '2026-04-13', 'soon'],
    ['data', 'Maker’s manual', '2026-04-20', 'open'],
    ['certificate', 'Test inspector', '2099-03-31', 'open'],
  ]);
  const CHECK =
    'mutation($id: ID!, $on: Date) { checkData(sourceId: $id, revision: "13", checkedOn: $on) { ... on DataSource { id } ... on Refusal { code message } } }';
  expect((await say(shop, CHECK, { id, on: '2026-01-19' })).message).toMatch(
    /looked up on 2026-01-20 already/,
  );
  expect(await say(shop, CHECK, { id })).toEqual({ id });
  expect((await deadlines(shop)).find(({ kind }) => kind === 'data')).toMatchObject({
    ...{ dueOn: '2026-06-12', detail: 'revision 13, looked up by Test inspector on 2026-03-14' },
  });
});
