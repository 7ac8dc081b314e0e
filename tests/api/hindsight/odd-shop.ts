import type { TestApi } from '../../support/api.ts';
import { addJobs, learn, makeShop, makeTask, type TestShop } from '../../support/shop.ts';

interface Watched {
  id: string;
  own: boolean;
  itemId: string | null;
  orderNumber: number | null;
  title: string;
  task: string;
  hours: number;
  mechanics: string[];
  proposal: {
    p50: number;
    weight: number;
    reasons: { kind: string; words: string; otherTask: string | null }[];
  } | null;
  decisions: {
    verdict: string;
    hours: number | null;
    task: string | null;
    reason: string;
    decidedBy: string;
    proposed: string[];
  }[];
}
interface Odd {
  code?: string;
  field?: string;
  message?: string;
  model: { number: number; items: number; odd: number } | null;
  proposed: Watched[];
  decided: Watched[];
}
const WATCHED = `{ id own itemId orderId orderNumber title task completedOn registration model mechanics hours
  proposal { p10 p50 p90 weight reasons { kind words otherTask } } decisions { verdict hours task reason decidedAt decidedBy proposed } }`;
const ODD = `... on Refusal { code field message } ... on OddTimes { model { number items odd } proposed ${WATCHED} decided ${WATCHED} }`;
type Role = 'manager' | 'inspector' | 'mechanic' | 'front_desk';
export const read = async (shop: TestShop, role: Role = 'manager') => {
  const { data, errors } = await shop.as<{ oddTimes: Odd }>(role, `{ oddTimes { ${ODD} } }`);
  if (!data) throw new Error(JSON.stringify(errors));
  return data.oddTimes;
};
export const decide = async (
  shop: TestShop,
  input: Record<string, unknown>,
  role: Role = 'manager',
) => {
  const { data, errors } = await shop.as<{ decideTime: Odd }>(
    role,
    `mutation ($input: DecideTimeInput!) { decideTime(input: $input) { ${ODD} } }`,
    { input: { reason: 'The lamp was on all night', readDecisions: 0, ...input } },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.decideTime;
};
export const usual = [2, 2.1, 1.9, 2.2, 1.8, 2, 2.05, 1.95, 2.15, 1.85, 2, 2.1, 1.9, 2.05, 1.95];

/** A shop with a history in which one time cannot be believed. */
export async function oddShop(api: TestApi) {
  const shop = await makeShop(api);
  await makeTask(shop, { key: 'hose', title: 'Replace hose' });
  await makeTask(shop, { key: 'belt', title: 'Replace belt' });
  await addJobs(shop, 'hose', [...usual, 31], { mechanic: 'Ann', registration: 'QQ-101' });
  await learn(shop);
  return shop;
}

/** An item of the shop's own, clocked in these stretches and done. */
export async function clocked(
  shop: TestShop,
  {
    taskId,
    orderId,
    stretches,
  }: { taskId: string; orderId: string; stretches: [string, string][] },
) {
  const by = shop.people.mechanic.id;
  return shop.inside(async (tx) => {
    const count = await tx.workItem.count({ where: { orderId } });
    const item = await tx.workItem.create({
      data: { orderId, position: count + 1, taskId, title: `Item ${count + 1}`, jasc: '7810' },
    });
    for (const [from, to] of stretches)
      await tx.stretch.create({
        data: { itemId: item.id, personId: by, startedAt: new Date(from), endedAt: new Date(to) },
      });
    const at = new Date(stretches.at(-1)?.[1] ?? 0);
    await tx.itemEvent.create({
      data: { itemId: item.id, kind: 'done', workDone: 'Done.', at, byId: by },
    });
    return item.id;
  });
}
export const orderOf = (shop: TestShop) =>
  shop.inside((tx) =>
    tx.workOrder.create({ data: { aircraftId: shop.aircraftId, title: 'Work' } }),
  );
