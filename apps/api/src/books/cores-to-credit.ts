import type { Prisma, Tx } from '@fairlead/database';
import {
  coreCredit,
  currency as knownCurrency,
  type Minor,
  minor,
  parseAmount,
} from '@fairlead/money';
import { coresOfItem } from '../cores-of-item.ts';
import { HELD } from './compose-invoice.ts';

const coreLine = {
  where: { core: true },
  orderBy: { position: 'asc' },
} as const satisfies Prisma.Invoice$linesArgs;

/** What is to be given back of an invoice's cores is read from. */
export const coreCreditFacts = {
  id: true,
  currency: true,
  lines: {
    ...coreLine,
    include: {
      item: {
        select: {
          movements: {
            where: { kind: { in: ['issue', 'return'] } },
            select: { quantity: true, lot: { select: { id: true, coreChargeMinor: true } } },
          },
          cores: { select: { lotId: true, quantity: true } },
        },
      },
    },
  },
  creditNotes: {
    where: { issuedAt: { not: null } },
    select: { inPart: true, lines: { ...coreLine } },
  },
} satisfies Prisma.InvoiceSelect;

type Facts = Prisma.InvoiceGetPayload<{ select: typeof coreCreditFacts }>;
type Line = Facts['lines'][number];

/** An old part that came after it was billed. */
export interface CoreToCredit {
  /** The line that charged it. */
  line: Line;
  /** Units that came. */
  quantity: string;
  /** To be given back, net. */
  amount: Minor;
}

const sum = (lines: readonly { netMinor: bigint }[]) =>
  lines.reduce((total, { netMinor }) => total + netMinor, 0n);
const units = (lines: readonly Pick<Line, 'quantity' | 'unit'>[]) =>
  lines
    .filter(({ unit }) => unit === 'each')
    .reduce((total, { quantity }) => total + Number(quantity.abs().mul(1000)), 0) / 1000;

/** What is to be given back of an invoice, since old parts came after they were billed; nothing of one that was taken back whole. */
export function coresToCredit({ lines, creditNotes, currency }: Facts): CoreToCredit[] {
  if (creditNotes.some(({ inPart }) => !inPart)) return [];
  const given = creditNotes.flatMap((note) => note.lines);
  return lines.flatMap((line) => {
    if (line.unit === HELD || line.item === null) return [];
    const same = (each: { itemId: string | null; lotId: string | null }) =>
      each.itemId === line.itemId && each.lotId === line.lotId;
    const owed = coresOfItem(line.item).find(({ lotId }) => lotId === line.lotId);
    const back = given.filter(same);
    const credit = coreCredit({
      charge: minor(parseAmount(line.unitPrice.toFixed(), knownCurrency(currency))),
      billed: line.quantity.toFixed(),
      billedNet: minor(sum(lines.filter(same))),
      owed: owed?.quantity ?? '0',
      credited: units(back).toFixed(3),
      creditedNet: minor(-sum(back)),
    });
    return credit.amount === 0n ? [] : [{ line, ...credit }];
  });
}

/** Every issued invoice of which something is to be given back, the oldest first. */
export async function invoicesToCredit(read: Tx): Promise<{ id: string; cores: CoreToCredit[] }[]> {
  const invoices = await read.invoice.findMany({
    where: {
      issuedAt: { not: null },
      creditsId: null,
      lines: { some: { core: true, item: { cores: { some: {} } } } },
      creditNotes: { none: { issuedAt: { not: null }, inPart: false } },
    },
    orderBy: { number: 'asc' },
    select: coreCreditFacts,
  });
  return invoices.flatMap((invoice) => {
    const cores = coresToCredit(invoice);
    return cores.length > 0 ? [{ id: invoice.id, cores }] : [];
  });
}
