import type { InspectionKind, LeakCheckKind, LeakSeen, Prisma } from '@fairlead/database';
import { sayMinute } from '../given.ts';

/** What is needed to say where the looks for leaks stand. Rows in the order in which they happened. */
export const leakCheckFacts = {
  id: true,
  kind: true,
  plannedFor: true,
  seen: true,
  findingId: true,
  finding: { select: { number: true } },
} satisfies Prisma.LeakCheckSelect;

export interface LeakCheckFacts {
  id: string;
  kind: LeakCheckKind;
  plannedFor: Date | null;
  seen: LeakSeen | null;
  findingId: string | null;
  finding: { number: number } | null;
}

export const leakCheckStates = ['missing', 'appointed', 'dry', 'found', 'leaks'] as const;
export type LeakCheckState = (typeof leakCheckStates)[number];

export interface LeakCheckStanding {
  kind: LeakCheckKind;
  state: LeakCheckState;
  /** The appointment, or the look that was made; null: neither. */
  last: LeakCheckFacts | null;
}

const kinds: readonly LeakCheckKind[] = ['after_standing', 'after_run_up'];

/**
 * Where the looks for leaks of an order stand. An inspection wants both; other work those that somebody appointed or
 * made. The last word of a kind holds: an appointment after a look wants another look.
 */
export function leakCheckStandings({
  inspection,
  leakChecks,
}: {
  inspection: InspectionKind | null;
  leakChecks: readonly LeakCheckFacts[];
}): LeakCheckStanding[] {
  return kinds.flatMap((kind) => {
    const last = leakChecks.findLast((check) => check.kind === kind) ?? null;
    return inspection || last ? [{ kind, state: stateOf(last), last }] : [];
  });
}

function stateOf(last: LeakCheckFacts | null): LeakCheckState {
  if (!last) return 'missing';
  if (last.seen === null) return 'appointed';
  if (last.seen === 'dry') return 'dry';
  return last.findingId ? 'found' : 'leaks';
}

const kindWords: Record<LeakCheckKind, string> = {
  after_standing: 'after standing',
  after_run_up: 'after the run-up',
};
const seenWords: Record<Exclude<LeakSeen, 'dry'>, string> = {
  stain: 'a stain',
  running_leak: 'a running leak',
};

/**
 * What keeps an aircraft from being released for want of a look for leaks, each in one sentence.
 *
 * @param corrected findings that are corrected: what leaked then has to be looked at again
 */
export function leakHindrances(
  standings: readonly LeakCheckStanding[],
  corrected: ReadonlySet<string>,
): string[] {
  return standings.flatMap(({ kind, state, last }) => {
    const name = `the leak check ${kindWords[kind]}`;
    if (state === 'missing') return [`${name} is missing: look, and record what was seen`];
    if (last?.plannedFor)
      return [`${name} is appointed for ${sayMinute(last.plannedFor)} and not recorded`];
    if (state === 'leaks' && last?.seen && last.seen !== 'dry')
      return [
        `${name} saw ${seenWords[last.seen]} and names no finding: note one, and record the look with it`,
      ];
    if (state === 'found' && corrected.has(last?.findingId ?? ''))
      return [`what ${name} saw was corrected (finding ${last?.finding?.number}): look again`];
    return [];
  });
}
