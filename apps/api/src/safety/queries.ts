import type { Prisma, Tx } from '@fairlead/database';
import { Refused } from '../errors.ts';
import { checklistFacts, checklistLines, sayUninitialled } from './checklist.ts';
import { handOverFacts, notTakenOver, sayHandOver } from './hand-overs.ts';
import { leakCheckFacts, leakCheckStandings, leakHindrances } from './leak-checks.ts';
import { openLineFacts, openLineState, sayOpenLine } from './open-lines.ts';
import { countStates, inTurn, sayDifference, toolCountFacts } from './tool-counts.ts';

/** Whether anything is open on an aircraft is read from this. */
export const unclosedFacts = {
  openLines: { orderBy: [{ at: 'asc' }, { id: 'asc' }], select: openLineFacts },
  toolCounts: { orderBy: inTurn, select: toolCountFacts },
} satisfies Prisma.WorkOrderSelect;

export const leakChecksInTurn = [
  { at: 'asc' },
  { id: 'asc' },
] satisfies Prisma.LeakCheckOrderByWithRelationInput[];

/** What keeps an aircraft here besides its items and its entries. */
export const openOnOrder = {
  ...unclosedFacts,
  inspection: true,
  leakChecks: { orderBy: leakChecksInTurn, select: leakCheckFacts },
  handOvers: { where: notTakenOver, orderBy: { at: 'asc' }, select: handOverFacts },
} satisfies Prisma.WorkOrderSelect;

export type OpenOnOrder = Prisma.WorkOrderGetPayload<{ select: typeof openOnOrder }>;

/** One thing that has to be closed before anybody signs. */
export interface Unclosed {
  /** As something that is lacking: "a panel that is closed again: “Belly panel”, opened by …". */
  lacks: string;
  remedy: string;
  /** As what stands in the way: "“Belly panel”, opened by …, is not closed". */
  hinders: string;
}

/** What was left to the next and not taken over: nobody releases an aircraft that somebody stopped at. */
const leftUntaken = ({ handOvers }: Pick<OpenOnOrder, 'handOvers'>): string[] =>
  handOvers.map(sayHandOver);

/**
 * What keeps an aircraft from being released besides what keeps anybody from signing.
 *
 * @param corrected findings that are corrected
 */
export const beforeRelease = (order: OpenOnOrder, corrected: ReadonlySet<string>): string[] => [
  ...leftUntaken(order),
  ...leakHindrances(leakCheckStandings(order), corrected),
];

/** A look that is appointed and still to come, on one of these orders: it keeps the aircraft, and no hands. */
export async function appointedLook(read: Tx, orderId: string, now: Date): Promise<Date | null> {
  const order = await read.workOrder.findUnique({
    where: { id: orderId },
    select: {
      inspection: true,
      leakChecks: { orderBy: leakChecksInTurn, select: leakCheckFacts },
    },
  });
  const coming = order
    ? leakCheckStandings(order).flatMap(({ last }) =>
        last?.plannedFor && last.plannedFor > now ? [last.plannedFor] : [],
      )
    : [];
  return coming.length > 0 ? new Date(Math.max(...coming.map(Number))) : null;
}

/** Refuses to end an item at which somebody stopped, until somebody has read what they left. */
export async function refuseUntaken(
  tx: Tx,
  item: { id: string; name: string },
  action: string,
): Promise<void> {
  const left = await tx.handOver.findFirst({
    where: { itemId: item.id, ...notTakenOver },
    orderBy: { at: 'asc' },
    select: handOverFacts,
  });
  if (left)
    throw new Refused(
      'AGAINST_RULE',
      `${item.name} cannot be ${action}: ${sayHandOver(left)}. Read what is left, then touch “Taken over”.`,
    );
}

/** Refuses to finish an item at which something is left: nobody took over, or a line of its list has no initials. */
export async function refuseUnfinished(tx: Tx, item: { id: string; name: string }): Promise<void> {
  await refuseUntaken(tx, item, 'finished');
  const facts = await tx.workItem.findUniqueOrThrow({
    where: { id: item.id },
    select: checklistFacts,
  });
  const left = sayUninitialled(checklistLines(facts));
  if (left)
    throw new Refused(
      'AGAINST_RULE',
      `${item.name} cannot be finished: ${left}. Initial each line when it is done.`,
    );
}

/** Panels open, parts off, counts that do not agree. Nothing is signed or released while one is there. */
export function unclosed({
  openLines,
  toolCounts,
}: Pick<OpenOnOrder, keyof typeof unclosedFacts>): Unclosed[] {
  const lines = openLines
    .filter((line) => openLineState(line) === 'open')
    .map((line): Unclosed => {
      const said = sayOpenLine(line);
      const without = said.replace(/,$/, '');
      return line.kind === 'opened'
        ? {
            lacks: `a panel that is closed again: ${without}`,
            remedy: 'Close it, then touch “Closed” at its line in what is open.',
            hinders: `${said} is not closed`,
          }
        : {
            lacks: `a part that is back on: ${without}`,
            remedy: 'Refit it, then touch “Refitted” at its line in what is open.',
            hinders: `${said} is not refitted`,
          };
    });
  const counts = countStates(toolCounts)
    .filter(({ agrees }) => !agrees)
    .map(({ item, names, lastBy }): Unclosed => {
      const of = item ? `item ${item.position}, “${item.title}”` : 'the order';
      const difference =
        sayDifference(names) || 'nothing is missing, but it was not counted back whole';
      return {
        lacks: `a count of tools and rags that agrees: ${of}, ${difference}`,
        remedy: 'Look for what is missing, then count back again.',
        hinders: `the count of tools and rags for ${of}${item ? ',' : ''} does not agree (last counted by ${lastBy}): ${difference}`,
      };
    });
  return [...lines, ...counts];
}
