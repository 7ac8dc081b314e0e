import type { Prisma, Tx } from '@fairlead/database';
import { notFound, Refused } from '../errors.ts';
import { holdFor } from '../hold.ts';
import { findingFacts, findingState } from '../states.ts';

const withNewest = {
  aircraft: { select: { registration: true } },
  package: { select: { inspection: true } },
  finding: { select: { number: true, title: true, ...findingFacts } },
  revisions: {
    orderBy: { revision: 'desc' },
    take: 1,
    include: {
      sendings: { orderBy: { sentAt: 'asc' } },
      decisions: {
        orderBy: { recordedAt: 'desc' },
        include: { contact: { select: { name: true } } },
      },
    },
  },
} satisfies Prisma.QuoteInclude;

type WithNewest = Prisma.QuoteGetPayload<{ include: typeof withNewest }>;
export type NewestRevision = WithNewest['revisions'][number];
export type HeldQuote = WithNewest & { newest: NewestRevision };

/**
 * Reads a quote with its newest revision and holds it to the end of the transaction, so that two
 * people who send, revise or answer it come one after the other. What it is offered for is held with
 * it: an order being signed and a finding being judged wait as well.
 */
export async function holdQuote(tx: Tx, quoteId: string): Promise<HeldQuote> {
  const [row] = await tx.$queryRaw<
    { order_id: string | null; finding_id: string | null }[]
  >`SELECT order_id, finding_id FROM quote WHERE shop_id = current_shop() AND id = ${quoteId}::uuid FOR UPDATE`;
  if (row?.order_id) await holdFor(tx, 'order', row.order_id);
  if (row?.finding_id) await holdFor(tx, 'finding', row.finding_id);
  const quote = await tx.quote.findUnique({ where: { id: quoteId }, include: withNewest });
  const newest = quote?.revisions[0];
  if (!quote || !newest) throw notFound('quote');
  return { ...quote, newest };
}

/** Refuses what was meant for an older revision, or for one that is not there yet. */
export function refuseStale({ number, newest }: HeldQuote, meant: number, field: string): void {
  if (meant !== newest.revision)
    throw new Refused(
      'CONFLICT',
      `Quote ${number} is at revision ${newest.revision}; this was meant for revision ${meant}. Look at revision ${newest.revision} first.`,
      field,
    );
}

/** What is offered on a finding was first judged by somebody entitled to. */
export function refuseUnjudged({ finding }: HeldQuote): void {
  if (finding && finding.events.at(-1)?.kind !== 'assessed')
    throw new Refused(
      'AGAINST_RULE',
      `Finding ${finding.number}, "${finding.title}", is ${finding.events.length === 0 ? 'noted but not assessed' : 'put off'}: an inspector assesses it before it is offered.`,
    );
}

/** A finding is corrected once: a second quote for it is no second job. */
export function refuseAgreedFinding({ finding }: HeldQuote, day: Date): void {
  const state = finding && findingState(finding, day);
  if (finding && (state === 'agreed' || state === 'corrected'))
    throw new Refused(
      'AGAINST_RULE',
      `Finding ${finding.number}, "${finding.title}", is ${state} already: its correction was agreed in another quote.`,
    );
}
