/** Labour rates by kind of work and date: a quote keeps its own, and the bill takes what was agreed. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { draft as draftInvoice, makeSold } from '../books/billing.ts';
import {
  draft,
  forOwner,
  gid,
  makeTasks,
  quoted,
  refused,
  revise,
  tasksOf,
} from './quoting-shop.ts';

let api: TestApi;
let now = new Date('2031-05-07T12:00:00Z');
beforeAll(async () => {
  api = await startApi({ now: () => now });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Said {
  id: string;
  code?: string;
  message?: string;
  field?: string;
}
async function say(
  shop: TestShop,
  name: string,
  type: string,
  on: string,
  input: Record<string, unknown>,
  role: Parameters<TestShop['as']>[0] = 'manager',
): Promise<Said> {
  const { data } = await shop.as<{ done: Said }>(
    role,
    `mutation($input: ${type}!) { done: ${name}(input: $input) { ... on ${on} { id } ... on Refusal { code message field } } }`,
    { input },
  );
  if (!data) throw new Error(`${name} answered nothing`);
  return data.done;
}
const nameKind = (shop: TestShop, name: string) =>
  say(shop, 'addWorkKind', 'AddWorkKindInput', 'WorkKind', { name });
const rate = (shop: TestShop, kind: string, amount: string, validFrom: string) =>
  say(shop, 'addLabourRate', 'AddLabourRateInput', 'LabourRate', { kind, rate: amount, validFrom });
const ofKind = (shop: TestShop, taskId: string, workKindId: string | null) =>
  say(shop, 'setTaskKind', 'SetTaskKindInput', 'Task', { taskId: gid('Task', taskId), workKindId });

const priced = async (shop: TestShop, id: string) => {
  const { data } = await shop.as<{
    node: { newest: { lines: { unitPrice: string; workKind: string; pricedBy: string | null }[] } };
  }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Quote { newest { lines { unitPrice workKind pricedBy } } } } }',
    { id },
  );
  return data?.node.newest.lines;
};

describe('a kind of work', () => {
  it('has its own rate from a day on, and the general one until then', async () => {
    now = new Date('2031-05-07T12:00:00Z');
    const shop = await makeShop(api);
    const [engine, other] = await makeTasks(shop, 2);
    const { id } = await nameKind(shop, 'engine');
    expect(await ofKind(shop, engine?.id ?? '', id)).not.toHaveProperty('code');
    const wanted = {
      ...forOwner(shop),
      tasks: tasksOf([engine, other].flatMap((each) => each ?? [])),
    };
    const before = quoted(await draft(shop, wanted));
    expect(await priced(shop, before.id)).toEqual([
      {
        ...{ unitPrice: '95', workKind: '' },
        pricedBy: 'At the general rate, which holds from 2025-01-01.',
      },
      expect.objectContaining({ unitPrice: '95', workKind: '' }),
    ]);
    await rate(shop, 'Engine', '120', '2031-05-07');
    await rate(shop, 'engine', '140', '2031-06-01');
    const after = quoted(await draft(shop, wanted));
    expect(await priced(shop, after.id)).toEqual([
      {
        ...{ unitPrice: '120', workKind: 'engine' },
        pricedBy: 'At the rate for engine, which holds from 2031-05-07.',
      },
      expect.objectContaining({ unitPrice: '95', workKind: '' }),
    ]);
    // Two tasks of two hours: the likely whole is drawn from both rates, within the ends of its lines.
    const whole = Number(after.newest.likely);
    const each = after.newest.lines.map(({ likely }) => Number(likely));
    expect(whole).toBeGreaterThan(Number(before.newest.likely));
    expect(Math.abs(whole / each.reduce((sum, one) => sum + one, 0) - 1)).toBeLessThan(0.15);
    now = new Date('2031-06-02T12:00:00Z');
    const june = quoted(
      await revise(shop, { quoteId: after.id, fromRevision: 1, tasks: wanted.tasks }),
    );
    expect((await priced(shop, june.id))?.[0]).toMatchObject({ unitPrice: '140' });
    expect(
      quoted(await draft(shop, { ...wanted, tasks: wanted.tasks.slice(1) })).newest.lines[0],
    ).toMatchObject({
      unitPrice: '95',
    });
  });

  it('is billed at the rate that was quoted; work that nobody quoted at today’s rate of its kind', async () => {
    now = new Date('2031-05-07T12:00:00Z');
    const shop = await makeShop(api);
    const [task] = await makeTasks(shop, 1);
    const { id } = await nameKind(shop, 'avionics');
    await ofKind(shop, task?.id ?? '', id);
    await rate(shop, 'avionics', '130', '2031-05-01');
    const visit = await makeSold(shop, {
      lines: [{ title: 'Radio', likelyMinor: 11_000n, unitPrice: '110' }],
      ceiling: 100_000n,
      items: [
        { title: 'Radio', line: 0, seconds: 3600, taskId: task?.id ?? null },
        { title: 'Wiring', line: null, seconds: 3600, taskId: task?.id ?? null },
      ],
    });
    const invoice = await draftInvoice(shop, visit);
    expect(invoice.lines.map(({ title, unitPrice }) => [title, unitPrice])).toEqual([
      ['Radio', '110'],
      ['Wiring', '130'],
    ]);
    const { data } = await shop.as<{ node: { costSoFar: string } }>(
      'front_desk',
      'query($id: ID!) { node(id: $id) { ... on WorkOrder { costSoFar } } }',
      { id: visit.order },
    );
    expect(data?.node.costSoFar).toBe(invoice.net);
  });

  it('is named by the manager, once, and never as the rate for all or the cost', async () => {
    const shop = await makeShop(api);
    const { id } = await nameKind(shop, 'Structure');
    expect((await nameKind(shop, ' structure ')).id).toBe(id);
    for (const name of ['General', 'mechanic', 'COST', 'x', 'y'.repeat(41)])
      expect(await nameKind(shop, name)).toMatchObject({ code: 'BAD_INPUT', field: 'name' });
    expect(await rate(shop, 'sheet metal', '90', '2031-05-07')).toMatchObject({
      ...{ code: 'BAD_INPUT', field: 'kind' },
      message:
        'kind is "sheet metal", which the shop has not named: needed is mechanic (for all work without a kind), cost, Structure. Name it first.',
    });
    expect(
      await say(
        shop,
        'addWorkKind',
        'AddWorkKindInput',
        'WorkKind',
        { name: 'engine' },
        'front_desk',
      ),
    ).toMatchObject({ code: 'FORBIDDEN' });
    const [task] = await makeTasks(shop, 1);
    expect(await ofKind(shop, task?.id ?? '', gid('WorkKind', crypto.randomUUID()))).toMatchObject({
      code: 'NOT_FOUND',
    });
  });

  it('without any rate for the day a quote says which day and what is needed', async () => {
    now = new Date('2024-06-01T12:00:00Z');
    const shop = await makeShop(api);
    const answer = await draft(shop, {
      ...forOwner(shop),
      tasks: tasksOf(await makeTasks(shop, 1)),
    });
    expect(refused(answer)).toMatchObject({
      code: 'AGAINST_RULE',
      message: expect.stringContaining("no labour rate for a mechanic's hour on 2024-06-01"),
    });
  });
});
