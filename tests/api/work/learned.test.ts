import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { rawConnection, stateOf } from '../guarantees/raw.ts';
import { makeOrder } from './orders.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Learned {
  id: string;
  words: string;
  stillTrue: boolean;
  by: { name: string };
  judgedBy: { name: string } | null;
  model: { name: string } | null;
}
const note = 'id words stillTrue by { name } judgedBy { name } model { name }';

const learn = async (shop: TestShop, input: Record<string, unknown>, role: Role = 'mechanic') => {
  const answer = await shop.as<{ made: Partial<Learned> & { code?: string; message?: string } }>(
    role,
    `mutation($input: LearnNoteInput!) { made: learnNote(input: $input) {
      ... on Refusal { code message } ... on LearnedNote { ${note} } } }`,
    {
      input: { words: 'Turn the rotor until the pin is up', clientEventId: randomUUID(), ...input },
    },
  );
  if (!answer.data) throw new Error(JSON.stringify(answer));
  return answer.data.made;
};
const judge = async (
  shop: TestShop,
  noteId: string | undefined,
  stillTrue: boolean,
  role: Role = 'inspector',
) =>
  (
    await shop.as<{ judged: Partial<Learned> & { code?: string } }>(
      role,
      `mutation($input: JudgeNoteInput!) { judged: judgeNote(input: $input) {
        ... on Refusal { code } ... on LearnedNote { ${note} } } }`,
      { input: { noteId, stillTrue } },
    )
  ).data?.judged;
const learnedAt = async (shop: TestShop, itemId: string) =>
  (
    await shop.as<{ node: { learned: Learned[] } }>(
      'mechanic',
      `query($id: ID!) { node(id: $id) { ... on WorkItem { learned { ${note} } } } }`,
      { id: itemId },
    )
  ).data?.node.learned;
const countIn = (shop: TestShop) =>
  shop.inside(async (tx) => [await tx.learnedNote.count(), await tx.learnedNoteJudgement.count()]);

/** A second order on the same task, on an aircraft of another model. */
async function onAnotherModel(shop: TestShop, taskId: string) {
  const aircraftId = await shop.inside(async (tx) => {
    const { id: _id, ...model } = await tx.aircraftModel.findFirstOrThrow();
    const other = await tx.aircraftModel.create({
      data: { ...model, name: 'Other model' } as never,
    });
    const { id: _aircraft, ...aircraft } = await tx.aircraft.findFirstOrThrow();
    const made = await tx.aircraft.create({
      data: { ...aircraft, registration: 'QQ-OTHER', serial: 'other', modelId: other.id } as never,
    });
    return made.id;
  });
  const { items } = await makeOrder(shop, { aircraftId, items: [{ taskId }] });
  return items[0]?.id ?? '';
}

it('is shown where the task comes again: on this model, or on every one', async () => {
  const shop = await makeShop(api);
  const first = await makeOrder(shop);
  const itemId = first.items[0]?.id ?? '';
  const { taskId } = await shop.inside((tx) =>
    tx.workItem.findFirstOrThrow({ select: { taskId: true } }),
  );
  const here = await learn(shop, { itemId });
  const everywhere = await learn(shop, { itemId, everyModel: true, words: 'Warm the seal first' });
  expect(here).toMatchObject({ stillTrue: true, by: { name: 'Test mechanic' }, judgedBy: null });
  expect(everywhere.model).toBeNull();
  expect((await learnedAt(shop, itemId))?.map(({ words }) => words)).toEqual([
    'Warm the seal first',
    'Turn the rotor until the pin is up',
  ]);
  const again = await makeOrder(shop, { items: [{ taskId: taskId ?? '' }] });
  expect(await learnedAt(shop, again.items[0]?.id ?? '')).toHaveLength(2);
  const elsewhere = await onAnotherModel(shop, taskId ?? '');
  expect((await learnedAt(shop, elsewhere))?.map(({ words }) => words)).toEqual([
    'Warm the seal first',
  ]);
});

it('is judged by who meets it; the newest word counts, and the words never change', async () => {
  const shop = await makeShop(api);
  const { items } = await makeOrder(shop);
  const made = await learn(shop, { itemId: items[0]?.id });
  expect(await judge(shop, made.id, false)).toMatchObject({
    stillTrue: false,
    judgedBy: { name: 'Test inspector' },
  });
  await judge(shop, made.id, false);
  expect(await countIn(shop)).toEqual([1, 1]);
  expect(await judge(shop, made.id, true, 'mechanic')).toMatchObject({ stillTrue: true });
  expect((await learnedAt(shop, items[0]?.id ?? ''))?.[0]?.judgedBy?.name).toBe('Test mechanic');
  const raw = await rawConnection(api.database.adminUrl);
  try {
    const change = raw.query(`update learned_note set words = 'other' where shop_id = $1`, [
      shop.shopId,
    ]);
    expect(await stateOf(change)).toBe('FL001');
  } finally {
    await raw.end();
  }
});

it('is about a part, where one is named', async () => {
  const shop = await makeShop(api);
  const part = await shop.inside((tx) =>
    tx.part.create({
      data: { number: 'SEAL-2', title: 'Shaft seal', unitPrice: '12.00' } as never,
    }),
  );
  const partId = globalId('Part', part.id);
  await learn(shop, { partId, words: 'Supersedes SEAL-1 and is 2 mm longer' });
  const answer = await shop.as<{ node: { learned: Learned[] } }>(
    'front_desk',
    `query($id: ID!) { node(id: $id) { ... on Part { learned { ${note} } } } }`,
    { id: partId },
  );
  expect(answer.data?.node.learned).toMatchObject([
    { words: 'Supersedes SEAL-1 and is 2 mm longer' },
  ]);
});

it('sent twice it is kept once, and somebody else’s id is refused', async () => {
  const shop = await makeShop(api);
  const { items } = await makeOrder(shop);
  const input = { itemId: items[0]?.id, clientEventId: randomUUID() };
  const [one, two] = [await learn(shop, input), await learn(shop, input)];
  expect(two.id).toBe(one.id);
  expect(await learn(shop, input, 'inspector')).toMatchObject({ code: 'CONFLICT' });
  expect(await countIn(shop)).toEqual([1, 0]);
});

it('is refused with what is needed, and nothing is kept', async () => {
  const shop = await makeShop(api);
  const other = await makeShop(api);
  const { items } = await makeOrder(shop, { items: [{}, { taskId: null, title: 'Odd job' }] });
  const theirs = await makeOrder(other);
  const itemId = items[0]?.id;
  expect(await learn(shop, { itemId, words: ' x ' })).toMatchObject({
    code: 'BAD_INPUT',
    message: expect.stringContaining('words has 1 characters: needed are 3 to 500'),
  });
  expect(await learn(shop, {})).toMatchObject({ code: 'BAD_INPUT' });
  expect(await learn(shop, { itemId: items[1]?.id })).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringContaining('“Odd job” is none of the shop’s tasks'),
  });
  expect(await learn(shop, { itemId: theirs.items[0]?.id })).toMatchObject({ code: 'NOT_FOUND' });
  expect(await learn(shop, { itemId, photoIds: [globalId('Photo', randomUUID())] })).toMatchObject({
    code: 'NOT_FOUND',
  });
  expect(await learn(shop, { itemId }, 'front_desk')).toMatchObject({ code: 'FORBIDDEN' });
  const theirNote = await learn(other, { itemId: theirs.items[0]?.id });
  expect(await judge(shop, theirNote.id, true)).toMatchObject({ code: 'NOT_FOUND' });
  expect(await countIn(shop)).toEqual([0, 0]);
});
