import { useSyncExternalStore } from 'react';
import { shopClock } from '../../lib/shop-clock.ts';
import { dayOf } from '../../lib/shop-time.ts';

/** Under whose supervision somebody works on a day; `byId` null: under nobody's. */
export interface Supervision {
  /** `YYYY-MM-DD` in the shop's zone. */
  day: string;
  byId: string | null;
}

const keyOf = (personId: string) => `fairlead.supervision.${personId}`;
const changed = 'fairlead:supervision';
/** A browser that keeps nothing keeps it as long as the page lives. */
const unkept = new Map<string, string>();

function read(personId: string): string | null {
  try {
    return localStorage.getItem(keyOf(personId)) ?? unkept.get(personId) ?? null;
  } catch {
    return unkept.get(personId) ?? null;
  }
}

/** Keeps on this device under whom somebody works for the rest of the day. */
export function keepSupervision(personId: string, byId: string | null, timeZone: string): void {
  const day = dayOf(new Date(shopClock.now()).toISOString(), timeZone);
  const kept = JSON.stringify({ day, byId } satisfies Supervision);
  unkept.set(personId, kept);
  try {
    localStorage.setItem(keyOf(personId), kept);
  } catch {
    // Private windows may refuse storage.
  }
  window.dispatchEvent(new Event(changed));
}

function watch(heard: () => void): () => void {
  window.addEventListener(changed, heard);
  return () => window.removeEventListener(changed, heard);
}

/**
 * Under whom somebody said that they work today: asked once a day, so that every start after it is one touch.
 *
 * @param kept as it was kept
 * @returns undefined where they have not said so today, or whom they named is not among those who may supervise any more
 * @example supervisionToday('{"day":"2031-05-05","byId":"a"}', '2031-05-05', ['a']) // → 'a'
 */
export function supervisionToday(
  kept: string | null,
  day: string,
  supervisorIds: readonly string[],
): string | null | undefined {
  if (kept === null) return undefined;
  let said: Partial<Supervision>;
  try {
    said = (JSON.parse(kept) ?? {}) as Partial<Supervision>;
  } catch {
    return undefined;
  }
  if (said.day !== day || said.byId === undefined) return undefined;
  return said.byId === null || supervisorIds.includes(said.byId) ? said.byId : undefined;
}

/** The same for the person signed in, as it is kept on this device. */
export function useSupervisionToday(
  personId: string | undefined,
  timeZone: string | undefined,
  supervisorIds: readonly string[],
): string | null | undefined {
  const kept = useSyncExternalStore(
    watch,
    () => (personId === undefined ? null : read(personId)),
    () => null,
  );
  if (timeZone === undefined) return undefined;
  return supervisionToday(
    kept,
    dayOf(new Date(shopClock.now()).toISOString(), timeZone),
    supervisorIds,
  );
}
