/** What is open, left and tightened in the demo shop: its file, and what the program makes of it. */
import { unclosed, unclosedFacts } from '@fairlead/api/safety/queries';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readDemo } from '../../../prisma/demo/data.ts';
import { orderKeys, orders, personKeys, taskKeys, unknown } from './demo-files.ts';
import { startDemo } from './demo-shop.ts';

const { checklists, tools, orders: care } = readDemo('care.json');

describe('the file', () => {
  test('points only at tasks, orders, items, people and tools that there are', () => {
    expect(unknown(Object.keys(checklists), taskKeys)).toEqual([]);
    expect(unknown(Object.keys(care), orderKeys)).toEqual([]);
    const toolKeys = new Set(tools.map(({ key }) => key));
    for (const [key, each] of Object.entries(care)) {
      const items = new Set(
        orders.find((order) => order.key === key)?.items.map((item) => item.key),
      );
      const all = Object.values(each).flat();
      expect(
        unknown(
          all.map(({ by }) => by),
          personKeys,
        ),
      ).toEqual([]);
      const named = all.flatMap((one) => ('item' in one && one.item ? [one.item] : []));
      expect(unknown(named, items)).toEqual([]);
      expect(
        unknown(
          each.torques.map(({ tool }) => tool),
          toolKeys,
        ),
      ).toEqual([]);
    }
  });

  test('a checklist has a few lines that fit a card, none twice', () => {
    for (const lines of Object.values(checklists)) {
      expect(lines.length).toBeGreaterThanOrEqual(3);
      expect(new Set(lines).size).toBe(lines.length);
      for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
    }
  });
});

describe('once it is loaded', () => {
  let demo: Awaited<ReturnType<typeof startDemo>>;
  beforeAll(async () => {
    demo = await startDemo();
  });
  afterAll(() => demo.stop());

  test('the hundred-hour has panels open, a guard off and tools out; the oil service went with all closed', async () => {
    const all = await demo.inside((tx) =>
      tx.workOrder.findMany({
        orderBy: { number: 'asc' },
        select: { aircraft: { select: { registration: true } }, ...unclosedFacts },
      }),
    );
    const said = Object.fromEntries(
      all.map((order) => [
        order.aircraft.registration,
        unclosed(order).map(({ hinders }) => hinders),
      ]),
    );
    expect(said['QQ-163']).toEqual([]);
    expect(said['QQ-117']).toHaveLength(5);
    expect(said['QQ-117']?.join('\n')).toMatch(
      /“Belly panel 2” \(below the fuel strainer\), opened by Marta [\s\S]*“Drive belt guard”, removed by Ruan Teasel, is not refitted[\s\S]*Rags: 12 out, not counted back/,
    );
  });

  test('every line of a finished item has the initials of who finished it, and one item waits to be taken over', async () => {
    const { items, left } = await demo.inside(async (tx) => ({
      items: await tx.workItem.findMany({
        where: { events: { some: { kind: 'done' } }, NOT: { checklist: { equals: [] } } },
        select: {
          checklist: true,
          checklistEvents: { select: { line: true, byId: true } },
          events: { where: { kind: 'done' }, select: { byId: true } },
        },
      }),
      left: await tx.handOver.findMany({
        where: { takenOver: { is: null } },
        select: { item: { select: { title: true } }, by: { select: { initials: true } } },
      }),
    }));
    expect(items.length).toBeGreaterThanOrEqual(2);
    for (const { checklist, checklistEvents, events } of items) {
      expect(checklistEvents.map(({ line }) => line).sort()).toEqual(
        checklist.map((_, index) => index + 1),
      );
      expect(new Set(checklistEvents.map(({ byId }) => byId))).toEqual(new Set([events[0]?.byId]));
    }
    expect(left).toEqual([
      { item: { title: 'Inspect pedals and tail rotor control run' }, by: { initials: 'MQ' } },
    ]);
  });
});
