import { inoperativeLine } from '@fairlead/airworthiness';
import type { Prisma, Tx } from '@fairlead/database';
import {
  differenceFacts,
  differenceOf,
  owedFacts,
  owedOf,
  paidOf,
  quotedOf,
} from '../books/index.ts';
import { globalId } from '../ids.ts';
import {
  findingClass,
  findingFacts,
  findingState,
  itemFacts,
  itemState,
  orderState,
} from '../states.ts';
import { markingsSelect, marksOf, photoPairs } from '../work/index.ts';

const orderPart = {
  number: true,
  title: true,
  plannedFor: true,
  events: { select: { kind: true, outcome: true, at: true } },
  items: {
    orderBy: { position: 'asc' },
    select: { ...itemFacts, position: true, title: true, findingId: true },
  },
  findings: {
    orderBy: { number: 'asc' },
    select: {
      ...findingFacts,
      number: true,
      title: true,
      words: true,
      foundAt: true,
      inoperative: {
        orderBy: [{ at: 'desc' }, { id: 'desc' }],
        take: 1,
        select: { kind: true, equipment: true, method: true, placardAt: true },
      },
      photos: {
        orderBy: { position: 'asc' },
        select: {
          photoId: true,
          beforeId: true,
          photo: {
            select: { id: true, words: true, width: true, height: true, markings: markingsSelect },
          },
        },
      },
    },
  },
  // The link's role sees issued ones only.
  // What another payer takes over is between them and the shop; the owner's own invoice says how much it is.
  invoices: {
    where: { payerShareId: null, saleId: null },
    orderBy: { number: 'asc' },
    select: {
      ...owedFacts,
      creditsId: true,
      payerShareId: true,
      saleId: true,
      roundingMinor: true,
      number: true,
      currency: true,
      netMinor: true,
      taxMinor: true,
      grossMinor: true,
      dueOn: true,
      lines: { orderBy: { position: 'asc' } },
      order: differenceFacts.order,
    },
  },
} satisfies Prisma.WorkOrderSelect;

type OrderRow = Prisma.WorkOrderGetPayload<{ select: typeof orderPart }>;

/** The order that the link reaches, in a number of statements that does not grow with its rows; null where it reaches none. */
export const loadOrder = (tx: Tx): Promise<OrderRow | null> =>
  tx.workOrder.findFirst({ select: orderPart });

/** How far the work is, what was found, and what was billed. */
export function shownOrder(order: OrderRow, today: Date) {
  const { number, title, plannedFor, events } = order;
  return {
    number,
    title,
    plannedFor,
    state: orderState(order),
    outcome: events.find(({ outcome }) => outcome !== null)?.outcome ?? null,
    arrivedAt: events.find(({ kind }) => kind === 'arrived')?.at ?? null,
    items: order.items.map((item) => {
      const state = itemState(item);
      return {
        position: item.position,
        title: item.title,
        state,
        waitingFor: state === 'waiting' ? (item.events.at(-1)?.waitingFor ?? null) : null,
      };
    }),
    findings: order.findings.map((finding) => ({
      number: finding.number,
      title: finding.title,
      words: finding.words,
      class: findingClass(finding),
      assessed: finding.events.some(({ kind }) => kind === 'assessed'),
      meaning: finding.events.findLast(({ kind }) => kind === 'assessed')?.meaning ?? '',
      state: findingState(finding, today),
      foundAt: finding.foundAt,
      inoperative: inoperativeOf(finding, today),
      photos: finding.photos.map(({ photo: { id, words, width, height, markings } }) => ({
        id: globalId('Photo', id),
        words,
        width,
        height,
        marks: marksOf(markings),
      })),
      pairs: photoPairs(finding.photos).map(({ beforeId, afterId }) => ({
        beforeId: globalId('Photo', beforeId),
        afterId: globalId('Photo', afterId),
      })),
    })),
    invoices: order.invoices.map(shownInvoice),
  };
}

/** That it stays inoperative, in one sentence; null: nobody found that it may, or it is corrected. */
function inoperativeOf(finding: OrderRow['findings'][number], today: Date): string | null {
  const [newest] = finding.inoperative;
  if (newest?.kind !== 'left' || !newest.method || findingState(finding, today) === 'corrected')
    return null;
  const { equipment, method, placardAt } = newest;
  return inoperativeLine({ equipment, method, placardAt });
}

function shownInvoice(invoice: OrderRow['invoices'][number]) {
  const quoted = quotedOf(invoice);
  return {
    number: invoice.number,
    credit: invoice.creditsId !== null,
    currency: invoice.currency,
    issuedAt: invoice.issuedAt,
    dueOn: invoice.dueOn?.toISOString().slice(0, 10) ?? null,
    net: `${invoice.netMinor}`,
    tax: `${invoice.taxMinor}`,
    rounding: `${invoice.roundingMinor}`,
    gross: `${invoice.grossMinor}`,
    paid: `${paidOf(invoice)}`,
    owed: `${owedOf(invoice)}`,
    lines: invoice.lines.map((line) => ({
      position: line.position,
      title: line.title,
      quantity: line.quantity.toFixed(),
      unit: line.unit,
      unitPrice: line.unitPrice.toFixed(),
      net: `${line.netMinor}`,
      note: line.note,
      taxReason: line.taxReason,
    })),
    quoted: quoted === null ? null : `${quoted}`,
    difference: differenceOf(invoice).map(({ kind, title, amount }) => ({
      kind,
      title,
      amount: `${amount}`,
    })),
  };
}
