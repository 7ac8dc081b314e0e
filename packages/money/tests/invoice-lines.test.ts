import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type AgreedLine,
  type BillableWork,
  documentTotals,
  invoiceLines,
  minor,
  nothing,
  sumOf,
} from '../src/index.ts';

const tax = { taxCategory: 'S', taxRate: '7' } as const;
const billedTime = { step: '0.1', rounding: 'up' } as const;
const base = {
  title: 'Exhaust collector',
  quotedLabour: minor(30000n),
  quotedParts: minor(50000n),
  labourRate: '100.00',
  stretches: [
    { stretchId: 's1', seconds: 3601 },
    { stretchId: 's2', seconds: 7199 },
  ],
  parts: [{ movementId: 'm1', title: 'Gasket', quantity: '2', unitPrice: '12.35', ...tax }],
  ...tax,
};
const line = (id: string, more: Partial<AgreedLine> & Pick<AgreedLine, 'pricing'>): AgreedLine => ({
  ...base,
  id,
  ...more,
});

test('a fixed price is billed as quoted, with its evidence and no difference', () => {
  const invoice = invoiceLines({
    currency: 'USD',
    billedTime,
    lines: [line('q1', { pricing: 'fixed' })],
  });
  expect(invoice.lines).toHaveLength(1);
  expect(invoice.lines[0]).toMatchObject({
    net: 80000n,
    quantity: '1',
    unitPrice: '800.00',
    origin: { kind: 'fixed', lineId: 'q1', stretchIds: ['s1', 's2'], movementIds: ['m1'] },
  });
  expect(invoice.difference).toEqual([]);
});

test('time and materials are hours, rounded once a line, and parts', () => {
  const invoice = invoiceLines({
    currency: 'USD',
    billedTime,
    lines: [line('q1', { pricing: 'time_and_materials' })],
  });
  expect(invoice.lines.map(({ quantity, unit, net }) => [quantity, unit, net])).toEqual([
    ['3.0', 'hour', 30000n],
    ['2', 'each', 2470n],
  ]);
  expect(invoice.difference).toEqual([
    {
      kind: 'parts',
      lineId: 'q1',
      amount: -47530n,
      because: 'Exhaust collector: parts for less than quoted',
    },
  ]);
});

test('what goes past the line is not billed, says so on its line, and is listed', () => {
  const past = line('f1', { pricing: 'time_and_materials', ceiling: minor(31000n), added: true });
  const invoice = invoiceLines({ currency: 'USD', billedTime, lines: [past] });
  expect(invoice.billed).toBe(31000n);
  expect(invoice.beyondAuthority).toEqual([
    { lineId: 'f1', amount: 1470n, because: 'line_ceiling' },
  ]);
  expect(invoice.lines[0]?.allowances).toEqual([
    { amount: '14.70', reason: 'Beyond what was agreed for this line: not billed' },
  ]);
  expect(invoice.quoted).toBe(0n);
  expect(invoice.difference.map(({ kind, amount }) => [kind, amount])).toEqual([
    ['scope_added', 80000n],
    ['parts', -47530n],
    ['line_ceiling', -1470n],
  ]);
});

test('a price not to be exceeded leaves the rest with the shop, not with the owner', () => {
  const capped = line('q1', { pricing: 'not_to_exceed', ceiling: minor(32000n) });
  const invoice = invoiceLines({ currency: 'USD', billedTime, lines: [capped] });
  expect(invoice.billed).toBe(32000n);
  expect(invoice.beyondAuthority).toEqual([]);
  expect(invoice.carriedByShop).toEqual([{ lineId: 'q1', amount: 470n, because: 'not_to_exceed' }]);
});

test('the ceiling of the whole order comes off the lines priced by time, the last agreed first', () => {
  const invoice = invoiceLines({
    currency: 'USD',
    billedTime,
    ceiling: minor(112000n),
    lines: [
      line('a', { pricing: 'time_and_materials' }),
      line('b', { pricing: 'time_and_materials' }),
      line('c', { pricing: 'fixed' }),
    ],
  });
  expect(invoice.billed).toBe(112000n);
  expect(invoice.beyondAuthority).toEqual([
    { lineId: 'b', amount: 32470n, because: 'order_ceiling' },
    { lineId: 'a', amount: 470n, because: 'order_ceiling' },
  ]);
});

test('lines that cannot be billed are refused with the reason', () => {
  const compose = (lines: AgreedLine[]) => () =>
    invoiceLines({ currency: 'USD', billedTime, lines });
  const one = line('a', { pricing: 'fixed' });
  expect(compose([one, one])).toThrow('two lines with the id a');
  expect(compose([line('a', { pricing: 'not_to_exceed' })])).toThrow('no ceiling is given');
  expect(compose([line('a', { pricing: 'fixed', quotedLabour: minor(-1n) })])).toThrow('at -1');
  const returned = {
    ...base.parts[0],
    movementId: 'm',
    title: 'Core',
    quantity: '-1',
    unitPrice: '5',
    ...tax,
  };
  expect(compose([line('a', { pricing: 'time_and_materials', parts: [returned] })])).toThrow(
    'a return goes on a credit note',
  );
});

const cents = (max: number) => fc.nat({ max }).map((value) => minor(BigInt(value)));
const money = fc.nat({ max: 99_999 }).map((value) => `${value}.25`);
const anyLine = fc.record({
  pricing: fc.constantFrom('fixed', 'time_and_materials', 'not_to_exceed') as fc.Arbitrary<
    AgreedLine['pricing']
  >,
  added: fc.boolean(),
  quotedLabour: cents(500_000),
  quotedParts: cents(500_000),
  ceiling: cents(900_000),
  labourRate: money,
  seconds: fc.array(fc.nat({ max: 40_000 }), { maxLength: 4 }),
  prices: fc.array(money, { maxLength: 3 }),
});
const anyWork: fc.Arbitrary<BillableWork> = fc
  .record({ lines: fc.array(anyLine, { maxLength: 6 }), ceiling: fc.option(cents(2_000_000)) })
  .map(({ lines, ceiling }) => ({
    currency: 'USD',
    billedTime,
    ...(ceiling === null ? {} : { ceiling }),
    lines: lines.map(({ seconds, prices, ...rest }, index) => ({
      ...rest,
      ...tax,
      id: `line ${index}`,
      title: `Line ${index}`,
      stretches: seconds.map((value, at) => ({ stretchId: `${index}.${at}`, seconds: value })),
      parts: prices.map((unitPrice, at) => ({
        movementId: `${index}.${at}`,
        title: 'Part',
        quantity: '1.5',
        unitPrice,
        ...tax,
      })),
    })),
  }));

test('10,000 random orders: steps add from quoted to billed, nothing past a ceiling, nothing lost', {
  timeout: 60_000,
}, () => {
  fc.assert(
    fc.property(anyWork, (work) => {
      const invoice = invoiceLines(work);
      const steps = sumOf(invoice.difference.map(({ amount }) => amount));
      expect(invoice.quoted + steps).toBe(invoice.billed);
      expect(invoice.billed).toBe(sumOf(invoice.lines.map(({ net }) => net)));
      expect(invoice.lines.every(({ net }) => net >= 0n)).toBe(true);
      if (work.ceiling !== undefined) {
        expect(invoice.billed <= work.ceiling).toBe(true);
      }
      const free = invoiceLines({
        currency: 'USD',
        billedTime,
        lines: work.lines.map(({ ceiling: _, ...rest }) =>
          rest.pricing === 'not_to_exceed' ? { ...rest, pricing: 'time_and_materials' } : rest,
        ),
      });
      const held = sumOf(
        [...invoice.beyondAuthority, ...invoice.carriedByShop].map((h) => h.amount),
      );
      expect(invoice.billed + held).toBe(free.billed);
      // The invoice's own arithmetic agrees with the document's: quantity × price − allowances.
      const total = documentTotals({ currency: 'USD', lines: invoice.lines });
      expect(total.lines.map(({ net }) => net)).toEqual(invoice.lines.map(({ net }) => net));
    }),
    { numRuns: 10_000 },
  );
});

test('the order of lines changes no sum', () => {
  fc.assert(
    fc.property(anyWork, (work) => {
      const there = invoiceLines(work);
      const back = invoiceLines({ ...work, lines: [...work.lines].reverse() });
      expect([back.quoted, back.billed]).toEqual([there.quoted, there.billed]);
      const unbilled = (list: typeof there.beyondAuthority) =>
        list.reduce((sum, { amount }) => sum + amount, 0n);
      expect(unbilled(back.beyondAuthority)).toBe(unbilled(there.beyondAuthority));
    }),
    { numRuns: 1000 },
  );
});

test('no work is no invoice', () => {
  const invoice = invoiceLines({ currency: 'USD', billedTime, lines: [] });
  expect([invoice.quoted, invoice.billed, invoice.lines]).toEqual([nothing, nothing, []]);
});

test('where the shop’s minimum took hold the line says so, and nowhere else', () => {
  const rule = { step: '0.1', rounding: 'up', minimum: '0.5' } as const;
  const clocked = (id: string, seconds: number) => ({
    ...{ id, title: id, pricing: 'time_and_materials' as const },
    ...{ quotedLabour: nothing, quotedParts: nothing, labourRate: '90.00' },
    ...{ taxCategory: 'S' as const, taxRate: '0', parts: [] },
    stretches: [{ stretchId: `${id}-1`, seconds }],
  });
  const { lines } = invoiceLines({
    currency: 'USD',
    lines: [clocked('Seven minutes', 420), clocked('An hour', 3600)],
    billedTime: rule,
  });
  expect(lines.map(({ quantity, net, note }) => [quantity, net, note])).toEqual([
    ['0.5', 4500n, "0 h 7 min on the clock: billed is the shop's minimum of 0.5 h for an item"],
    ['1.0', 9000n, ''],
  ]);
});

test('a core gives way last where the order’s ceiling holds back', () => {
  const base = {
    ...{ quotedLabour: nothing, labourRate: '100.00', taxCategory: 'S' as const, taxRate: '0' },
    ...{ pricing: 'time_and_materials' as const, parts: [], stretches: [] },
  };
  const { lines, beyondAuthority } = invoiceLines({
    currency: 'USD',
    billedTime: { step: '0.1', rounding: 'up' },
    ceiling: minor(30_000n),
    lines: [
      {
        ...base,
        id: 'work',
        title: 'Work',
        quotedParts: nothing,
        stretches: [{ stretchId: 's', seconds: 7200 }],
      },
      {
        ...{ ...base, id: 'core', title: 'Core', quotedParts: minor(25_000n), core: true },
        parts: [
          {
            ...{ movementId: 'm', title: 'Core', quantity: '1', unitPrice: '250.00' },
            ...{ taxCategory: 'S', taxRate: '0' },
          },
        ],
      },
    ],
  });
  expect(beyondAuthority).toEqual([{ lineId: 'work', amount: 15_000n, because: 'order_ceiling' }]);
  expect(lines.map(({ title, net }) => [title, net])).toEqual([
    ['Work', 5000n],
    ['Core', 25_000n],
  ]);
});
