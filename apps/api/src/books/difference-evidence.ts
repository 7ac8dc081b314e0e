import type { Prisma, Tx } from '@fairlead/database';
import { sayDecision } from '../quoting/index.ts';
import { clockWords } from './clock-words.ts';
import { type DifferenceStep, differenceFacts, differenceOf } from './difference.ts';

const said = {
  orderBy: { recordedAt: 'desc' },
  include: { contact: { select: { name: true } } },
} as const satisfies Prisma.QuoteRevision$decisionsArgs;

/** What the steps rest on: answers, times, lots. */
const evidenceFacts = {
  ...differenceFacts,
  lines: {
    orderBy: { position: 'asc' },
    select: {
      ...differenceFacts.lines.select,
      itemId: true,
      quantity: true,
      note: true,
      core: true,
    },
  },
  order: {
    select: {
      sales: differenceFacts.order.select.sales,
      quotes: {
        orderBy: { number: 'asc' },
        select: {
          ...differenceFacts.order.select.quotes.select,
          id: true,
          number: true,
          finding: { select: { number: true, title: true } },
          revisions: {
            orderBy: { revision: 'desc' },
            take: 1,
            select: {
              ...differenceFacts.order.select.quotes.select.revisions.select,
              revision: true,
              decisions: said,
              lines: {
                orderBy: { position: 'asc' },
                select: {
                  ...{ id: true, title: true, likelyMinor: true, partId: true, corePartId: true },
                  ...{ hoursP50: true, hoursP90: true },
                },
              },
            },
          },
        },
      },
      items: {
        orderBy: { position: 'asc' },
        select: {
          id: true,
          quoteLineId: true,
          stretches: {
            orderBy: { startedAt: 'asc' },
            select: { startedAt: true, endedAt: true, person: { select: { name: true } } },
          },
          cores: {
            orderBy: { at: 'asc' },
            select: {
              quantity: true,
              words: true,
              at: true,
              lot: {
                select: { id: true, batch: true, part: { select: { id: true, title: true } } },
              },
            },
          },
          movements: {
            where: { kind: { in: ['issue', 'return'] } },
            orderBy: { at: 'asc' },
            select: {
              kind: true,
              quantity: true,
              at: true,
              lot: {
                select: { id: true, batch: true, part: { select: { id: true, title: true } } },
              },
            },
          },
        },
      },
    },
  },
} as const satisfies Prisma.InvoiceSelect;

type Facts = Prisma.InvoiceGetPayload<{ select: typeof evidenceFacts }>;
type Item = Facts['order']['items'][number];

/** So many times or lots are said one by one. */
const MOST = 12;

/** What each step from the quote to an invoice rests on, in sentences, in the order of the steps. Read in a number of statements that does not grow with them. */
export async function differenceEvidence(read: Tx, invoiceId: string): Promise<string[][]> {
  const invoice = await read.invoice.findUniqueOrThrow({
    where: { id: invoiceId },
    select: evidenceFacts,
  });
  const { timeZone } = await read.shop.findFirstOrThrow({ select: { timeZone: true } });
  return differenceOf(invoice).map((step) => sentencesOf(step, invoice, timeZone));
}

function sentencesOf({ kind, of }: DifferenceStep, invoice: Facts, timeZone: string): string[] {
  const { quotes, items } = invoice.order;
  if ('quoteId' in of) {
    const quote = quotes.find(({ id }) => id === of.quoteId);
    return quote ? offerWords(quote) : [];
  }
  if ('quoteLineId' in of) {
    const line = quotes
      .flatMap(({ revisions }) => revisions)
      .flatMap(({ lines }) => lines)
      .find(({ id }) => id === of.quoteLineId);
    const own = items.filter(({ quoteLineId }) => quoteLineId === of.quoteLineId);
    const notes = invoice.lines
      .filter(({ quoteLineId, lotId }) => quoteLineId === of.quoteLineId && lotId === null)
      .flatMap(({ note }) => (note === '' ? [] : [`${note}.`]));
    if (kind === 'labour' || kind === 'our_cost')
      return [...quotedHours(line), ...notes, ...timesOf(own, timeZone)];
    if (line?.corePartId) return coresOf(items, timeZone, { partId: line.corePartId });
    return lotsOf(line?.partId ? items : own, timeZone, line?.partId ?? null);
  }
  const line = invoice.lines[of.invoiceLine];
  if (kind === 'held_back') return quotes.flatMap(offerWords);
  if (kind === 'taken_over') return [];
  const own = items.filter(({ id }) => id === line?.itemId);
  if (line?.core && line.lotId) return coresOf(own, timeZone, { lotId: line.lotId });
  return line?.lotId
    ? lotsOf(own, timeZone, null, line.lotId)
    : [...(line?.note ? [`${line.note}.`] : []), ...timesOf(own, timeZone)];
}

/** What was issued in stead of old parts, and which of them came. */
function coresOf(
  items: readonly Item[],
  timeZone: string,
  of: { partId: string } | { lotId: string },
): string[] {
  const came = items
    .flatMap(({ cores }) => cores)
    .filter(({ lot }) => ('partId' in of ? lot.part.id === of.partId : lot.id === of.lotId))
    .map(
      ({ quantity, lot, at, words }) =>
        `${quantity.toFixed()} old ${lot.part.title} came back ${clockWords({ startedAt: at, endedAt: null }, timeZone)}${words === '' ? '' : `: ${words}`}.`,
    );
  const issued =
    'partId' in of ? lotsOf(items, timeZone, of.partId) : lotsOf(items, timeZone, null, of.lotId);
  return [...issued, ...(came.length > 0 ? came : ['No old one came back before the bill.'])];
}

/** Which offer, and what was answered to it. */
function offerWords({ number, finding, revisions }: Facts['order']['quotes'][number]): string[] {
  const [newest] = revisions;
  if (!newest) return [];
  const what = finding ? `finding ${finding.number}, “${finding.title}”` : 'the visit';
  return [
    `Quote ${number}, revision ${newest.revision}, for ${what}.`,
    ...newest.decisions.map((decision) => `${sayDecision(decision)}.`),
  ];
}

function quotedHours(
  line:
    | {
        hoursP50: { toFixed(places: number): string } | null;
        hoursP90: { toFixed(places: number): string } | null;
      }
    | undefined,
): string[] {
  if (!line?.hoursP50 || !line.hoursP90) return [];
  return [
    `Quoted as likely over as under ${line.hoursP50.toFixed(1)} h, nine in ten under ${line.hoursP90.toFixed(1)} h.`,
  ];
}

function timesOf(items: readonly Item[], timeZone: string): string[] {
  const times = items.flatMap(({ stretches }) => stretches);
  return shortened(
    times.map(
      ({ startedAt, endedAt, person }) =>
        `${clockWords({ startedAt, endedAt }, timeZone)}, ${person.name}.`,
    ),
    'stretch of the clock',
    'stretches of the clock',
  );
}

function lotsOf(
  items: readonly Item[],
  timeZone: string,
  partId: string | null,
  lotId: string | null = null,
): string[] {
  const moved = items
    .flatMap(({ movements }) => movements)
    .filter(
      ({ lot }) =>
        (partId === null || lot.part.id === partId) && (lotId === null || lot.id === lotId),
    );
  return shortened(
    moved.map(
      ({ kind, quantity, at, lot }) =>
        `${quantity.abs().toFixed()} of ${lot.part.title}, batch ${lot.batch}, ${kind === 'return' ? 'returned' : 'issued'} ${clockWords({ startedAt: at, endedAt: null }, timeZone)}.`,
    ),
    'movement',
    'movements',
  );
}

function shortened(sentences: readonly string[], one: string, many: string): string[] {
  const more = sentences.length - MOST;
  if (more <= 0) return [...sentences];
  return [...sentences.slice(0, MOST), `And ${more} more ${more === 1 ? one : many}.`];
}
