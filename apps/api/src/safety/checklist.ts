import type { ChecklistEventKind, Prisma } from '@fairlead/database';

/** What is needed to say which lines of an item's list are initialled, and by whom. */
export const checklistFacts = {
  checklist: true,
  checklistEvents: {
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
    select: { line: true, kind: true, at: true, byId: true },
  },
} satisfies Prisma.WorkItemSelect;

export interface ChecklistFacts {
  checklist: readonly string[];
  checklistEvents: readonly { line: number; kind: ChecklistEventKind; at: Date; byId: string }[];
}

export interface ChecklistLine {
  /** From 1. */
  number: number;
  words: string;
  /** Who initialled it last, and when; null: nobody, or it was taken back. */
  initialled: { byId: string; at: Date } | null;
}

/** Each line with its initials. The last word on a line holds. Events in the order in which they happened. */
export function checklistLines({ checklist, checklistEvents }: ChecklistFacts): ChecklistLine[] {
  return checklist.map((words, index) => {
    const last = checklistEvents.findLast(({ line }) => line === index + 1);
    const initialled = last?.kind === 'initialled' ? { byId: last.byId, at: last.at } : null;
    return { number: index + 1, words, initialled };
  });
}

/** line 2, “Safety wire on both caps”, has no initials; neither have lines 4 and 5 */
export function sayUninitialled(lines: readonly ChecklistLine[]): string | null {
  const [first, ...more] = lines.filter(({ initialled }) => !initialled);
  if (!first) return null;
  const others = more.map(({ number }) => number);
  const list =
    others.length > 1 ? `${others.slice(0, -1).join(', ')} and ${others.at(-1)}` : `${others[0]}`;
  const rest =
    others.length === 0
      ? ''
      : `; neither ${others.length === 1 ? 'has line' : 'have lines'} ${list}`;
  return `line ${first.number} of its list, “${first.words}”, has no initials${rest}`;
}
