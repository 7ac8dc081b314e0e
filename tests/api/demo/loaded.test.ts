/** What the demo shop holds once it is loaded, in the states that the program derives. */
import { existsSync } from 'node:fs';
import path from 'node:path';
import { DEMO_SHOP_ID } from '@fairlead/api/demo/load-demo';
import {
  findingFacts,
  findingState,
  itemFacts,
  itemState,
  orderFacts,
  orderState,
  quoteFacts,
  quoteState,
} from '@fairlead/api/states';
import { photoFile } from '@fairlead/api/work/photo-files';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { startDemo } from './demo-shop.ts';

const TODAY = new Date('2027-03-02T00:00:00Z');

let demo: Awaited<ReturnType<typeof startDemo>>;
beforeAll(async () => {
  demo = await startDemo();
});
afterAll(() => demo.stop());

describe('what is there', () => {
  test('nine aircraft, six people, sixty tasks, three hundred past jobs', async () => {
    const counts = await demo.inside(async (tx) => ({
      aircraft: await tx.aircraft.count(),
      people: await tx.person.count(),
      tasks: await tx.task.count(),
      past: await tx.historyItem.count(),
      packages: await tx.package.count(),
      orders: await tx.workOrder.count(),
      quotes: await tx.quote.count(),
      findings: await tx.finding.count(),
      sightings: await tx.findingSighting.count(),
      outcomes: await tx.findingOutcome.count(),
    }));
    expect(counts).toEqual({
      aircraft: 9,
      people: 6,
      tasks: 60,
      past: 300,
      packages: 4,
      orders: 4,
      quotes: 9,
      findings: 5,
      sightings: 5,
      outcomes: 3,
    });
  });

  test('states, as they are derived everywhere: here, released, planned; one finding offered; one quote sent', async () => {
    const orders = await demo.inside((tx) =>
      tx.workOrder.findMany({
        orderBy: { number: 'asc' },
        select: { number: true, aircraft: { select: { registration: true } }, ...orderFacts },
      }),
    );
    expect(
      orders.map((order) => [order.number, order.aircraft.registration, orderState(order)]),
    ).toEqual([
      [559, 'QQ-117', 'here'],
      [560, 'QQ-163', 'released'],
      [561, 'QQ-188', 'here'],
      [562, 'QQ-156', 'planned'],
    ]);
    const findings = await demo.inside((tx) =>
      tx.finding.findMany({
        orderBy: { foundAt: 'asc' },
        select: { title: true, ...findingFacts },
      }),
    );
    expect(findings.map((finding) => [finding.title, findingState(finding, TODAY)])).toEqual([
      ['Left fuel pump leaks fuel at its overboard drain', 'agreed'],
      ['Oil seep at rocker cover, cylinder 3', 'corrected'],
      ['Breather hose chafed by a tube', 'corrected'],
      ['Exhaust collector cracked behind the cabin-heat shroud', 'offered'],
      ['Fine black dust below the belts', 'assessed'],
    ]);
    const quotes = await demo.inside((tx) =>
      tx.quote.findMany({
        where: { findingId: null },
        orderBy: { number: 'asc' },
        select: { aircraft: { select: { registration: true } }, ...quoteFacts },
      }),
    );
    expect(quotes.map((quote) => [quote.aircraft.registration, quoteState(quote, TODAY)])).toEqual([
      ['QQ-117', 'accepted'],
      ['QQ-163', 'accepted'],
      ['QQ-156', 'accepted'],
      ['QQ-188', 'accepted'],
      ['QQ-170', 'sent'],
    ]);
    const waiting = await demo.inside((tx) =>
      tx.workItem.findMany({
        where: { order: { number: 561 } },
        orderBy: { position: 'asc' },
        select: { title: true, ...itemFacts },
      }),
    );
    expect(waiting.map((item) => itemState(item))).toEqual(['done', 'waiting', 'open']);
  });

  test('days are counted from the day of loading', async () => {
    const arrived = await demo.inside((tx) =>
      tx.orderEvent.findFirstOrThrow({ where: { kind: 'arrived', order: { number: 559 } } }),
    );
    expect(arrived.at.toISOString()).toBe('2027-02-28T08:10:00.000Z');
    const authorization = await demo.inside((tx) =>
      tx.certificate.findFirstOrThrow({ where: { kind: 'inspection_authorization' } }),
    );
    // 14 CFR 65.92: 31 March of an odd year.
    expect(authorization.validUntil?.toISOString().slice(0, 10)).toBe('2027-03-31');
  });

  test('photographs are kept in every size and say what they show', async () => {
    const photos = await demo.inside((tx) => tx.photo.findMany({ include: { findings: true } }));
    expect(photos).toHaveLength(6);
    for (const photo of photos) {
      expect(photo.findings).toHaveLength(1);
      expect(photo.words.length).toBeGreaterThan(10);
      for (const size of ['original', 'large', 'middle', 'thumb'] as const)
        expect(
          existsSync(path.join(demo.api.uploadsDir, photoFile(DEMO_SHOP_ID, photo.sha256, size))),
        ).toBe(true);
    }
  });
});
