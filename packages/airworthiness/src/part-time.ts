import { formatHours, hundredths, type TimeInService } from './hours.ts';

/** A stay of a part on an aircraft, by the aircraft's time in service. */
export interface PartFitting {
  readonly aircraftId: string;
  readonly fittedAt: TimeInService;
  /** Null: it is there still. */
  readonly removedAt: TimeInService | null;
  /** It came off, and nobody wrote at what time. */
  readonly removed: boolean;
}

/** A part's own life: its time when it was first recorded, and where it ran since, in order. */
export interface PartHistory {
  readonly recorded: TimeInService;
  readonly fittings: readonly PartFitting[];
}

export type PartTimeAnswer =
  | { readonly known: true; readonly time: TimeInService }
  | { readonly known: false; readonly sentence: string };

/**
 * A part's own time in service: what it had when it was first recorded, and what each aircraft flew while it was fitted
 * (14 CFR 43.10 and 91.417(a)(2): its life goes with the part, not with the aircraft).
 *
 * Formula: recorded + Σ (aircraft at removal, or now − aircraft at fitting).
 *
 * @param aircraftNow time in service of the aircraft that it is fitted to now; null: no meter was read
 * @returns a sentence where a removal lacks its time, or the aircraft stands below the fitting
 * @example partTimeNow({ recorded: parseHours('150'), fittings: [{ aircraftId: 'a', fittedAt: parseHours('1240'), removedAt: parseHours('1300'), removed: true }, { aircraftId: 'b', fittedAt: parseHours('500'), removedAt: null, removed: false }] }, parseHours('512.5')) // → { known: true, time: 22250 }
 */
export function partTimeNow(
  { recorded, fittings }: PartHistory,
  aircraftNow: TimeInService | null,
): PartTimeAnswer {
  let time: number = recorded;
  for (const { fittedAt, removedAt, removed } of fittings) {
    const until = removed ? removedAt : aircraftNow;
    if (until === null)
      return {
        known: false,
        sentence: removed
          ? 'Cannot tell its time: it came off an aircraft, and the time in service then is not entered'
          : 'Cannot tell its time: no meter of the aircraft was read',
      };
    if (until < fittedAt)
      return {
        known: false,
        sentence: `Cannot tell its time: it was fitted at ${formatHours(fittedAt)} h of the aircraft, which stands at ${formatHours(until)} h`,
      };
    time += until - fittedAt;
  }
  return { known: true, time: hundredths(time) };
}

/**
 * A part's own time when an aircraft stood at so many hours; before it was fitted there, what it would have had.
 *
 * @returns null where it never was on that aircraft, or where an earlier stay lacks its end
 * @example partTimeAt({ recorded: parseHours('200'), fittings: [{ aircraftId: 'a', fittedAt: parseHours('1000'), removedAt: null, removed: false }] }, 'a', parseHours('1280')) // → 48000
 */
export function partTimeAt(
  { recorded, fittings }: PartHistory,
  aircraftId: string,
  aircraftAt: TimeInService,
): TimeInService | null {
  let before: number = recorded;
  let answer: number | null = null;
  for (const { aircraftId: on, fittedAt, removedAt, removed } of fittings) {
    // Of several stays on one aircraft, the last that had begun by then; of none, the first.
    if (on === aircraftId && (answer === null || fittedAt <= aircraftAt))
      answer = before + aircraftAt - fittedAt;
    if (!removed) break;
    if (removedAt === null) return answer === null || answer < 0 ? null : hundredths(answer);
    before += removedAt - fittedAt;
  }
  return answer === null || answer < 0 ? null : hundredths(answer);
}
