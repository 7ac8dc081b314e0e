import type { Choice, Prisma } from '@fairlead/database';
import { cutOf, inTurn, soldFacts } from '../work/queries.ts';
import { HELD } from './compose-invoice.ts';
import { OUR_COST } from './lines-at-our-cost.ts';
import { TAKEN } from './share-out.ts';

/** What the way from quoted to billed is read from. Orders and limits are those of the fields beside it, so that each is read once. */
export const differenceFacts = {
  creditsId: true,
  payerShareId: true,
  saleId: true,
  netMinor: true,
  lines: {
    orderBy: { position: 'asc' },
    select: { title: true, unit: true, netMinor: true, quoteLineId: true, lotId: true },
  },
  order: {
    select: {
      sales: soldFacts,
      quotes: {
        orderBy: { number: 'asc' },
        select: {
          id: true,
          title: true,
          findingId: true,
          more: true,
          revisions: {
            orderBy: { revision: 'desc' },
            take: 1,
            select: {
              likelyMinor: true,
              decisions: {
                orderBy: { recordedAt: 'desc' },
                select: { choice: true, decidedAt: true },
              },
              lines: {
                orderBy: { position: 'asc' },
                select: {
                  ...{ id: true, title: true, likelyMinor: true, partId: true },
                  corePartId: true,
                },
              },
            },
          },
        },
      },
    },
  },
} satisfies Prisma.InvoiceSelect;

export interface DifferenceFacts {
  creditsId: string | null;
  payerShareId: string | null;
  saleId: string | null;
  netMinor: bigint;
  lines: readonly {
    title: string;
    unit: string;
    netMinor: bigint;
    quoteLineId: string | null;
    lotId: string | null;
  }[];
  order: {
    sales?: readonly { sale: { cutAt: Date } }[];
    quotes: readonly {
      id: string;
      title: string;
      findingId: string | null;
      /** Asked for more, and offered nothing that could differ from what is billed. */
      more?: boolean;
      revisions: readonly {
        likelyMinor: bigint;
        decisions: readonly { choice: Choice; decidedAt?: Date }[];
        lines: readonly {
          id: string;
          title: string;
          likelyMinor: bigint;
          partId: string | null;
          corePartId: string | null;
        }[];
      }[];
    }[];
  };
}

export interface DifferenceStep {
  kind:
    | 'whole'
    | 'scope_added'
    | 'labour'
    | 'parts'
    | 'not_quoted'
    | 'our_cost'
    | 'taken_over'
    | 'held_back';
  title: string;
  amount: bigint;
  /** What it rests on: an offer as a whole, a line of one, or a line of the invoice by its place among them. */
  of: { quoteId: string } | { quoteLineId: string } | { invoiceLine: number };
}

const accepted = ({ order }: DifferenceFacts) => {
  const here = inTurn({ after: cutOf(order), until: null });
  return order.quotes.flatMap(({ id: quoteId, title, findingId, more, revisions: [newest] }) =>
    !more &&
    newest?.decisions.some(
      ({ choice, decidedAt }) => choice === 'go_ahead' && here(decidedAt ? { at: decidedAt } : {}),
    )
      ? [{ quoteId, title, added: findingId !== null, ...newest }]
      : [],
  );
};

/** What was quoted for the visit, net and likely; findings came later. Null for a credit note, for who takes over a part, and for what is billed to a seller to date. */
export const quotedOf = (invoice: DifferenceFacts): bigint | null =>
  invoice.creditsId || invoice.payerShareId || invoice.saleId
    ? null
    : sum(accepted(invoice).flatMap(({ added, likelyMinor }) => (added ? [] : [likelyMinor])));

/**
 * Why an invoice differs from the quote for the visit, step by step, from the lines as they were kept: the steps add
 * to net − quoted exactly, by construction, since each line of quote and invoice is in one step. The likely amount of
 * a whole quote is not the sum of its lines' likely amounts (hours add as distributions): that is a step of its own.
 */
export function differenceOf(invoice: DifferenceFacts): DifferenceStep[] {
  if (invoice.creditsId || invoice.payerShareId || invoice.saleId) return [];
  const quotes = accepted(invoice);
  const quoted = new Set(quotes.flatMap(({ lines }) => lines.map(({ id }) => id)));
  const billed = invoice.lines.filter(({ unit }) => unit !== HELD && unit !== TAKEN);
  const steps = quotes.flatMap(
    ({ quoteId, title, added, likelyMinor, lines }): DifferenceStep[] => {
      const of = { quoteId };
      const oneByOne = sum(lines.map((line) => line.likelyMinor));
      const first: DifferenceStep = added
        ? {
            kind: 'scope_added',
            title: `${title}: added with your agreement`,
            amount: oneByOne,
            of,
          }
        : {
            kind: 'whole',
            title: `${title}: its lines one by one, against the likely sum of the whole`,
            amount: oneByOne - likelyMinor,
            of,
          };
      return [
        first,
        ...lines.flatMap((line) => {
          const own = billed.filter(({ quoteLineId }) => quoteLineId === line.id);
          const ofParts = line.partId !== null || line.corePartId !== null;
          const parts =
            sum(own.filter(({ lotId }) => lotId !== null).map(({ netMinor }) => netMinor)) -
            (ofParts ? line.likelyMinor : 0n);
          const labour =
            sum(own.filter(({ lotId }) => lotId === null).map(({ netMinor }) => netMinor)) -
            (ofParts ? 0n : line.likelyMinor);
          const ours = own.find(({ unit }) => unit === OUR_COST);
          return [
            {
              kind: ours ? ('our_cost' as const) : ('labour' as const),
              title:
                ours?.title ??
                `${line.title}: ${labour > 0n ? 'more' : 'less'} labour than was likely`,
              amount: labour,
              of: { quoteLineId: line.id },
            },
            {
              kind: 'parts' as const,
              title: ofParts
                ? `${line.title}: ${parts > 0n ? 'more' : 'less'} than quoted`
                : `${line.title}: parts that were not quoted`,
              amount: parts,
              of: { quoteLineId: line.id },
            },
          ];
        }),
      ];
    },
  );
  const placed = invoice.lines.map((line, invoiceLine) => ({ ...line, of: { invoiceLine } }));
  const unquoted = placed.filter(
    ({ unit, quoteLineId }) =>
      unit !== HELD && unit !== TAKEN && (quoteLineId === null || !quoted.has(quoteLineId)),
  );
  const held = placed.filter(({ unit }) => unit === HELD || unit === TAKEN);
  return [
    ...steps,
    ...unquoted.map(
      ({ title, netMinor, of }): DifferenceStep => ({
        kind: 'not_quoted',
        title: `${title}: not in the quote`,
        amount: netMinor,
        of,
      }),
    ),
    ...held.map(
      ({ title, unit, netMinor, of }): DifferenceStep => ({
        kind: unit === TAKEN ? 'taken_over' : 'held_back',
        title,
        amount: netMinor,
        of,
      }),
    ),
  ].filter(({ amount }) => amount !== 0n);
}

const sum = (amounts: readonly bigint[]): bigint =>
  amounts.reduce((all, amount) => all + amount, 0n);
