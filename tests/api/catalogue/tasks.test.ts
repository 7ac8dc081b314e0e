import { globalId as gid } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Task {
  id: string;
  code?: string;
  message?: string;
  field?: string | null;
  key: string;
  title: string;
  standardHours: string | null;
  version: string;
  paragraphs: string[];
}
async function save(
  shop: TestShop,
  input: Record<string, unknown>,
  role: Parameters<TestShop['as']>[0] = 'manager',
): Promise<Task> {
  const answer = await shop.as<{ saveTask: Task }>(
    role,
    `mutation($input: SaveTaskInput!) { saveTask(input: $input) { ... on Refusal { code message field }
      ... on Task { id key title standardHours version paragraphs } } }`,
    { input },
  );
  if (!answer.data) throw new Error(JSON.stringify(answer.errors));
  return answer.data.saveTask;
}
const hose = {
  title: 'Replace the oil hose, left',
  jasc: '8550',
  standardHours: '1.4',
  critical: true,
  cautions: ['Hot parts.'],
  reference: 'Invented manual 79-20',
  paragraphs: ['appendix D(d)(7)'],
};

it('is described, then described anew from what was read; names of the same title stay apart', async () => {
  const shop = await makeShop(api);
  const task = await save(shop, hose);
  expect(task).toMatchObject({
    key: 'replace-the-oil-hose-left',
    standardHours: '1.4',
    paragraphs: ['appendix D(d)(7)'],
  });
  expect((await save(shop, hose)).key).toBe('replace-the-oil-hose-left-2');
  const change = { ...hose, taskId: task.id, version: task.version, standardHours: '2' };
  const changed = await save(shop, change);
  expect(changed).toMatchObject({ id: task.id, key: task.key, standardHours: '2' });
  expect(changed.version).not.toBe(task.version);
  expect(await save(shop, change)).toMatchObject({ code: 'CONFLICT', field: 'version' });
});

it.each([
  ['jasc', { jasc: '85' }, /four digits of a JASC code/],
  ['standardHours', { standardHours: '0' }, /more than 0/],
  ['standardHours', { standardHours: '1.23456' }, /at most 3 decimals/],
  ['title', { title: '  ' }, /needed are 3 to 200/],
  ['cautions', { cautions: Array(13).fill('Mind your head.') }, /at most 12/],
  ['paragraphs', { paragraphs: ['appendix E(a)'] }, /no line of 14 CFR part 43 appendix D/],
])('with a bad %s it is refused, and nothing is kept', async (field, over, words) => {
  const shop = await makeShop(api);
  const before = await shop.inside((tx) => tx.task.count());
  const refusal = await save(shop, { ...hose, ...over });
  expect(refusal).toMatchObject({ code: 'BAD_INPUT', field });
  expect(refusal.message).toMatch(words);
  expect(await shop.inside((tx) => tx.task.count())).toBe(before);
});

it('is for the manager, and another shop’s task is not there', async () => {
  const shop = await makeShop(api);
  const other = await makeShop(api);
  expect((await save(shop, hose, 'mechanic')).code).toBe('FORBIDDEN');
  const theirs = await save(other, hose);
  expect((await save(shop, { ...hose, taskId: theirs.id, version: theirs.version })).code).toBe(
    'NOT_FOUND',
  );
  expect((await save(shop, { ...hose, taskId: gid('Part', shop.modelId) })).code).toBe('BAD_INPUT');
});
