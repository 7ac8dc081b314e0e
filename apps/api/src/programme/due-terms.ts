import { type DueItem, hundredths } from '@fairlead/airworthiness';
import type { Prisma } from '@fairlead/database';

/** A due item with what its stand follows from. */
export const dueFacts = {
  id: true,
  aircraftId: true,
  kind: true,
  title: true,
  number: true,
  revision: true,
  source: true,
  rule: true,
  everyHundredths: true,
  everyMonths: true,
  everyCalendarMonths: true,
  everyDays: true,
  limitHundredths: true,
  limitDate: true,
  whicheverLast: true,
  taskId: true,
  component: {
    select: {
      title: true,
      serial: true,
      tisHundredths: true,
      fittings: { select: { removedAt: true, aircraftTisHundredths: true } },
    },
  },
  events: {
    orderBy: [{ doneOn: 'desc' }, { at: 'desc' }],
    select: {
      kind: true,
      doneOn: true,
      tisHundredths: true,
      dueAtHundredths: true,
      method: true,
      by: { select: { name: true } },
    },
  },
} satisfies Prisma.DueItemSelect;

export type DueRow = Prisma.DueItemGetPayload<{ select: typeof dueFacts }>;

const DAY = 86_400_000;
/** A civil day as a whole number, from midnight UTC of it. */
export const dayOf = (date: Date): number => Math.round(date.getTime() / DAY);
export const dateOf = (day: number): Date => new Date(day * DAY);

/** The newest compliance; null before the first. */
export const lastOf = ({ events }: Pick<DueRow, 'events'>) =>
  events.find(({ kind }) => kind === 'complied') ?? null;

/** Whether it falls due no more. */
export const ended = ({ events }: { events: readonly Pick<DueRow['events'][number], 'kind'>[] }) =>
  events.some(({ kind }) => kind === 'ended');

/** The item as packages/airworthiness takes it. */
export function termsOf(row: DueRow): DueItem {
  const last = lastOf(row);
  const since = last === null ? fittedNew(row) : null;
  const every = {
    ...(row.everyHundredths !== null && { hours: hundredths(row.everyHundredths) }),
    ...(row.everyMonths !== null && { months: row.everyMonths }),
    ...(row.everyCalendarMonths !== null && { calendarMonths: row.everyCalendarMonths }),
    ...(row.everyDays !== null && { days: row.everyDays }),
  };
  const limit = {
    ...(row.limitHundredths !== null && { hours: hundredths(row.limitHundredths) }),
    ...(row.limitDate !== null && { date: dayOf(row.limitDate) }),
  };
  const own = row.rule === 'recurring' || row.rule === 'calendar_months';
  return {
    id: row.id,
    rule: row.rule,
    whichever: row.whicheverLast ? 'last' : 'first',
    enRoute: false,
    ...(own && Object.keys(every).length > 0 && { every }),
    ...(Object.keys(limit).length > 0 && { limit }),
    ...(last && {
      last: {
        date: dayOf(last.doneOn),
        ...(last.tisHundredths !== null && { tis: hundredths(last.tisHundredths) }),
        ...(last.dueAtHundredths !== null && { dueAtTis: hundredths(last.dueAtHundredths) }),
      },
    }),
    ...(since !== null && { last: { tis: hundredths(since) } }),
  };
}

/**
 * Where the aircraft stood, or would have stood, when the part had no time on it. Only for a part that was fitted once:
 * what it ran elsewhere in between is not known here.
 */
function fittedNew({ rule, component }: DueRow): number | null {
  const [fitting, ...more] = component?.fittings ?? [];
  if (rule !== 'life_limit' || !component || !fitting || more.length > 0 || fitting.removedAt)
    return null;
  const since = fitting.aircraftTisHundredths - component.tisHundredths;
  return since >= 0 ? since : null;
}
