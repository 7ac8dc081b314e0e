import type { Prisma, Tx } from '@fairlead/database';
import { oneSentence, type Reason } from '@fairlead/labour';
import { globalId } from '../ids.ts';
import { withFindingsOf } from '../quoting/index.ts';
import { findingFacts, quoteState } from '../states.ts';
import { changedSince } from './changed-since.ts';
import { promiseFacts, shownPromise } from './promise-part.ts';
import { digestOf } from './secret.ts';
import { wordsShown } from './words-shown.ts';

/** Under the link's role only revisions that were sent are seen. */
const offerFacts = {
  id: true,
  number: true,
  title: true,
  more: true,
  aircraft: { select: { registration: true } },
  finding: { select: { number: true, title: true, events: findingFacts.events } },
  revisions: {
    orderBy: { revision: 'desc' },
    include: {
      sendings: { orderBy: { sentAt: 'asc' }, select: { sentAt: true } },
      promise: { select: promiseFacts },
      lines: { orderBy: { position: 'asc' } },
      decisions: {
        orderBy: { recordedAt: 'desc' },
        include: { contact: { select: { name: true } } },
      },
    },
  },
} satisfies Prisma.QuoteSelect;

export type OfferRow = Prisma.QuoteGetPayload<{ select: typeof offerFacts }>;

/** Every offer that the link reaches, oldest first. */
export const loadOffers = (tx: Tx): Promise<OfferRow[]> =>
  tx.quote.findMany({ orderBy: { number: 'asc' }, select: offerFacts });

/** One offer that the link reaches; null where it reaches no such one. */
export const loadOffer = (tx: Tx, id: string): Promise<OfferRow | null> =>
  tx.quote.findUnique({ where: { id }, select: offerFacts });

/** The words above the answers to the newest revision that was sent; null where none was. */
export function wordsOf({ title, more, aircraft, finding, revisions: [newest] }: OfferRow) {
  if (!newest) return null;
  const meaning = finding?.events.findLast(({ kind }) => kind === 'assessed')?.meaning ?? '';
  const words = wordsShown({
    ...newest,
    title,
    more,
    registration: aircraft.registration,
    work: newest.lines.flatMap((line) => (line.partId === null ? [line.title] : [])),
    limits: newest.lines.flatMap(({ title, limitMinor }) =>
      limitMinor === null ? [] : [{ title, limitMinor }],
    ),
    finding: finding && { title: finding.title, meaning },
  });
  return { words, digest: digestOf(words), revision: newest.revision, currency: newest.currency };
}

/** An offer as the page shows it. Amounts go out as text. */
export function shownOffer(offer: OfferRow, today: Date) {
  const [newest, before] = offer.revisions;
  const said = wordsOf(offer);
  if (!newest || !said) return null;
  const { currency, lowMinor, likelyMinor, p80Minor, highMinor, taxMinor } = newest;
  return {
    id: globalId('Quote', offer.id),
    number: offer.number,
    title: offer.title,
    state: quoteState(offer, today),
    finding: offer.finding?.number ?? null,
    revision: newest.revision,
    sentAt: newest.sendings[0]?.sentAt ?? null,
    expiresOn: newest.expiresOn.toISOString().slice(0, 10),
    terms: newest.terms,
    currency,
    ...amounts({ lowMinor, likelyMinor, p80Minor, highMinor }),
    tax: `${taxMinor}`,
    words: said.words,
    digest: said.digest,
    foretold: foretoldOf(newest.withFindings),
    changed: before ? changedSince(before, newest) : null,
    promise: newest.promise && shownPromise(newest.promise),
    lines: newest.lines.map((line) => ({
      position: line.position,
      title: line.title,
      quantity: line.quantity.toFixed(),
      part: line.partId !== null,
      why: whyOf(line),
      ...amounts(line),
    })),
    decisions: offer.revisions.flatMap(({ revision, decisions }) =>
      decisions.map((decision) => ({
        revision,
        choice: decision.choice,
        by: decision.contact.name,
        channel: decision.channel,
        ceiling: decision.ceilingMinor === null ? null : `${decision.ceilingMinor}`,
        decidedAt: decision.decidedAt,
      })),
    ),
  };
}

/** Why the work takes as long as it is offered for; null where the line sells no hours by time. */
function whyOf({
  pricing,
  because,
  hoursP50,
  hoursP90,
}: OfferRow['revisions'][number]['lines'][number]) {
  if (pricing === 'fixed' || !hoursP50 || !hoursP90 || !Array.isArray(because)) return null;
  const reasons = because as unknown as Reason[];
  return oneSentence(reasons, { p50: hoursP50.toNumber(), p90: hoursP90.toNumber() }) ?? null;
}

/** What tends to be found, in words: the sum, and each finding with how often it comes. */
function foretoldOf(kept: unknown) {
  const foretold = withFindingsOf(kept);
  return (
    foretold && {
      sentence: foretold.sentence,
      findings: foretold.findings.map(({ title, sentence }) => ({ title, sentence })),
    }
  );
}

const amounts = (of: {
  lowMinor: bigint;
  likelyMinor: bigint;
  p80Minor: bigint;
  highMinor: bigint;
}) => ({
  low: `${of.lowMinor}`,
  likely: `${of.likelyMinor}`,
  p80: `${of.p80Minor}`,
  high: `${of.highMinor}`,
});
