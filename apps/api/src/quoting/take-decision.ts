import type { Channel, Choice, Tx } from '@fairlead/database';
import type { SigningKey } from '@fairlead/proof';
import { civilDay } from '../civil-day.ts';
import { Refused } from '../errors.ts';
import { linkRecords } from '../record-chain.ts';
import { contactStanding } from './contact-standing.ts';
import {
  type HeldQuote,
  holdQuote,
  refuseAgreedFinding,
  refuseStale,
  refuseUnjudged,
} from './newest-revision.ts';
import { textNeeded, textUpTo } from './offer-terms.ts';
import { openWork } from './open-work.ts';
import { sayAmount, sayDecision } from './say-decision.ts';

/** An owner's answer, whoever brings it: the desk that heard it, or the owner's page. */
export interface OwnersAnswer {
  quoteId: string;
  revision: number;
  contactId: string;
  choice: Choice;
  channel: Channel;
  wordsShown: string;
  /** How far the yes goes, net, minor units. Null: as far as nine in ten should come out under. */
  ceiling: bigint | null;
  /** Null: now. */
  decidedAt: Date | null;
  note: string | null;
}

export interface Recording {
  now: Date;
  /** Null: nobody of the shop, the owner gave it on their own page. */
  recordedById: string | null;
  /** The shop's: it signs the decision's link in the aircraft's chain. */
  key: SigningKey;
}

/**
 * Keeps the owner's answer to the newest revision. Their yes opens the work, in the same transaction. The same answer
 * given twice is one answer; another than the one that stands is refused.
 *
 * @returns the id of the quote
 */
export async function takeDecision(
  tx: Tx,
  answer: OwnersAnswer,
  { now, recordedById, key }: Recording,
): Promise<string> {
  const given = {
    ...answer,
    decidedAt: answer.decidedAt ?? now,
    wordsShown: textNeeded(answer.wordsShown, 4000, 'words shown'),
    note: textUpTo(answer.note, 2000, 'note'),
  };
  // load
  const quote = await holdQuote(tx, answer.quoteId);
  const { timeZone } = await tx.shop.findFirstOrThrow({ select: { timeZone: true } });
  const day = civilDay(given.decidedAt, timeZone);

  // decide
  refuseStale(quote, answer.revision, 'revision');
  const ceilingMinor = ceilingOf(quote, answer);
  if (answeredAlike(quote, { ...given, ceilingMinor })) return quote.id;
  refuseTimes(quote, given.decidedAt, now);
  if (answer.choice === 'go_ahead')
    await refuseYes(tx, quote, { contactId: answer.contactId, ceiling: ceilingMinor ?? 0n, day });
  else
    await contactStanding(tx, { aircraftId: quote.aircraftId, contactId: answer.contactId, day });

  // save
  const { contactId, choice, channel, wordsShown, decidedAt, note } = given;
  await tx.decision.create({
    data: {
      revisionId: quote.newest.id,
      contactId,
      choice,
      channel,
      wordsShown,
      ceilingMinor,
      currency: quote.newest.currency,
      decidedAt,
      recordedAt: now,
      recordedById,
      note,
    },
  });
  // Asking for more on work that is there opens none.
  if (choice === 'go_ahead' && !quote.more)
    await openWork(tx, quote, { openedById: recordedById, openedAt: now });
  await linkRecords(tx, key, quote.aircraftId, now);
  return quote.id;
}

function ceilingOf({ newest }: HeldQuote, { choice, ceiling }: OwnersAnswer): bigint | null {
  if (choice !== 'go_ahead' && ceiling !== null)
    throw new Refused(
      'BAD_INPUT',
      'Only a yes has a ceiling: leave it out of any other answer.',
      'ceiling',
    );
  if (ceiling !== null && ceiling < 0n)
    throw new Refused(
      'BAD_INPUT',
      `A ceiling of ${sayAmount(ceiling, newest.currency)} was refused: needed is 0 or more.`,
      'ceiling',
    );
  return choice === 'go_ahead' ? (ceiling ?? newest.highMinor) : null;
}

/** True for the same answer sent again. An answer that differs from the one that stands is refused. */
function answeredAlike(
  { number, newest }: HeldQuote,
  given: Pick<OwnersAnswer, 'choice' | 'contactId' | 'channel' | 'wordsShown'> & {
    ceilingMinor: bigint | null;
  },
): boolean {
  const [latest] = newest.decisions;
  const same =
    latest !== undefined &&
    (['choice', 'contactId', 'channel', 'wordsShown', 'ceilingMinor'] as const).every(
      (key) => latest[key] === given[key],
    );
  if (same) return true;
  // "Talk to me first" leaves the offer open; a yes or a no closes it.
  const stands = newest.decisions.find(({ choice }) => choice !== 'talk_first');
  if (stands)
    throw new Refused(
      'CONFLICT',
      `Revision ${newest.revision} of quote ${number} is answered already: ${sayDecision(stands)}. A changed mind is a new revision.`,
    );
  return false;
}

const minute = (instant: Date) => instant.toISOString().slice(0, 16).replace('T', ' ');
const TOLERANCE = 60_000;

function refuseTimes({ number, newest }: HeldQuote, decidedAt: Date, now: Date): void {
  const sentAt = newest.sendings[0]?.sentAt;
  if (!sentAt)
    throw new Refused(
      'AGAINST_RULE',
      `Revision ${newest.revision} of quote ${number} was not sent: nobody can have decided on it. Send it first.`,
    );
  if (decidedAt.getTime() > now.getTime() + TOLERANCE)
    throw new Refused(
      'BAD_INPUT',
      `An answer at ${minute(decidedAt)} UTC was refused: it is ${minute(now)} UTC now.`,
      'decidedAt',
    );
  if (decidedAt.getTime() < sentAt.getTime() - TOLERANCE)
    throw new Refused(
      'BAD_INPUT',
      `An answer at ${minute(decidedAt)} UTC was refused: the quote was sent at ${minute(sentAt)} UTC.`,
      'decidedAt',
    );
}

const iso = (day: Date) => day.toISOString().slice(0, 10);

async function refuseYes(
  tx: Tx,
  quote: HeldQuote,
  { contactId, ceiling, day }: { contactId: string; ceiling: bigint; day: Date },
): Promise<void> {
  const { number, newest, aircraftId } = quote;
  if (newest.expiresOn < day)
    throw new Refused(
      'AGAINST_RULE',
      `Quote ${number} held until ${iso(newest.expiresOn)} and cannot be accepted on ${iso(day)}: revise and send it again.`,
    );
  refuseUnjudged(quote);
  refuseAgreedFinding(quote, day);
  const { name, registration, limit } = await contactStanding(tx, { aircraftId, contactId, day });
  if (limit !== null && ceiling > limit)
    throw new Refused(
      'BEYOND_AGREED',
      `${name} may authorise up to ${sayAmount(limit, newest.currency)} for ${registration}; this yes goes to ${sayAmount(ceiling, newest.currency)}. Needed is a lower ceiling, or somebody who may authorise that much.`,
      'ceiling',
    );
}
