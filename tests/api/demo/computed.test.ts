/** What the program itself computed while the demo shop was loaded. */
import { estimateTasks } from '@fairlead/api/quoting/estimate-tasks';
import { invoiceFacts, invoiceState } from '@fairlead/api/states';
import { type ClockFact, stretchesOf } from '@fairlead/api/work/stretches';
import { sealAudit } from '@fairlead/database/jobs';
import { rolePool } from '@fairlead/database/role-pool';
import { roles } from '@fairlead/database/roles';
import { currency, documentTotals, type TaxCategory } from '@fairlead/money';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { startDemo } from './demo-shop.ts';

let demo: Awaited<ReturnType<typeof startDemo>>;
beforeAll(async () => {
  demo = await startDemo();
});
afterAll(() => demo.stop());

describe('what the program computed', () => {
  test('stretches are those that follow from each person’s clock events, and no clock runs', async () => {
    const people = await demo.inside((tx) =>
      tx.person.findMany({
        select: {
          apprentice: true,
          clockEvents: true,
          stretches: { orderBy: { startedAt: 'asc' } },
        },
      }),
    );
    expect(people.flatMap(({ stretches }) => stretches)).toHaveLength(38);
    // The apprentice always works under somebody, and nobody else does.
    for (const { apprentice, stretches } of people)
      expect(
        stretches.every(({ supervisedById }) => (supervisedById !== null) === apprentice),
      ).toBe(true);
    for (const { clockEvents, stretches } of people) {
      const expected = stretchesOf(clockEvents as ClockFact[]);
      expect(
        stretches.map(({ itemId, supervisedById, startedAt, endedAt }) => ({
          itemId,
          supervisedById,
          startedAt,
          endedAt,
        })),
      ).toEqual(expected);
      expect(stretches.every(({ endedAt }) => endedAt !== null)).toBe(true);
    }
  });

  test('hours of a quote are what the estimate gives from the clocked history', async () => {
    await demo.inside(async (tx) => {
      const quote = await tx.quote.findFirstOrThrow({
        where: { aircraft: { registration: 'QQ-170' } },
        include: {
          aircraft: { include: { model: true } },
          revisions: {
            include: { lines: { where: { taskId: { not: null } }, orderBy: { position: 'asc' } } },
          },
        },
      });
      const lines = quote.revisions[0]?.lines ?? [];
      expect(lines).toHaveLength(26);
      const { tasks: estimates } = await estimateTasks(tx, {
        taskIds: lines.map(({ taskId }) => taskId ?? ''),
        aircraft: quote.aircraft,
      });
      expect(
        lines.map(({ hoursP50, hoursP90, jobs }) => [
          hoursP50?.toFixed(6),
          hoursP90?.toFixed(6),
          jobs,
        ]),
      ).toEqual(
        estimates.map(({ estimate }) => [
          estimate.p50.toFixed(6),
          estimate.p90.toFixed(6),
          estimate.jobs,
        ]),
      );
      expect(lines.some(({ jobs }) => (jobs ?? 0) > 5)).toBe(true);
    });
  });

  test('the visit was quoted within its ceiling, and the finding goes past it', async () => {
    await demo.inside(async (tx) => {
      const quotes = await tx.quote.findMany({
        where: { order: { number: 559 } },
        orderBy: { number: 'asc' },
        include: { finding: true, revisions: { include: { decisions: true } } },
      });
      const visit = quotes[0]?.revisions[0];
      const collector = quotes.find(({ finding }) => finding?.title.startsWith('Exhaust collector'))
        ?.revisions[0];
      const ceiling = visit?.decisions[0]?.ceilingMinor ?? 0n;
      expect(ceiling).toBe(340_000n);
      expect((visit?.likelyMinor ?? 0n) <= ceiling).toBe(true);
      expect((visit?.likelyMinor ?? 0n) + (collector?.lowMinor ?? 0n) > ceiling).toBe(true);
      expect(collector?.decisions).toEqual([]);
    });
  });

  test('the invoice adds up to the cent, is issued, chained and paid', async () => {
    const invoice = await demo.inside((tx) =>
      tx.invoice.findFirstOrThrow({
        include: {
          lines: { orderBy: { position: 'asc' } },
          payments: true,
          ...{ creditNotes: invoiceFacts.creditNotes },
        },
      }),
    );
    const totals = documentTotals({
      currency: currency(invoice.currency),
      lines: invoice.lines.map((line) => ({
        id: line.id,
        quantity: line.quantity.toFixed(),
        unitPrice: line.unitPrice.toFixed(),
        taxCategory: line.taxCode as TaxCategory,
        taxRate: line.taxRate.toFixed(),
      })),
    });
    expect([totals.net, totals.taxTotal, totals.gross]).toEqual([
      invoice.netMinor,
      invoice.taxMinor,
      invoice.grossMinor,
    ]);
    // By hand: 285.00 + 0.8 h × 96.00 labour at 4 %; 38.00 + 7 × 11.50 + 4.00 + 6.80 parts at 8.5 %.
    expect([invoice.netMinor, invoice.taxMinor, invoice.grossMinor]).toEqual([
      49_110n,
      1_447n + 1_099n,
      51_656n,
    ]);
    expect([invoice.number, invoiceState(invoice)]).toEqual([411, 'issued']);
    expect(invoice.payments.map(({ amountMinor, method }) => [amountMinor, method])).toEqual([
      [51_656n, 'card'],
    ]);
  });

  test('what was used came off the shelves, none below zero', async () => {
    const lots = await demo.inside((tx) => tx.lot.findMany({ include: { movements: true } }));
    for (const { onHand, movements } of lots) {
      const sum = movements.reduce((total, { quantity }) => total + Number(quantity), 0);
      expect(Number(onHand)).toBeCloseTo(sum, 9);
    }
    // 48 quarts received, 6 and 7 used.
    expect(Number(lots.find(({ tag }) => tag === 'EB-5103')?.onHand)).toBe(35);
  });

  test('two entries were signed with 14 CFR 43.9(a) content, and the chain holds before and after the audit is sealed', async () => {
    const entries = await demo.inside((tx) =>
      tx.recordEntry.findMany({
        orderBy: { signedAt: 'asc' },
        include: { items: true, book: true },
      }),
    );
    expect(entries.map(({ book, items }) => [book.kind, items.length]).sort()).toEqual([
      ['airframe', 1],
      ['engine', 4],
    ]);
    for (const { book, text, signature, certificateNumber } of entries) {
      expect(signature).toBe('Hesper Lyle');
      expect(certificateNumber).toBe('DEMO-M-1489');
      // (a)(1) the work, (a)(2) the date, (a)(3) who did it, (a)(4) signature and certificate.
      const done =
        book.kind === 'engine'
          ? ['2027-02-27', 'no metal', 'Corrects finding 1']
          : ['2027-02-26', 'no water'];
      for (const part of [...done, 'Ruan Teasel', 'Hesper Lyle', 'DEMO-M-1489'])
        expect(text).toContain(part);
    }
    const faults = () => demo.inside((tx) => tx.$queryRaw`SELECT * FROM chain_faults()`);
    expect(await faults()).toEqual([]);
    const pool = rolePool({ url: demo.api.database.appUrl, role: roles.jobs, max: 1 });
    expect(await sealAudit(pool)).toBeGreaterThan(500);
    await pool.end();
    expect(await faults()).toEqual([]);
  });
});
