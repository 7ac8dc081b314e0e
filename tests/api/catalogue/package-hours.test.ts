import { globalId as gid } from '@fairlead/api/ids';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, makeTask, type TestShop } from '../../support/shop.ts';

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
  version: string;
  standardHours: string | null;
}
interface Package {
  id: string;
  code?: string;
  message?: string;
  field?: string | null;
  tasks: { task: Task }[];
}
const PACKAGE =
  '... on Refusal { code message field } ... on Package { id tasks { task { id version standardHours } } }';

async function ask(
  shop: TestShop,
  name: 'savePackage' | 'setPackageHours',
  input: Record<string, unknown>,
  role: Parameters<TestShop['as']>[0] = 'manager',
): Promise<Package> {
  const type = `${name[0]?.toUpperCase()}${name.slice(1)}Input`;
  const answer = await shop.as<{ done: Package }>(
    role,
    `mutation($input: ${type}!) { done: ${name}(input: $input) { ${PACKAGE} } }`,
    { input },
  );
  if (!answer.data) throw new Error(JSON.stringify(answer.errors));
  return answer.data.done;
}

/** A package of three tasks, and one task that is in none. */
async function packed() {
  const shop = await makeShop(api);
  const [one, two, three, alone] = await Promise.all(
    ['One', 'Two', 'Three', 'Alone'].map(async (title) =>
      gid('Task', (await makeTask(shop, { title })).id),
    ),
  );
  const taskIds = [one, two, three];
  const pack = await ask(shop, 'savePackage', { title: 'Our own', madeFrom: '', taskIds });
  const say = (hours: readonly (string | null)[], over: object = {}) =>
    pack.tasks.map(({ task }, index) => ({
      ...{ taskId: task.id, version: task.version, standardHours: hours[index] },
      ...over,
    }));
  return { shop, pack, say, alone };
}
const hoursIn = ({ tasks }: Package) => tasks.map(({ task }) => task.standardHours);

it('says the hours of all tasks at once; one that is empty has none', async () => {
  const { shop, pack, say } = await packed();
  const set = await ask(shop, 'setPackageHours', {
    packageId: pack.id,
    hours: say(['0.4', '12.125', null]),
  });
  expect(hoursIn(set)).toEqual(['0.4', '12.125', null]);
  for (const [index, { task }] of set.tasks.entries())
    expect(task.version === pack.tasks[index]?.task.version).toBe(
      task.standardHours === pack.tasks[index]?.task.standardHours,
    );
});

it.each([
  ['0', /The time of “Two” is 0: needed is more than 0 to 999 with at most 3 decimals/],
  ['1000', /The time of “Two” is 1000/],
  ['0.1234', /at most 3 decimals/],
])('keeps none of them where one is “%s”', async (wrong, words) => {
  const { shop, pack, say } = await packed();
  const refused = await ask(shop, 'setPackageHours', {
    packageId: pack.id,
    hours: say(['0.4', wrong, '0.5']),
  });
  expect(refused).toMatchObject({ code: 'BAD_INPUT', field: 'hours' });
  expect(refused.message).toMatch(words);
  const kept = await shop.inside((tx) =>
    tx.task.count({ where: { standardHours: { in: ['0.4', '0.5'] } } }),
  );
  expect(kept).toBe(0);
});

it('refuses what was changed meanwhile, a task twice, one of no package, another shop’s, and anybody but the manager', async () => {
  const { shop, pack, say, alone } = await packed();
  const other = await packed();
  const packageId = pack.id;
  await ask(shop, 'setPackageHours', { packageId, hours: say(['3', null, null]).slice(0, 1) });
  const stale = await ask(shop, 'setPackageHours', { packageId, hours: say(['4', '5', '6']) });
  expect(stale).toMatchObject({ code: 'CONFLICT', field: 'hours' });
  expect(stale.message).toMatch(/“One” was changed since you read it/);
  const [first] = say(['4']);
  const again = await ask(shop, 'setPackageHours', { packageId, hours: [first, first] });
  expect(again).toMatchObject({ code: 'BAD_INPUT', field: 'hours' });
  expect(await ask(shop, 'setPackageHours', { packageId, hours: [] })).toMatchObject({
    code: 'BAD_INPUT',
  });
  for (const hours of [[{ ...first, taskId: alone }], other.say(['4', '5', '6'])])
    expect(await ask(shop, 'setPackageHours', { packageId, hours })).toMatchObject({
      code: 'NOT_FOUND',
    });
  expect(
    await ask(shop, 'setPackageHours', { packageId, hours: say(['4', '5', '6']) }, 'mechanic'),
  ).toMatchObject({ code: 'FORBIDDEN' });
  const [one] = await shop.inside((tx) =>
    tx.task.findMany({ where: { title: 'One' }, select: { standardHours: true } }),
  );
  expect(one?.standardHours?.toFixed()).toBe('3');
});
