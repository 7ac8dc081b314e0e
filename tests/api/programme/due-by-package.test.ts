import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import type { Prisma } from '@fairlead/database';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeTask, type TestShop } from '../../support/shop.ts';
import { add, aircraft, flown, NOW, type Said } from './flown.ts';

/** An inspection that falls due is quoted by a package that is one; an annual counts for the 100-hour too (14 CFR 91.409(b)). */
let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => NOW });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

/** An aircraft with an annual, a 100-hour and an oil change that fall due. */
async function due() {
  const shop = await flown(api);
  const task = await makeTask(shop, { title: 'Oil', standardHours: '1' });
  const annual = { title: 'Annual', source: '14 CFR 91.409(a)', rule: 'annual' };
  const oil = { title: 'Oil', taskId: globalId('Task', task.id) };
  return {
    shop,
    hundred: (await add(shop)).id ?? '',
    annual: (await add(shop, annual)).id ?? '',
    oil: (await add(shop, oil)).id ?? '',
  };
}

async function packageOf(
  shop: TestShop,
  over: Omit<Prisma.PackageUncheckedCreateInput, 'shopId' | 'key'>,
): Promise<string> {
  const task = await makeTask(shop, { title: `All of ${over.title}`, standardHours: '9' });
  return shop.inside(async (tx) => {
    const { id } = await tx.package.create({
      data: { shopId: shop.shopId, key: randomUUID(), ...over },
    });
    await tx.packageTask.create({ data: { packageId: id, taskId: task.id, position: 1 } });
    return globalId('Package', id);
  });
}

interface Quoted extends Said {
  title?: string;
  revisions?: { revision: number; lines: { title: string }[] }[];
}
async function does(
  shop: TestShop,
  name: 'quoteDue' | 'addDueToQuote' | 'draftQuote',
  input: Record<string, unknown>,
): Promise<Quoted> {
  const type = `${name[0]?.toUpperCase()}${name.slice(1)}Input`;
  const { data, errors } = await shop.as<Record<string, Quoted>>(
    'front_desk',
    `mutation($input: ${type}!) { ${name}(input: $input) { ... on Refusal { code message }
      ... on Quote { id title revisions { revision lines { title } } } } }`,
    { input },
  );
  return data?.[name] ?? { message: JSON.stringify(errors) };
}
const visit = (shop: TestShop) => ({
  aircraftId: aircraft(shop),
  contactId: globalId('Contact', shop.contactId),
});
const titles = ({ revisions: [newest] = [] }: Quoted) => newest?.lines.map(({ title }) => title);

describe('an inspection that falls due', () => {
  it('is quoted by a package that is one, beside what else is ticked; an annual is the 100-hour too', async () => {
    const { shop, annual, hundred, oil } = await due();
    const packageId = await packageOf(shop, { title: 'Our annual', inspection: 'annual' });
    const quote = await does(shop, 'quoteDue', {
      ...visit(shop),
      packageId,
      itemIds: [annual, hundred, oil],
    });
    expect(quote.title).toBe('Our annual');
    expect(titles(quote)).toEqual(['All of Our annual', 'Oil']);
  });

  it('is refused without a package, and with one that is no such inspection', async () => {
    const { shop, annual, hundred, oil } = await due();
    const none = await packageOf(shop, { title: 'Wash' });
    const lesser = await packageOf(shop, { title: '100-hour', inspection: 'hundred_hour' });
    const before = await shop.inside((tx) => tx.quote.count());
    const refused = async (itemIds: string[], packageId?: string) => {
      const said = await does(shop, 'quoteDue', { ...visit(shop), itemIds, packageId });
      expect(said.code).toBe('AGAINST_RULE');
      return said.message;
    };
    expect(await refused([hundred, oil])).toMatch(/“100-hour” is quoted by a package/);
    expect(await refused([hundred], none)).toMatch(/“100-hour” is quoted by a package/);
    expect(await refused([annual, hundred], lesser)).toMatch(/“Annual” is quoted by a package/);
    expect(
      await does(shop, 'quoteDue', {
        ...{ ...visit(shop), itemIds: [oil] },
        packageId: globalId('Package', randomUUID()),
      }),
    ).toMatchObject({ code: 'NOT_FOUND' });
    expect(await shop.inside((tx) => tx.quote.count())).toBe(before);
  });

  it('is on a draft of such a package already, and comes on no other', async () => {
    const { shop, annual, hundred, oil } = await due();
    const packageId = await packageOf(shop, { title: '100-hour', inspection: 'hundred_hour' });
    const draft = await does(shop, 'draftQuote', { ...visit(shop), packageId });
    const more = { quoteId: draft.id, fromRevision: 1 };
    expect(
      (await does(shop, 'addDueToQuote', { ...more, itemIds: [hundred] })).revisions,
    ).toHaveLength(1);
    expect(titles(await does(shop, 'addDueToQuote', { ...more, itemIds: [hundred, oil] }))).toEqual(
      ['All of 100-hour', 'Oil'],
    );
    expect(
      await does(shop, 'addDueToQuote', { ...more, fromRevision: 2, itemIds: [annual] }),
    ).toMatchObject({ code: 'AGAINST_RULE' });
  });
});

it('shows the packages that are an inspection of the aircraft, its model’s own first, and what each item asks for', async () => {
  const { shop } = await due();
  const { modelId } = await shop.inside((tx) =>
    tx.aircraft.findUniqueOrThrow({ where: { id: shop.aircraftId }, select: { modelId: true } }),
  );
  const other = { inspection: 'annual' as const, modelKind: 'airplane_twin' as const };
  await packageOf(shop, { title: 'Any', inspection: 'annual' });
  await packageOf(shop, { title: 'Twins', ...other });
  await packageOf(shop, { title: 'Gone', inspection: 'annual', offered: false });
  await packageOf(shop, { title: 'Kind', inspection: 'annual', modelKind: 'helicopter_two_seat' });
  await packageOf(shop, { title: 'Own', inspection: 'hundred_hour', modelId });
  await packageOf(shop, { title: 'Wash' });
  const { data } = await shop.as<{
    node: {
      inspectionPackages: { title: string }[];
      due: { lines: { title: string; inspection: string | null }[] };
    };
  }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Aircraft { inspectionPackages { title } due { lines { title inspection } } } } }',
    { id: aircraft(shop) },
  );
  expect(data?.node.inspectionPackages.map(({ title }) => title)).toEqual(['Own', 'Kind', 'Any']);
  const asked = new Map(data?.node.due.lines.map((line) => [line.title, line.inspection]));
  expect(asked.get('Annual')).toBe('annual');
  expect(asked.get('100-hour')).toBe('hundred_hour');
});
