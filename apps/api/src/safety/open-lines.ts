import type { OpenKind, OpenLineEventKind, Prisma } from '@fairlead/database';

/** What is needed to say of a line whether it is still open, and whose it is. */
export const openLineFacts = {
  kind: true,
  words: true,
  place: true,
  by: { select: { name: true } },
  events: {
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
    select: { kind: true },
  },
} satisfies Prisma.OpenLineSelect;

export interface OpenLineFacts {
  kind: OpenKind;
  words: string;
  place: string;
  by: { name: string };
  events: readonly { kind: OpenLineEventKind }[];
}

export const openLineStates = ['open', 'closed', 'struck_out'] as const;
export type OpenLineState = (typeof openLineStates)[number];

/** The last word holds: closed, open again, or never was. Events in the order in which they happened. */
export function openLineState({ events }: Pick<OpenLineFacts, 'events'>): OpenLineState {
  const last = events.at(-1)?.kind;
  return last === undefined || last === 'reopened' ? 'open' : last;
}

/** “Belly panel 2” (left), opened by Ruan Teasel */
export function sayOpenLine({ kind, words, place, by }: Omit<OpenLineFacts, 'events'>): string {
  return `“${words}”${place === '' ? '' : ` (${place})`}, ${kind === 'opened' ? 'opened' : 'removed'} by ${by.name},`;
}
