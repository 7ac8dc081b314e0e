import { formatHours, type TimeInService } from '../hours.ts';
import { writeDay } from './civil-days.ts';
import {
  type Counter,
  counters,
  type Due,
  type DueItem,
  type DueState,
  type Soon,
  type Standing,
} from './due-item.ts';
import { pointOf } from './due-point.ts';
import { countWords } from './limit-point.ts';

const hours = (time: TimeInService) => `${formatHours(time)} h`;

/**
 * When an item is due and how the aircraft stands against it.
 *
 * Rules: `hundred_hour` 14 CFR 91.409(b), with its 10 h on the way to the inspection; `annual` 91.409(a); `calendar_months`
 * to the end of a month, as in 91.411, 91.413 and 91.207(d); `recurring` from the last compliance by hours, months to the
 * day, calendar months, days, cycles, landings and starts, whichever comes first or last, without any allowance (part 39); `life_limit` from
 * when the part was fitted new (43.10, 91.417(a)(2)); `once` not later than its limit. What a rule gives no tolerance for
 * has none here.
 *
 * @throws RangeError for an item that lacks what its rule counts from, contradicts itself, or was complied with in the future
 * @example standOf({ id: 'a', rule: 'hundred_hour', whichever: 'first', enRoute: false, last: { tis: parseHours('1234.5') } }, { date: readDay('2026-03-02'), tis: parseHours('1300') }, { hours: parseHours('10'), days: 30 }).due.tis // → 133450
 */
export function standOf(item: DueItem, at: Standing, soon: Soon): Due {
  refuseFuture(item, at);
  const point = pointOf(item);
  const { limitTis, because, ...due } = point;
  const remaining: Remaining = {};
  const states: DueState[] = [];
  if (due.tis !== undefined) states.push(stateAt((remaining.hours = due.tis - at.tis), soon.hours));
  if (due.date !== undefined)
    states.push(stateAt((remaining.days = due.date - at.date), soon.days));
  for (const counter of counters) {
    const point = due[counter];
    if (point === undefined) continue;
    remaining[counter] = point - countNow(item, at, counter);
    states.push(stateAt(remaining[counter], soon.counts ?? 0));
  }
  const state =
    states.reduce<DueState | null>(
      (one, other) =>
        one === null || order[other] > order[one] === (item.whichever === 'first') ? other : one,
      null,
    ) ?? 'ok';
  const onTheWay =
    state === 'overdue' && item.enRoute && limitTis !== undefined && at.tis <= limitTis;
  return {
    id: item.id,
    due,
    ...(limitTis !== undefined && { limitTis }),
    state: onTheWay ? 'within_allowance' : state,
    remaining,
    because: `${because}${overWords(item, at, limitTis, state, onTheWay)}`,
  };
}

const order = { ok: 0, due_soon: 1, due: 2, within_allowance: 3, overdue: 4 } as const;
type Remaining = { -readonly [Each in keyof Due['remaining']]: Due['remaining'][Each] };

function stateAt(left: number, soon: number): DueState {
  if (left < 0) return 'overdue';
  if (left === 0) return 'due';
  return left <= soon ? 'due_soon' : 'ok';
}

function overWords(
  { enRoute }: DueItem,
  at: Standing,
  limitTis: TimeInService | undefined,
  state: DueState,
  onTheWay: boolean,
): string {
  if (state !== 'overdue' || limitTis === undefined) return '';
  if (onTheWay)
    return '; what is flown past it to reach the inspection counts against the next 100 h';
  if (at.tis > limitTis) return '; past even the 10 h that may be flown to reach the inspection';
  return enRoute ? '' : '; the 10 h past it are only for reaching the inspection';
}

function refuseFuture({ id, last = {} }: DueItem, at: Standing): void {
  const refuse = (what: string, given: string, now: string) => {
    throw new RangeError(
      `Item ${JSON.stringify(id)}: it was done ${what} ${given}, and the aircraft stands at ${now}; a compliance cannot lie in the future, nor a reading go back`,
    );
  };
  if (last.date !== undefined && last.date > at.date)
    refuse('on', writeDay(last.date), writeDay(at.date));
  if (last.tis !== undefined && last.tis > at.tis) refuse('at', hours(last.tis), hours(at.tis));
  for (const counter of counters) {
    const [then, now] = [last[counter], at[counter]];
    if (then !== undefined && now !== undefined && then > now)
      refuse('at', countWords(counter, then), countWords(counter, now));
  }
}

function countNow({ id }: DueItem, at: Standing, counter: Counter): number {
  const now = at[counter];
  if (now === undefined)
    throw new RangeError(
      `Item ${JSON.stringify(id)} counts ${counter}: give the aircraft's as at.${counter}`,
    );
  return now;
}
