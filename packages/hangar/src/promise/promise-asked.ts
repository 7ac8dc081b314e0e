import type { CivilDay } from './civil-day.ts';
import type { OtherWork, ShopDay } from './hand-minutes.ts';

/** Work of one aircraft that is held up by the same thing, or by nothing. */
export interface PromisedWork {
  /** Hands-on hours left: draws of what they may come to, draw by draw with the other work. All finite, 0 or more. */
  readonly draws: ArrayLike<number>;
  /** What holds it up, and the first day on which it may be done; null: nobody knows. Left out: nothing does. */
  readonly wait?: { readonly words: string; readonly until: CivilDay | null };
}

export interface PromiseAsked {
  /** From when on it can be worked: a day, and the minute of it that has come (0: the whole day). */
  readonly from: { readonly day: CivilDay; readonly minute: number };
  /** The days that are looked at, one after the other, the first of them `from.day`. */
  readonly days: readonly ShopDay[];
  readonly work: readonly PromisedWork[];
  /** Most people at once on the aircraft, 1 or more; two when left out (common practice, no source). */
  readonly handsAtOnce?: number;
  readonly others?: readonly OtherWork[];
}
