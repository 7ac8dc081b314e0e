/** Tasks at a fixed price and not to exceed one, beside those by time and materials. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop } from '../../support/shop.ts';
import { draft, forOwner, makeTasks, quoted, refused, revise, tasksOf } from './quoting-shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const amounts = ({ low, likely, p80, high }: Record<'low' | 'likely' | 'p80' | 'high', string>) =>
  [low, likely, p80, high].map(Number);
const all = (amount: number) => [amount, amount, amount, amount];

describe('tasks of one quote, each sold in its own way', () => {
  it('a fixed price is firm whatever it takes, a limit caps the range, and time is open', async () => {
    const shop = await makeShop(api);
    const [open, fixed, limited] = tasksOf(await makeTasks(shop, 3));
    const plain = quoted(await draft(shop, { ...forOwner(shop), tasks: [open, fixed, limited] }));
    const byTime = plain.newest.lines.map(amounts);
    // Half way between what it likely comes to and what nine in ten come out under.
    const limit = Math.round(((byTime[2]?.[1] ?? 0) + (byTime[2]?.[3] ?? 0)) / 2);
    const { newest } = quoted(
      await draft(shop, {
        ...forOwner(shop),
        tasks: [
          open,
          { ...fixed, pricing: 'fixed', price: '45000' },
          { ...limited, pricing: 'not_to_exceed', price: `${limit}` },
        ],
      }),
    );
    expect(newest.lines.map(({ pricing, unitPrice }) => [pricing, unitPrice])).toEqual([
      ['time_and_materials', '95'],
      ['fixed', '450'],
      ['not_to_exceed', '95'],
    ]);
    expect(newest.lines.map(({ limit: kept }) => kept)).toEqual([null, null, `${limit}`]);
    expect(amounts(newest.lines[0]!)).toEqual(byTime[0]);
    expect(amounts(newest.lines[1]!)).toEqual(all(45_000));
    expect(amounts(newest.lines[2]!)).toEqual(
      (byTime[2] ?? []).map((amount) => Math.min(amount, limit)),
    );
    // Hours do not depend on how they are sold; the whole lies between its parts' ends.
    expect(newest.hours).toEqual(plain.newest.hours);
    const [low = 0, likely = 0, p80 = 0, high = 0] = amounts(newest);
    const ends = newest.lines.map(amounts);
    const sum = (at: number) => ends.reduce((total, line) => total + (line[at] ?? 0), 0);
    expect(low).toBeGreaterThan(sum(0));
    expect(high).toBeLessThan(sum(3));
    expect(low).toBeLessThan(likely);
    expect(p80).toBeLessThan(high);
  });

  it('with every limit below what nine in ten take, the whole comes to the limits; with none in reach, to what time alone does', async () => {
    const shop = await makeShop(api);
    const tasks = tasksOf(await makeTasks(shop, 2));
    const plain = quoted(await draft(shop, { ...forOwner(shop), tasks }));
    const sold = async (price: string) =>
      quoted(
        await draft(shop, {
          ...forOwner(shop),
          tasks: tasks.map((task) => ({ ...task, pricing: 'not_to_exceed', price })),
        }),
      ).newest;
    expect(amounts(await sold('100'))).toEqual(all(200));
    const out = amounts(await sold('99999999'));
    // Both are 20,000 sums: a quantile of them moves by about a hundredth.
    for (const [index, amount] of amounts(plain.newest).entries())
      expect(Math.abs((out[index] ?? 0) / amount - 1)).toBeLessThan(0.02);
  });

  it('the next revision says anew how each is sold, and the model gives the same hours again', async () => {
    const shop = await makeShop(api);
    const [one, other] = tasksOf(await makeTasks(shop, 2));
    const first = quoted(
      await draft(shop, {
        ...forOwner(shop),
        tasks: [{ ...one, pricing: 'fixed', price: '12300' }, other],
      }),
    );
    const second = quoted(
      await revise(shop, { quoteId: first.id, fromRevision: 1, tasks: [one, other] }),
    );
    expect(second.newest.lines.map(({ pricing }) => pricing)).toEqual([
      'time_and_materials',
      'time_and_materials',
    ]);
    const { data } = await shop.as<{
      node: { revisions: { recomputed: { same: boolean } | null }[] };
    }>(
      'front_desk',
      'query($id: ID!) { node(id: $id) { ... on Quote { revisions { recomputed { same } } } } }',
      { id: first.id },
    );
    expect(data?.node.revisions.map(({ recomputed }) => recomputed?.same)).toEqual([true, true]);
  });

  it.each([
    [{ pricing: 'fixed' }, 'needs that price, and none is given'],
    [{ pricing: 'not_to_exceed', price: '0' }, '0 minor units were given'],
    [{ pricing: 'fixed', price: '-5' }, '-5 minor units were given'],
    [{ price: '500' }, 'by time and materials has no price of its own'],
  ])('%j is refused', async (sold, words) => {
    const shop = await makeShop(api);
    const [task] = tasksOf(await makeTasks(shop, 1));
    const answer = refused(await draft(shop, { ...forOwner(shop), tasks: [{ ...task, ...sold }] }));
    expect(answer).toMatchObject({ code: 'BAD_INPUT', field: 'tasks' });
    expect(answer.message).toContain(words);
  });
});
