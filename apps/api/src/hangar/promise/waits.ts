import type { ItemEventKind, Prisma, WaitingFor } from '@fairlead/database';
import { dayAfter } from '@fairlead/hangar';
import { sayDay } from '../../given.ts';
import type { WorkToDraw } from './draw-work.ts';

/** What is known of when something comes, newest first. */
export const expectationFacts = {
  orderBy: [{ notedAt: 'desc' }, { id: 'desc' }],
  select: { what: true, partId: true, expectedOn: true, notedAt: true },
} as const satisfies Prisma.WorkItem$expectationsArgs;

export interface WaitFacts {
  title: string;
  events: readonly { kind: ItemEventKind; waitingFor: WaitingFor | null; at: Date }[];
  expectations: readonly {
    what: string;
    partId: string | null;
    expectedOn: Date | null;
    notedAt: Date;
  }[];
}

const unsaid: Partial<Record<WaitingFor, (title: string) => string>> = {
  parts: (title) => `what “${title}” waits for`,
  owner: (title) => `the owner's answer on “${title}”`,
  bay: (title) => `a bay for “${title}”`,
};

/**
 * What holds an item up. Of each thing the newest word holds, until the item was taken up again. Parts are fitted from the
 * day after the one on which they are expected (common practice, no source), anything else from that day on. A day that has
 * passed while the item still waits is no day any more. Hands and inspectors are not waited for here: they are among the
 * people who are in.
 *
 * @param today ISO civil day
 */
export function waitOf(
  { title, events, expectations }: WaitFacts,
  today: string,
): WorkToDraw['wait'] {
  const last = events.at(-1);
  const waiting = last?.kind === 'waiting' ? last.waitingFor : null;
  const resumed = events.findLast(({ kind }) => kind === 'resumed')?.at;
  const newest = new Map<string, WaitFacts['expectations'][number]>();
  for (const each of expectations) {
    const key = each.partId ?? each.what.toLocaleLowerCase('en');
    if (!newest.has(key) && !(resumed && each.notedAt <= resumed)) newest.set(key, each);
  }
  const said = [...newest.values()];
  const parts = waiting === null || waiting === 'parts';
  const gone = ({ expectedOn }: { expectedOn: Date | null }) =>
    expectedOn === null || sayDay(expectedOn) < today;
  const unknown = said.find(gone);
  const known = said
    .filter((each) => !gone(each))
    .sort((one, other) => other.expectedOn!.getTime() - one.expectedOn!.getTime())[0];
  const blocked = waiting !== null && waiting !== 'help' && waiting !== 'inspection';
  if (blocked && unknown) return { words: unknown.what, until: null };
  if (blocked && said.length === 0) return { words: unsaid[waiting]!(title), until: null };
  // Somebody who says that a thing has no day any more has not said that it is here.
  const dayless = said.find(({ expectedOn }) => expectedOn === null);
  if (dayless) return { words: dayless.what, until: null };
  if (!known) return null;
  return { words: known.what, until: dayAfter(sayDay(known.expectedOn!), parts ? 1 : 0) };
}
