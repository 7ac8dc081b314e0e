import { randomUUID } from 'node:crypto';
import { starterPackage } from '@fairlead/airworthiness';
import { globalId as gid } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, makeTask, type TestShop } from '../../support/shop.ts';

let api: TestApi;
let now: Date;
beforeAll(async () => {
  api = await startApi({ now: () => now });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Package {
  id: string;
  code?: string;
  message?: string;
  field?: string | null;
  title: string;
  revision: number;
  warning: string | null;
  offered: boolean;
  missing: { paragraph: string }[];
  tasks: {
    task: {
      id: string;
      title: string;
      standardHours: string | null;
      checklist: string[];
      cautions: string[];
    };
  }[];
  revisions: { revision: number; titles: string[]; by: { name: string } }[];
}
const PACKAGE = `__typename ... on Refusal { code message field } ... on Package { id title revision warning offered missing { paragraph }
  tasks { task { id title standardHours checklist cautions } } revisions { revision titles by { name } } }`;

type Role = Parameters<TestShop['as']>[0];
const ask =
  (name: string, type: string) =>
  async (shop: TestShop, input: Record<string, unknown>, role: Role = 'manager') => {
    const answer = await shop.as<{ done: Package }>(
      role,
      `mutation($input: ${type}!) { done: ${name}(input: $input) { ${PACKAGE} } }`,
      { input },
    );
    if (!answer.data) throw new Error(JSON.stringify(answer.errors));
    return answer.data.done;
  };
const takeStarter = ask('takeStarter', 'TakeStarterInput');
const savePackage = ask('savePackage', 'SavePackageInput');

const made = async () => {
  now = new Date('2026-12-01T10:00:00Z');
  const shop = await makeShop(api);
  const tasks = [
    await makeTask(shop, { title: 'One' }),
    await makeTask(shop, { title: 'Two' }),
    await makeTask(shop, { title: 'Three' }),
  ].map(({ id }) => gid('Task', id));
  return { shop, tasks };
};
const inspection = (taskIds: readonly string[]) => ({
  title: 'Our 100-hour',
  inspection: 'hundred_hour',
  modelKind: 'helicopter_two_seat',
  madeFrom: 'Invented manual, revision 7',
  madeFromOn: '2026-06-01',
  taskIds,
});

describe('a starter package', () => {
  it('becomes the shop’s own: every line of the rule as a task with its list and cautions, and no hours', async () => {
    const { shop } = await made();
    const starter = starterPackage('hundred_hour', 'helicopter');
    const pack = await takeStarter(shop, {
      starter: starter.key,
      modelKind: 'helicopter_two_seat',
    });
    expect(pack).toMatchObject({ title: starter.title, revision: 1, missing: [], warning: null });
    expect(pack.tasks.map(({ task }) => task.title)).toEqual(
      starter.items.map(({ title }) => title),
    );
    for (const { task } of pack.tasks) {
      expect(task.standardHours).toBeNull();
      expect(task.checklist.length).toBeGreaterThan(0);
      expect(task.cautions.length).toBeGreaterThan(0);
    }
    expect(pack.revisions).toEqual([
      {
        revision: 1,
        titles: starter.items.map(({ title }) => title),
        by: { name: 'Test manager' },
      },
    ]);
  });

  it('taken for another inspection brings no task twice, and keeps what the shop changed', async () => {
    const { shop } = await made();
    const first = await takeStarter(shop, {
      starter: 'hundred-hour-airplane',
      modelKind: 'airplane_single',
    });
    const count = () => shop.inside((tx) => tx.task.count());
    const before = await count();
    await shop.inside((tx) =>
      tx.task.updateMany({ where: { key: 'appd-c2-seats-belts' }, data: { standardHours: 0.4 } }),
    );
    const second = await takeStarter(shop, {
      starter: 'annual-airplane',
      modelKind: 'airplane_twin',
    });
    expect(await count()).toBe(before);
    expect(second.id).not.toBe(first.id);
    expect(second.tasks.find(({ task }) => task.title.includes('belts'))?.task.standardHours).toBe(
      '0.4',
    );
  });

  it('warns a year after its data were compared', async () => {
    const { shop } = await made();
    const pack = await takeStarter(shop, {
      starter: 'annual-airplane',
      modelKind: 'airplane_single',
    });
    now = new Date('2027-11-25T12:00:00Z');
    expect(await warning(shop, pack.id)).toBeNull();
    now = new Date('2027-11-26T12:00:00Z');
    expect(await warning(shop, pack.id)).toMatch(
      /^Made from 14 CFR part 43, .* of 2026-11-25: over 12 months ago/,
    );
  });

  it.each([
    [{ starter: 'fifty-hour', modelKind: 'airplane_single' }, 'BAD_INPUT', /needed is one of/],
    [
      { starter: 'annual-airplane', modelKind: 'helicopter_two_seat' },
      'BAD_INPUT',
      /for a airplane|is for a/,
    ],
    [{ starter: 'annual-airplane' }, 'BAD_INPUT', /one model or for one kind/],
    [
      { starter: 'annual-airplane', modelId: gid('AircraftModel', randomUUID()) },
      'NOT_FOUND',
      /model/,
    ],
  ])('is refused for %j', async (input, code, words) => {
    const { shop } = await made();
    const refusal = await takeStarter(shop, input);
    expect(refusal.code).toBe(code);
    expect(refusal.message).toMatch(words);
    expect(await shop.inside((tx) => tx.package.count())).toBe(0);
  });

  it('is for the manager', async () => {
    const { shop } = await made();
    const input = { starter: 'annual-airplane', modelKind: 'airplane_single' };
    for (const role of ['front_desk', 'mechanic', 'inspector'] as const)
      expect((await takeStarter(shop, input, role)).code).toBe('FORBIDDEN');
  });
});

async function warning(shop: TestShop, id: string): Promise<string | null | undefined> {
  const { data } = await shop.as<{ node: { warning: string | null } }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Package { warning } } }',
    { id },
  );
  return data?.node.warning;
}

describe('the shop’s own package', () => {
  it('is put together, changed from the revision that was read, and each revision stays readable', async () => {
    const { shop, tasks } = await made();
    const first = await savePackage(shop, inspection(tasks.slice(0, 2)));
    expect(first).toMatchObject({ revision: 1, warning: null });
    expect(first.missing.length).toBe(starterPackage('annual', 'helicopter').items.length);
    const change = {
      ...inspection([tasks[2]!, tasks[0]!]),
      packageId: first.id,
      fromRevision: 1,
      offered: false,
    };
    const second = await savePackage(shop, change);
    expect(second.revision).toBe(2);
    expect(second.offered).toBe(false);
    expect(second.tasks.map(({ task }) => task.title)).toEqual(['Three', 'One']);
    expect(second.revisions.map(({ revision, titles }) => [revision, titles])).toEqual([
      [2, ['Three', 'One']],
      [1, ['One', 'Two']],
    ]);
    const late = await savePackage(shop, change);
    expect(late.code).toBe('CONFLICT');
    expect(late.message).toMatch(/is at revision 2 by now, and you changed revision 1/);
  });

  it('changed by two people at once: one is told', async () => {
    const { shop, tasks } = await made();
    const { id } = await savePackage(shop, inspection(tasks));
    await shop.cookie('manager');
    const both = await Promise.all(
      [tasks.slice(0, 1), tasks.slice(1)].map((taskIds) =>
        savePackage(shop, { ...inspection(taskIds), packageId: id, fromRevision: 1 }),
      ),
    );
    expect(both.map(({ code }) => code ?? 'done').toSorted()).toEqual(['CONFLICT', 'done']);
  });

  it.each([
    ['no task', { taskIds: [] }, 'taskIds', /has 0 tasks/],
    ['a task twice', { twice: true }, 'taskIds', /twice/],
    ['an inspection without data', { madeFrom: ' ' }, 'madeFrom', /names the data/],
    ['data of tomorrow', { madeFromOn: '2026-12-02' }, 'madeFromOn', /to today/],
    ['a price of nothing', { price: '0' }, 'price', /more than 0/],
    ['a title too short', { title: 'A' }, 'title', /needed are 3 to 200/],
    ['a kind and a model', { both: true }, 'modelId', /not for both/],
  ])(
    'with %s is refused, and nothing is changed',
    async (_, { twice, both, ...over }: Record<string, unknown>, field, words) => {
      const { shop, tasks } = await made();
      const refusal = await savePackage(shop, {
        ...inspection(twice ? [tasks[0]!, tasks[0]!] : tasks),
        ...(both ? { modelId: gid('AircraftModel', shop.modelId) } : {}),
        ...over,
      });
      expect(refusal).toMatchObject({ code: 'BAD_INPUT', field });
      expect(refusal.message).toMatch(words);
      expect(await shop.inside((tx) => tx.package.count())).toBe(0);
    },
  );

  it('no longer offered makes no new quote', async () => {
    const { shop, tasks } = await made();
    const { id } = await savePackage(shop, { ...inspection(tasks), offered: false });
    const draft = await shop.as<{ draftQuote: { code: string; message: string } }>(
      'front_desk',
      'mutation($input: DraftQuoteInput!) { draftQuote(input: $input) { ... on Refusal { code message } } }',
      {
        input: {
          aircraftId: gid('Aircraft', shop.aircraftId),
          contactId: gid('Contact', shop.contactId),
          packageId: id,
        },
      },
    );
    expect(draft.data?.draftQuote).toMatchObject({
      code: 'AGAINST_RULE',
      message: expect.stringContaining('no longer offered') as string,
    });
  });

  it('with another shop’s task is refused', async () => {
    const { shop } = await made();
    const other = await made();
    expect((await savePackage(shop, inspection(other.tasks))).code).toBe('NOT_FOUND');
  });
});
