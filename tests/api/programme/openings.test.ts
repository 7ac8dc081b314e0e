import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeTask, type TestShop } from '../../support/shop.ts';
import { add, aircraft, flown, NOW, type Said } from './flown.ts';

/** "While the cowling is off": what is opened once is worked and sold once (common practice, no source). */
let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => NOW });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

/** A cowling, with oil, hose and plugs behind it; of each a due item. */
async function behindCowling(): Promise<{
  shop: TestShop;
  task: Record<'cowling' | 'oil' | 'hose' | 'plugs' | 'wash', string>;
  item: Record<'oil' | 'hose' | 'plugs', string>;
}> {
  const shop = await flown(api);
  const titled = async (title: string, openingId: string | null) => {
    const { id } = await makeTask(shop, { title, standardHours: '1.0', openingId });
    return id;
  };
  const cowling = await titled('Cowling off and on', null);
  const task = {
    ...{ cowling, wash: await titled('Wash', null), oil: await titled('Oil service', cowling) },
    ...{ hose: await titled('Hose', cowling), plugs: await titled('Plugs', cowling) },
  };
  const due = async (title: string, taskId: string) =>
    (await add(shop, { title, taskId: globalId('Task', taskId) })).id ?? '';
  return {
    shop,
    task,
    item: {
      ...{ oil: await due('Oil', task.oil), hose: await due('Hose', task.hose) },
      plugs: await due('Plugs', task.plugs),
    },
  };
}

interface Quoted extends Said {
  title?: string;
  revisions?: {
    revision: number;
    lines: {
      title: string;
      pricing: string;
      likely: string;
      because: { kind: string; sentence: string }[];
    }[];
  }[];
}
const QUOTE = `... on Quote { id title revisions { revision lines { title pricing likely because { kind sentence } } } }
  ... on Refusal { code message }`;
const does = async (
  shop: TestShop,
  mutation: 'quoteDue' | 'addDueToQuote' | 'draftQuote' | 'sendQuote',
  input: Record<string, unknown>,
  role: 'front_desk' | 'mechanic' = 'front_desk',
): Promise<Quoted> => {
  const type = `${mutation[0]?.toUpperCase()}${mutation.slice(1)}Input`;
  const { data, errors } = await shop.as<Record<string, Quoted>>(
    role,
    `mutation($input: ${type}!) { ${mutation}(input: $input) { ${QUOTE} } }`,
    { input },
  );
  return data?.[mutation] ?? { message: JSON.stringify(errors) };
};
const visit = (shop: TestShop) => ({
  aircraftId: aircraft(shop),
  contactId: globalId('Contact', shop.contactId),
});
const titles = ({ revisions: [newest] = [] }: Quoted) => newest?.lines.map(({ title }) => title);
const saidOf = ({ revisions: [newest] = [] }: Quoted, title: string) =>
  newest?.lines
    .find((line) => line.title === title)
    ?.because.filter(({ kind }) => kind === 'opening')
    .map(({ sentence }) => sentence);
const packageOf = (shop: TestShop, taskIds: readonly string[], priceMinor: bigint | null) =>
  shop.inside(async (tx) => {
    const { id } = await tx.package.create({
      data: { shopId: shop.shopId, key: randomUUID(), title: 'Service', priceMinor },
    });
    await tx.packageTask.createMany({
      data: taskIds.map((taskId, index) => ({ packageId: id, taskId, position: index + 1 })),
    });
    return globalId('Package', id);
  });

describe('an opening that several things need', () => {
  it('is one line, which says for what; and each thing behind it says that it is not in its hours', async () => {
    const { shop, item } = await behindCowling();
    const quote = await does(shop, 'quoteDue', { ...visit(shop), itemIds: [item.oil, item.hose] });
    expect(titles(quote)).toEqual(['Cowling off and on', 'Oil service', 'Hose']);
    expect(saidOf(quote, 'Cowling off and on')).toEqual([
      'Opened and closed once, for: Oil service, Hose.',
    ]);
    expect(saidOf(quote, 'Hose')).toEqual([
      'Opening it is quoted once as “Cowling off and on”, and not in these hours.',
    ]);
  });

  it('is within the price of a package that is sold flat, and added once to one by time', async () => {
    const { shop, item, task } = await behindCowling();
    const flat = await packageOf(shop, [task.plugs], 50_000n);
    const byTime = await packageOf(shop, [task.plugs, task.wash], null);
    const whole = await packageOf(shop, [task.cowling, task.plugs], null);
    const of = (packageId: string) =>
      does(shop, 'quoteDue', { ...visit(shop), packageId, itemIds: [item.oil, item.plugs] });
    expect(titles(await of(flat))).toEqual(['Service', 'Plugs', 'Oil service']);
    expect(titles(await of(byTime))).toEqual([
      ...['Plugs', 'Wash', 'Cowling off and on', 'Oil service'],
    ]);
    const third = await of(whole);
    expect(titles(third)).toEqual(['Cowling off and on', 'Plugs', 'Oil service']);
    expect(saidOf(third, 'Cowling off and on')).toEqual([
      'Opened and closed once, for: Plugs, Oil service.',
    ]);
  });
});

describe('what falls due, added to a draft', () => {
  it('opens once what the draft opens already, and keeps all else as it was', async () => {
    const { shop, item, task } = await behindCowling();
    const part = await shop.inside((tx) =>
      tx.part.create({
        data: {
          shopId: shop.shopId,
          number: 'F-1',
          title: 'Filter',
          unit: 'each',
          unitPrice: '12.50',
        },
      }),
    );
    const fixed = { taskId: globalId('Task', task.wash), pricing: 'fixed', price: '9900' };
    const draft = await does(shop, 'draftQuote', {
      ...visit(shop),
      tasks: [
        fixed,
        { taskId: globalId('Task', task.cowling) },
        { taskId: globalId('Task', task.oil), pricing: 'not_to_exceed', price: '20000' },
      ],
      parts: [{ partId: globalId('Part', part.id), quantity: '2' }],
      charges: [
        { kind: 'freight', price: '1500' },
        { kind: 'supplies', percent: '5', atMost: '3000' },
      ],
    });
    expect(draft.message).toBeUndefined();
    const more = { quoteId: draft.id, fromRevision: 1, itemIds: [item.oil, item.hose] };
    const added = await does(shop, 'addDueToQuote', more);
    expect(added.revisions?.map(({ revision }) => revision)).toEqual([2, 1]);
    expect(titles(added)).toEqual([
      ...[
        'Wash',
        'Cowling off and on',
        'Oil service',
        'Hose',
        'Filter',
        'Freight',
        'Shop supplies',
      ],
    ]);
    const [now, before] = added.revisions ?? [];
    const figures = (revision: typeof now) =>
      revision?.lines
        .filter(({ title }) => !['Hose', 'Shop supplies'].includes(title))
        .map(({ title, pricing, likely }) => [title, pricing, likely]);
    expect(figures(now)).toEqual(figures(before));
    expect(saidOf(added, 'Cowling off and on')).toEqual([
      'Opened and closed once, for: Oil service, Hose.',
    ]);
    // Said again it is there already.
    const again = await does(shop, 'addDueToQuote', more);
    expect(again.revisions?.map(({ revision }) => revision)).toEqual([2, 1]);
    expect(await does(shop, 'addDueToQuote', { ...more, itemIds: [item.plugs] })).toMatchObject({
      code: 'CONFLICT',
      message: expect.stringMatching(/at revision 2; this was meant for revision 1/),
    });
    const { data } = await shop.as<{ node: { draftQuotes: { id: string }[] } }>(
      'front_desk',
      'query($id: ID!) { node(id: $id) { ... on Aircraft { draftQuotes { id } } } }',
      { id: aircraft(shop) },
    );
    expect(data?.node.draftQuotes).toEqual([{ id: draft.id }]);
  });

  it('opens what the draft does not open, once; and is refused of another aircraft, by a mechanic, and once it was sent', async () => {
    const { shop, item, task } = await behindCowling();
    const draft = await does(shop, 'draftQuote', {
      ...visit(shop),
      ...{ tasks: [{ taskId: globalId('Task', task.wash) }], parts: [] },
    });
    const more = { quoteId: draft.id, fromRevision: 1, itemIds: [item.oil, item.hose] };
    expect((await does(shop, 'addDueToQuote', more, 'mechanic')).code).toBe('FORBIDDEN');
    expect((await does(shop, 'addDueToQuote', { ...more, itemIds: [] })).code).toBe('BAD_INPUT');
    const foreign = await behindCowling();
    expect(await does(foreign.shop, 'addDueToQuote', more)).toMatchObject({ code: 'NOT_FOUND' });
    const other = await shop.inside((tx) =>
      tx.aircraft.create({
        data: { shopId: shop.shopId, modelId: shop.modelId, registration: 'QQ-4TH', serial: '4' },
      }),
    );
    const elsewhere = await add(shop, {
      aircraftId: globalId('Aircraft', other.id),
      title: 'Oil',
      taskId: globalId('Task', task.oil),
    });
    expect(await does(shop, 'addDueToQuote', { ...more, itemIds: [elsewhere.id] })).toMatchObject({
      code: 'NOT_FOUND',
    });
    expect(titles(await does(shop, 'addDueToQuote', more))).toEqual([
      ...['Wash', 'Cowling off and on', 'Oil service', 'Hose'],
    ]);
    await shop.inside(async (tx) => {
      const { id } = await tx.quoteRevision.findFirstOrThrow({ orderBy: { revision: 'desc' } });
      await tx.quoteSending.create({ data: { revisionId: id, channel: 'email' } });
    });
    expect(
      await does(shop, 'addDueToQuote', { ...more, fromRevision: 2, itemIds: [item.plugs] }),
    ).toMatchObject({
      code: 'AGAINST_RULE',
      message: expect.stringMatching(/was sent to its owner already/),
    });
  });
});
