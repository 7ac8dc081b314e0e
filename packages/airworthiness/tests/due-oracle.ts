import { Temporal } from 'temporal-polyfill';

/**
 * The rules of what falls due, asked the other way round: not "when is it due", but "may it still be flown like this", for any
 * day, hours and counts. Dates are Temporal's; nothing of src is used. From this the states follow: overdue where it may not,
 * due where it may not a day, a hundredth of an hour or a count later, due soon where it may not after what counts as soon.
 */

type Counts = { cycles?: number; landings?: number; starts?: number };
/** A request's item, hours in hundredths. */
export interface OracleItem {
  rule: string;
  every?: Counts & { hours?: number; months?: number; calendarMonths?: number; days?: number };
  whichever?: 'first' | 'last';
  last?: Counts & { date?: string; tis?: number; dueAtTis?: number };
  enRoute?: boolean;
  limit?: Counts & { hours?: number; date?: string };
}
export interface OracleAt extends Required<Counts> {
  date: string;
  tis: number;
}

const counters = ['cycles', 'landings', 'starts'] as const;
const day = (text: string) => Temporal.PlainDate.from(text);
const monthIndex = (date: Temporal.PlainDate) => date.year * 12 + date.month;

/** One thing that must not be exceeded, and how far off soon is in its unit. */
interface Term {
  soon: number;
  /** Whether it is exceeded when so much more was flown, or so many days have passed. */
  exceeded: (more: number) => boolean;
}

export function termsOf(item: OracleItem, at: OracleAt, soon: { hours: number; days: number }) {
  const { rule, every = {}, last, limit } = item;
  const terms: Term[] = [];
  const caps: Term[] = [];
  const hours = (most: number, to = terms) =>
    to.push({ soon: soon.hours, exceeded: (more) => at.tis + more > most });
  const count = (name: (typeof counters)[number], most: number, to = terms) =>
    to.push({ soon: 0, exceeded: (more) => at[name] + more > most });
  const on = (may: (today: Temporal.PlainDate) => boolean): Term => ({
    soon: soon.days,
    exceeded: (more) => !may(day(at.date).add({ days: more })),
  });
  const limits = (to: Term[], from: Counts & { tis?: number } = {}) => {
    if (limit?.hours !== undefined) hours((from.tis ?? 0) + limit.hours, to);
    for (const name of counters)
      if (limit?.[name] !== undefined) count(name, (from[name] ?? 0) + limit[name], to);
    const end = limit?.date;
    if (end !== undefined) to.push(on((today) => Temporal.PlainDate.compare(today, day(end)) <= 0));
  };
  // "Within the preceding n calendar months": the month of the day is at most n after the month it was done in.
  const calendarMonths = (n: number) =>
    on((today) => monthIndex(today) - monthIndex(day(last!.date!)) <= n);
  if (rule === 'hundred_hour') {
    // "within the preceding 100 hours"; "the excess time … must be included in computing the next 100 hours".
    const { tis, dueAtTis } = { dueAtTis: Infinity, ...last } as { tis: number; dueAtTis: number };
    const excess = Math.max(0, tis - dueAtTis);
    terms.push({ soon: soon.hours, exceeded: (more) => at.tis + more - tis + excess > 100_00 });
  }
  if (rule === 'annual') terms.push(calendarMonths(12));
  if (rule === 'calendar_months') terms.push(calendarMonths(every.calendarMonths!));
  if (rule === 'recurring' && last) {
    if (every.hours !== undefined) hours(last.tis! + every.hours);
    for (const name of counters)
      if (every[name] !== undefined) count(name, last[name]! + every[name]);
    const dates: Term[] = [];
    if (every.days !== undefined)
      dates.push(
        on((today) => day(last.date!).until(today, { largestUnit: 'days' }).days <= every.days!),
      );
    if (every.months !== undefined)
      dates.push(
        on(
          (today) =>
            Temporal.PlainDate.compare(today, day(last.date!).add({ months: every.months! })) <= 0,
        ),
      );
    if (every.calendarMonths !== undefined) dates.push(calendarMonths(every.calendarMonths));
    terms.push(...dates);
    limits(caps);
  }
  if (rule === 'recurring' && !last) limits(terms);
  if (rule === 'life_limit') limits(terms, last);
  if (rule === 'once' && !last) limits(terms);
  return { terms, caps };
}

const order = ['ok', 'due_soon', 'due', 'overdue'];
const stateOf = ({ soon, exceeded }: Term) =>
  exceeded(0) ? 'overdue' : exceeded(1) ? 'due' : exceeded(soon + 1) ? 'due_soon' : 'ok';

/** How it stands, by asking nothing but whether it may still be flown. */
export function oracleState(
  item: OracleItem,
  at: OracleAt,
  soon: { hours: number; days: number },
): string {
  const { terms, caps } = termsOf(item, at, soon);
  const states = [...terms, ...caps].map(stateOf);
  const ranks = states.map((state) => order.indexOf(state));
  if (ranks.length === 0) return 'ok';
  const state = order[item.whichever === 'last' ? Math.min(...ranks) : Math.max(...ranks)]!;
  if (item.rule !== 'hundred_hour' || state !== 'overdue' || !item.enRoute) return state;
  // "may be exceeded by not more than 10 hours while en route"
  return terms[0]!.exceeded(-10_00) ? 'overdue' : 'within_allowance';
}
