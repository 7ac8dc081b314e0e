import { Prisma } from '@fairlead/database';
import { sayDay } from '../given.ts';

/** What of a purchase order tells how it stands. */
export const purchaseFacts = {
  events: { select: { kind: true } },
  lines: {
    orderBy: { position: 'asc' },
    select: {
      id: true,
      quantity: true,
      lots: { select: { movements: { where: { kind: 'receive' }, select: { quantity: true } } } },
    },
  },
} satisfies Prisma.PurchaseOrderSelect;

type Received = readonly { movements: readonly { quantity: Prisma.Decimal }[] }[];

interface PurchaseFacts {
  events: readonly { kind: 'sent' | 'cancelled' }[];
  lines: readonly { quantity: Prisma.Decimal; lots: Received }[];
}

export type PurchaseState = 'draft' | 'sent' | 'received_in_part' | 'received' | 'cancelled';

/** Units that came of a line: what its lots received. */
export const receivedOf = ({ lots }: { lots: Received }): Prisma.Decimal =>
  lots
    .flatMap(({ movements }) => movements)
    .reduce((sum, { quantity }) => sum.plus(quantity), new Prisma.Decimal(0));

/** Units of a line that are still to come, were it not cancelled. */
export function openOf(line: { quantity: Prisma.Decimal; lots: Received }): Prisma.Decimal {
  const left = line.quantity.minus(receivedOf(line));
  return left.isNegative() ? new Prisma.Decimal(0) : left;
}

/** Cancelled is for good, whatever came before; received is when every line came whole. */
export function purchaseState({ events, lines }: PurchaseFacts): PurchaseState {
  const happened = new Set(events.map(({ kind }) => kind));
  if (happened.has('cancelled')) return 'cancelled';
  if (!happened.has('sent')) return 'draft';
  if (lines.every((line) => openOf(line).isZero())) return 'received';
  return lines.some((line) => !receivedOf(line).isZero()) ? 'received_in_part' : 'sent';
}

/** Of a part: the lines of orders that were sent and not cancelled. */
export const orderedFacts = {
  where: {
    order: {
      events: { some: { kind: 'sent' }, none: { kind: 'cancelled' } },
    },
  },
  select: {
    quantity: true,
    lots: purchaseFacts.lines.select.lots,
    order: { select: { number: true, expectedOn: true } },
  },
} satisfies Prisma.Part$purchasesArgs;

/** Units of a part that are on order and have not come. */
export const onOrder = (
  lines: readonly { quantity: Prisma.Decimal; lots: Received }[],
): Prisma.Decimal => lines.reduce((sum, line) => sum.plus(openOf(line)), new Prisma.Decimal(0));

/** What is said of a part that is on order: "4 on order, expected 2026-12-05"; empty where nothing is. */
export function orderedWords(
  lines: readonly {
    quantity: Prisma.Decimal;
    lots: Received;
    order: { expectedOn: Date | null };
  }[],
): string {
  const open = lines.filter((line) => !openOf(line).isZero());
  if (open.length === 0) return '';
  const days = open.flatMap(({ order }) => (order.expectedOn ? [sayDay(order.expectedOn)] : []));
  const [first] = days.sort();
  return `${onOrder(open).toFixed()} on order, ${first ? `expected ${first}` : 'no day said'}`;
}
