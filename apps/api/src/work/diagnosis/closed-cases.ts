import type { OutcomeKind, Tx } from '@fairlead/database';
import { type ClosedCase, causeById, tables } from '@fairlead/diagnosis';
import { seenOf, sightingFacts } from './seen-of.ts';

/** Older ones than so many hardly weigh anything. */
const MOST_CASES = 2000;
const YEAR_MS = 365.25 * 24 * 3600 * 1000;

/**
 * The shop's closed findings of a symptom, as suggestions learn from them. The last word on each counts; what was said
 * in words is something else than what is listed.
 *
 * @param except the finding that is asked about: it teaches nothing about itself
 */
export async function closedCases(
  read: Tx,
  symptom: string,
  now: Date,
  except: string,
): Promise<ClosedCase[]> {
  const outcomes = await read.findingOutcome.findMany({
    where: { symptom, findingId: { not: except } },
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    take: MOST_CASES,
    select: {
      id: true,
      kind: true,
      cause: true,
      at: true,
      finding: {
        select: {
          ...sightingFacts,
          outcomes: { orderBy: [{ at: 'desc' }, { id: 'desc' }], take: 1, select: { id: true } },
        },
      },
    },
  });
  return outcomes
    .filter(({ id, finding }) => finding.outcomes[0]?.id === id)
    .map(({ kind, cause, at, finding }) => {
      const saw = seenOf(finding);
      return {
        symptom,
        seen: saw?.symptom === symptom ? saw.seen : {},
        turnedOut: causeOf(symptom, kind, cause),
        yearsAgo: Math.max(0, (now.getTime() - at.getTime()) / YEAR_MS),
      };
    });
}

const causeOf = (symptom: string, kind: OutcomeKind, cause: string): string =>
  kind === 'listed' && causeById(tables, symptom, cause) ? cause : 'something_else';
