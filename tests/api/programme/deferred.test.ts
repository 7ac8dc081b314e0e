import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeTask, type TestShop } from '../../support/shop.ts';
import { makeOrder, uuid } from '../guarantees/rows.ts';
import { add, aircraft, flown, NOW, record, type Said } from './flown.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => NOW });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

async function found(shop: TestShop, taskId?: string): Promise<string> {
  const { orderId } = await makeOrder(shop);
  const id = await shop.inside(async (tx) => {
    const finding = await tx.finding.create({
      data: {
        ...{ orderId, number: 1, title: 'Worn tyre', provisionalClass: 'discrepancy' },
        ...{ foundAt: NOW, foundById: shop.people.mechanic.id, clientEventId: uuid() },
      },
    });
    return finding.id;
  });
  const findingId = globalId('Finding', id);
  if (taskId) {
    const { data, errors } = await shop.as<{ draftQuote: Said }>(
      'front_desk',
      'mutation($input: DraftQuoteInput!) { draftQuote(input: $input) { __typename ... on Refusal { message } } }',
      {
        input: {
          ...{
            aircraftId: aircraft(shop),
            contactId: globalId('Contact', shop.contactId),
            findingId,
          },
          ...{ tasks: [{ taskId: globalId('Task', taskId) }], parts: [] },
        },
      },
    );
    if (data?.draftQuote.message ?? errors) throw new Error(JSON.stringify(data ?? errors));
  }
  return findingId;
}
const putOff = async (shop: TestShop, findingId: string, over: Record<string, unknown> = {}) => {
  const { data, errors } = await shop.as<{ putOffFinding: Said & { state?: string } }>(
    'front_desk',
    'mutation($input: PutOffFindingInput!) { putOffFinding(input: $input) { ... on Finding { state } ... on Refusal { code message } } }',
    { input: { findingId, reason: 'The owner waits', ...over } },
  );
  return data?.putOffFinding ?? { message: JSON.stringify(errors) };
};
interface Deferred {
  title: string;
  state: string | null;
  because: string;
  dueOn: string | null;
  dueAtHundredths: number | null;
  quotable: boolean;
}
const deferred = async (shop: TestShop) =>
  (
    await shop.as<{ node: { deferred: Deferred[] } }>(
      'front_desk',
      'query($id: ID!) { node(id: $id) { ... on Aircraft { deferred { title state because dueOn dueAtHundredths quotable } } } }',
      { id: aircraft(shop) },
    )
  ).data?.node.deferred;
const quote = async (shop: TestShop, itemIds: string[], findingIds: string[]) =>
  (
    await shop.as<{ quoteDue: Said & { title?: string } }>(
      'front_desk',
      'mutation($input: QuoteDueInput!) { quoteDue(input: $input) { ... on Quote { title } ... on Refusal { code message } } }',
      {
        input: {
          ...{ aircraftId: aircraft(shop), contactId: globalId('Contact', shop.contactId) },
          ...{ itemIds, findingIds },
        },
      },
    )
  ).data?.quoteDue;
/** The tasks of the newest quote that is for no finding. */
const quoted = (shop: TestShop) =>
  shop.inside(async (tx) => {
    const { revisions } = await tx.quote.findFirstOrThrow({
      where: { findingId: null, title: { startsWith: 'Due' } },
      orderBy: { createdAt: 'desc' },
      select: { revisions: { select: { lines: { select: { taskId: true } } } } },
    });
    return revisions[0]?.lines.map(({ taskId }) => taskId);
  });

describe('a finding that was put off', () => {
  it('stands on the due list by its day or time, whichever comes first', async () => {
    const shop = await flown(api);
    const findingId = await found(shop);
    await putOff(shop, findingId, { untilOn: '2026-04-10', untilHundredths: 135_000 });
    expect(await deferred(shop)).toEqual([
      {
        ...{ title: 'Worn tyre', state: 'due_soon', dueOn: '2026-04-10', dueAtHundredths: 135_000 },
        ...{ because: 'Put off until 2026-04-10 or until 1350.00 h', quotable: false },
      },
    ]);
    // Put off again, until another day.
    await putOff(shop, findingId, { untilHundredths: 129_000 });
    expect(await deferred(shop)).toMatchObject([{ state: 'overdue', dueOn: null }]);
  });
  it('until the next inspection is due with the one that comes first', async () => {
    const shop = await flown(api);
    const { id = '' } = await add(shop, { title: 'Annual', rule: 'annual' });
    await record(shop, id, { doneOn: '2025-03-10' });
    const findingId = await found(shop);
    await putOff(shop, findingId, { untilInspection: true });
    // 91.409(a): through 31 March 2026.
    expect(await deferred(shop)).toMatchObject([
      {
        because: 'Put off until the next inspection: Annual',
        dueOn: '2026-03-31',
        state: 'due_soon',
      },
    ]);
  });
  it('goes onto the next quote as it was last priced, and leaves the list once it is settled by name', async () => {
    const shop = await flown(api);
    const [tyre, oil] = [
      await makeTask(shop, { title: 'Replace tyre' }),
      await makeTask(shop, { title: 'Oil service' }),
    ];
    const findingId = await found(shop, tyre.id);
    await putOff(shop, findingId);
    expect(await deferred(shop)).toMatchObject([
      { quotable: true, state: null, because: 'Put off, and nobody said until when' },
    ]);
    const item = await add(shop, { title: 'Oil', taskId: globalId('Task', oil.id) });
    expect(await quote(shop, [item.id ?? ''], [findingId])).toEqual({
      title: 'Due: Oil, Worn tyre',
    });
    expect(new Set(await quoted(shop))).toEqual(new Set([tyre.id, oil.id]));
    const settle = (role: 'inspector' | 'mechanic', words: string) =>
      shop.as<{ settleFinding: Said & { state?: string } }>(
        role,
        'mutation($id: ID!, $words: String!) { settleFinding(findingId: $id, words: $words) { ... on Finding { state } ... on Refusal { code message } } }',
        { id: findingId, words },
      );
    expect((await settle('mechanic', 'Done')).data?.settleFinding.code).toBe('FORBIDDEN');
    expect((await settle('inspector', 'Tyre replaced on order 2')).data?.settleFinding).toEqual({
      state: 'corrected',
    });
    expect(await deferred(shop)).toEqual([]);
    expect(await quote(shop, [], [findingId])).toMatchObject({ code: 'CONFLICT' });
  });
  it('is refused until a day that has passed, until nothing, and on a quote without a price', async () => {
    const shop = await flown(api);
    const findingId = await found(shop);
    expect((await putOff(shop, findingId, { untilOn: '2026-03-13' })).message).toMatch(
      /has passed/,
    );
    expect((await putOff(shop, findingId, { untilHundredths: 0 })).message).toMatch(/is 0: needed/);
    expect(await deferred(shop)).toEqual([]);
    await putOff(shop, findingId, { untilOn: '2026-03-14' });
    expect(await deferred(shop)).toMatchObject([{ state: 'due' }]);
    expect((await quote(shop, [], [findingId]))?.message).toMatch(/“Worn tyre” was never priced/);
    expect((await quote(shop, [], []))?.code).toBe('BAD_INPUT');
  });
});

describe('what lies behind one opening', () => {
  it('is quoted with the opening once, however much is done there', async () => {
    const shop = await flown(api);
    const cowling = await makeTask(shop, { title: 'Cowling off and on', standardHours: '0.4' });
    const [oil, hose] = [
      await makeTask(shop, { title: 'Oil service' }),
      await makeTask(shop, { title: 'Hose' }),
    ];
    const open = (role: 'manager' | 'front_desk', taskId: string, openingId: string) =>
      shop.as<{ setTaskOpening: Said }>(
        role,
        'mutation($taskId: ID!, $openingId: ID) { setTaskOpening(taskId: $taskId, openingId: $openingId) { ... on Task { opening { title } } ... on Refusal { code message } } }',
        { taskId: globalId('Task', taskId), openingId: globalId('Task', openingId) },
      );
    expect((await open('front_desk', oil.id, cowling.id)).data?.setTaskOpening.code).toBe(
      'FORBIDDEN',
    );
    for (const each of [oil, hose])
      expect((await open('manager', each.id, cowling.id)).data?.setTaskOpening).toEqual({
        opening: { title: 'Cowling off and on' },
      });
    expect((await open('manager', oil.id, oil.id)).data?.setTaskOpening.message).toMatch(
      /not open itself/,
    );
    expect((await open('manager', cowling.id, oil.id)).data?.setTaskOpening.code).toBe(
      'AGAINST_RULE',
    );
    const items = [
      await add(shop, { title: 'Oil', taskId: globalId('Task', oil.id) }),
      await add(shop, { title: 'Hose', taskId: globalId('Task', hose.id) }),
    ].map(({ id }) => id ?? '');
    await quote(shop, items, []);
    expect((await quoted(shop))?.filter((id) => id === cowling.id)).toHaveLength(1);
    expect(await quoted(shop)).toHaveLength(3);
  });
});
