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
  over: Record<string, unknown> = {},
) =>
  (
    await shop.as<{ judged: Partial<Learned> & { code?: string; message?: string } }>(
      role,
      `mutation($input: JudgeNoteInput!) { judged: judgeNote(input: $input) {
        ... on Refusal { code message } ... on LearnedNote { ${note} } } }`,
      { input: { noteId, stillTrue, ...over } },
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

it('comes late from a device: when it was said counts, not when it came, and the same is kept once', async () => {
  const shop = await makeShop(api);
  const { items } = await makeOrder(shop);
  const itemId = items[0]?.id ?? '';
  const ago = (hours: number) => new Date(Date.now() - hours * 3_600_000).toISOString();
  const learned = { itemId, at: ago(5), clientEventId: randomUUID() };
  const [made] = await Promise.all([learn(shop, learned), learn(shop, learned)]);
  const kept = await shop.inside((tx) => tx.learnedNote.findFirstOrThrow());
  expect(kept.at.toISOString()).toBe(learned.at);
  expect(kept.clientEventId).toBe(learned.clientEventId);

  expect(await judge(shop, made.id, true, 'inspector', { at: ago(1) })).toMatchObject({
    stillTrue: true,
    judgedBy: { name: 'Test inspector' },
  });
  // Said two hours earlier, away from the network; two sendings, one of them with its answer lost.
  const said = { at: ago(3), clientEventId: randomUUID() };
  const late = () => judge(shop, made.id, false, 'mechanic', said);
  for (const answer of await Promise.all([late(), late()]))
    expect(answer).toMatchObject({ stillTrue: true, judgedBy: { name: 'Test inspector' } });
  expect(await countIn(shop)).toEqual([1, 2]);
  expect(await judge(shop, made.id, false, 'mechanic', { at: ago(0.5) })).toMatchObject({
    stillTrue: false,
    judgedBy: { name: 'Test mechanic' },
  });

  const refused = async (...given: Parameters<typeof judge>) => {
    const { code, message } = (await judge(...given)) ?? {};
    return `${code}: ${message}`;
  };
  expect(await refused(shop, made.id, false, 'inspector', said)).toContain(
    'CONFLICT: Something else has this clientEventId already',
  );
  const other = await learn(shop, { itemId, words: 'Another of them' });
  expect(await refused(shop, other.id, false, 'mechanic', said)).toContain('CONFLICT: Something');
  expect(await refused(shop, made.id, true, 'mechanic', { clientEventId: 'x' })).toContain(
    'BAD_INPUT: clientEventId is "x": needed is a UUID',
  );
  expect(await refused(shop, made.id, true, 'mechanic', { at: '1999-12-31T00:00:00Z' })).toContain(
    'BAD_INPUT: at is 1999-12-31',
  );
  // A clock that runs ahead: nothing was said after it came.
  const ahead = new Date(Date.now() + 3_600_000).toISOString();
  await judge(shop, made.id, true, 'mechanic', { at: ahead });
  const newest = await shop.inside((tx) =>
    tx.learnedNoteJudgement.findFirstOrThrow({ orderBy: { at: 'desc' } }),
  );
  expect(newest.at.getTime()).toBeLessThanOrEqual(Date.now());
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
