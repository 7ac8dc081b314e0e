import { type Minor, minor, nothing, sumOf } from './amount.ts';

/** How long something owed is past its day. Thirty days at a time: common practice, no source. */
export const ageClasses = ['not_due', 'to_30', 'to_60', 'to_90', 'over_90'] as const;
export type AgeClass = (typeof ageClasses)[number];

/** What is owed on one invoice, and the last day on which it could be paid in time. */
export interface OpenAmount {
  /** More than nothing: what is to be paid back is no debt and has no age. */
  readonly owed: Minor;
  /** YYYY-MM-DD; null: no day was given, so it is never past it. */
  readonly dueOn: string | null;
}

export type Ages = Readonly<Record<AgeClass, Minor>> & { readonly total: Minor };

const DAY = 86_400_000;

/** Midnight UTC of a civil day, so that days are whole numbers apart. */
function dayNumber(date: string): number {
  const at = /^\d{4}-\d\d-\d\d$/.test(date) ? new Date(`${date}T00:00:00Z`) : new Date(Number.NaN);
  if (Number.isNaN(at.getTime()) || at.toISOString().slice(0, 10) !== date)
    throw new RangeError(`"${date}" is no day: needed is a real one, such as 2031-05-04`);
  return at.getTime() / DAY;
}

/**
 * The class of something that is due on a day: `not_due` up to and with that day, `to_30` from the first to the thirtieth day
 * after it, `to_60` from the 31st to the 60th, `to_90` from the 61st to the 90th, `over_90` from the 91st on.
 *
 * @param dueOn YYYY-MM-DD, or null
 * @param today YYYY-MM-DD
 * @throws RangeError for what is no day
 * @example ageClass('2031-05-04', '2031-05-04') // → 'not_due'
 * @example ageClass('2031-05-04', '2031-06-03') // → 'to_30'
 * @example ageClass('2031-05-04', '2031-06-04') // → 'to_60'
 */
export function ageClass(dueOn: string | null, today: string): AgeClass {
  const now = dayNumber(today);
  const past = dueOn === null ? 0 : now - dayNumber(dueOn);
  if (past <= 0) return 'not_due';
  if (past <= 30) return 'to_30';
  if (past <= 60) return 'to_60';
  return past <= 90 ? 'to_90' : 'over_90';
}

/**
 * What is owed by how long it is past its day. The classes add up to `total`, and `total` to what is owed, exactly.
 *
 * @throws RangeError where nothing, or less, is owed on one, or where a day is none
 * @example ageing([{ owed: minor(500n), dueOn: '2031-05-04' }, { owed: minor(70n), dueOn: '2031-01-01' }], '2031-05-10') // → { not_due: 0n, to_30: 500n, to_60: 0n, to_90: 0n, over_90: 70n, total: 570n }
 */
export function ageing(open: readonly OpenAmount[], today: string): Ages {
  const byClass = new Map<AgeClass, bigint>();
  for (const { owed, dueOn } of open) {
    if (owed <= 0n)
      throw new RangeError(
        `${owed} is not owed: needed is more than 0; what is paid back has no age`,
      );
    const of = ageClass(dueOn, today);
    byClass.set(of, (byClass.get(of) ?? 0n) + owed);
  }
  const of = (each: AgeClass) => minor(byClass.get(each) ?? nothing);
  return {
    not_due: of('not_due'),
    to_30: of('to_30'),
    to_60: of('to_60'),
    to_90: of('to_90'),
    over_90: of('over_90'),
    total: sumOf(open.map(({ owed }) => owed)),
  };
}
