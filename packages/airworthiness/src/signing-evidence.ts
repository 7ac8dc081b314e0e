import { type CivilDate, civilDate } from './civil-date.ts';
import { kindsOfWork, type StationRating, type WorkKind } from './kinds-of-work.ts';

/** A stretch of days; without an end it goes on. */
export interface Days {
  readonly from: CivilDate;
  readonly until?: CivilDate | undefined;
}

/** What a signature rests on besides certificate and rating: from the shop's own records, and from what was stated with a paper. */
export interface SigningEvidence {
  /** Kinds of work that the person did before, or showed under supervision: 14 CFR 65.81(a). */
  readonly done: readonly WorkKind[];
  /** Months in which they served or supervised, "2026-03": 65.83(b). */
  readonly monthsServed: readonly string[];
  /** When the authority found them able: 65.83(a). */
  readonly foundAble: readonly CivilDate[];
  /** Years of an inspection authorization for which one of the activities of 65.93(a) is shown, by days on which it was. */
  readonly inspectionActivity: readonly CivilDate[];
  /** Since when they hold the inspection authorization. */
  readonly authorizedSince?: CivilDate | undefined;
}

/** Months of service that 65.83(b) asks for, and the months before the day in which they count. */
const SERVED = 6;
const WITHIN = 24;

/**
 * What is lacking for a mechanic to approve a kind of work on a day, besides certificate and rating; undefined: nothing.
 *
 * Sources, read in the regulation's text: 14 CFR 65.81(a), the work was done before, or its ability shown; 65.83, within the
 * preceding 24 months at least 6 months of service, or found able; for work that rests on an inspection authorization 65.93(a)
 * and (c): after 31 March of the first of its two years one of the activities must have been completed by then, or an oral
 * test since; an authorization held less than 90 days before that day is exempt, 65.93(b)(2). That a calendar month counts
 * once anything was done in it is our reading.
 *
 * @example evidenceLack('annual_inspection', { done: [], monthsServed: [], foundAble: ['2026-01-05'], inspectionActivity: [] }, '2026-03-14')?.paragraph // → '14 CFR 65.81(a)'
 */
export function evidenceLack(
  kind: WorkKind,
  evidence: SigningEvidence,
  on: CivilDate,
): { paragraph: string; lack: string } | undefined {
  const day = civilDate(on, 'day of signing');
  const { title, entitlements } = kindsOfWork[kind];
  if (!evidence.done.includes(kind))
    return {
      paragraph: '14 CFR 65.81(a)',
      lack: `a mechanic approves only work that they did satisfactorily before, or whose ability they showed under direct supervision; nothing of that is kept for “${title}”`,
    };
  const first = day.subtract({ months: WITHIN }).toString();
  const found = evidence.foundAble.some((at) => at >= first && at <= on);
  const months = new Set(
    evidence.monthsServed.filter((month) => month >= first.slice(0, 7) && month <= on.slice(0, 7)),
  );
  if (!found && months.size < SERVED)
    return {
      paragraph: '14 CFR 65.83',
      lack: `within the preceding ${WITHIN} months at least ${SERVED} months of service as a mechanic are asked for, and ${months.size} ${months.size === 1 ? 'is' : 'are'} kept`,
    };
  const authorized = entitlements.some(
    (one) => one.by === 'person' && one.holds.some((held) => held === 'inspection_authorization'),
  );
  return authorized ? activityLack(evidence, on) : undefined;
}

/** 65.93(c): the second of two years rests on what was done in the first. */
function activityLack(
  { inspectionActivity, authorizedSince }: SigningEvidence,
  on: CivilDate,
): { paragraph: string; lack: string } | undefined {
  const { year, month } = civilDate(on);
  const began = month > 3 ? year : year - 1;
  // The two years begin on 1 April of an odd year: in the first nothing is asked yet.
  if (began % 2 !== 0) return undefined;
  const [start, end] = [`${began - 1}-04-01`, `${began}-03-31`];
  const held =
    authorizedSince === undefined
      ? Infinity
      : civilDate(authorizedSince).until(civilDate(end), { largestUnit: 'days' }).days;
  if (held < 90) return undefined;
  if (inspectionActivity.some((at) => at >= start && at <= on)) return undefined;
  return {
    paragraph: '14 CFR 65.93(c)',
    lack: `the inspection authorization rests on an activity of 65.93(a) completed by ${end} (annuals, major repairs, a progressive inspection, a course, an oral test), or an oral test since; none is kept from ${start} on`,
  };
}

/**
 * What is lacking for somebody to release work in a repair station's name; undefined: nothing.
 *
 * Source: 14 CFR 145.157 and 145.161(a)(3), read in the regulation's text: the station's roster of those who may sign a
 * maintenance release. Its ratings are held against the kind of work by `whoMayApprove`.
 *
 * @param authorised ratings for which the person stands on that roster on the day
 * @example releaseLack('annual_inspection', [])?.paragraph // → '14 CFR 145.157, 145.161(a)(3)'
 */
export function releaseLack(
  kind: WorkKind,
  authorised: readonly StationRating[],
): { paragraph: string; lack: string } | undefined {
  const asked = kindsOfWork[kind].entitlements.flatMap((one) =>
    one.by === 'repair_station' ? [one.rating] : [],
  );
  const enough = asked.some((rating) =>
    rating === 'any' ? authorised.length > 0 : authorised.includes(rating),
  );
  return enough
    ? undefined
    : {
        paragraph: '14 CFR 145.157, 145.161(a)(3)',
        lack: `the station's roster of those who sign a maintenance release does not name them for the rating ${asked.join(' or ')}`,
      };
}
