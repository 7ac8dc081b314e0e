import { instantOf, wallOf } from '../../lib/shop-time.ts';

interface Stretch {
  startedAt: string;
  endedAt: string | null;
  began: { id: string } | null;
  ended: { id: string } | null;
  supervisedBy?: { id: string } | null;
}

interface End {
  eventId: string;
  at: string;
  /** Whose supervision it was, where that is corrected. */
  supervision?: { byId: string | null };
}

/** What a corrected stretch says: the events to correct and how long it then is, or what is wrong with it. */
export type Correction = { ends: End[]; seconds: number | null } | { wrong: string };

/**
 * Which ends of a stretch were given another time. Fields hold whole minutes: an end whose minute is
 * as it was keeps its seconds and is not corrected.
 *
 * @param from, to as fields of the page hold them, `YYYY-MM-DDTHH:MM`, in the shop's zone; `to` is
 *   not looked at while the stretch runs
 * @param supervisedById under whom it was, null: nobody; left out: that is not asked
 * @example correctionOf({ startedAt: '2026-03-02T08:00:10Z', endedAt: null, began: { id: 'a' }, ended: null }, '2026-03-02T07:30', '', 'UTC') // → { ends: [{ eventId: 'a', at: '2026-03-02T07:30:00.000Z' }], seconds: null }
 */
export function correctionOf(
  stretch: Stretch,
  from: string,
  to: string,
  timeZone: string,
  supervisedById?: string | null,
): Correction {
  const read = (typed: string) => {
    try {
      return instantOf(typed, timeZone);
    } catch {
      return null;
    }
  };
  const start = from === wallOf(stretch.startedAt, timeZone) ? stretch.startedAt : read(from);
  const runs = stretch.endedAt === null;
  const end =
    stretch.endedAt === null
      ? null
      : to === wallOf(stretch.endedAt, timeZone)
        ? stretch.endedAt
        : read(to);
  if (start === null || (!runs && end === null))
    return { wrong: 'A day and a time are needed for each end.' };
  if (end !== null && Date.parse(end) <= Date.parse(start))
    return { wrong: 'It would end before it begins: needed is a later end.' };
  const supervision =
    supervisedById !== undefined && supervisedById !== (stretch.supervisedBy?.id ?? null)
      ? { supervision: { byId: supervisedById } }
      : null;
  const ends: End[] = [
    ...((start !== stretch.startedAt || supervision !== null) && stretch.began !== null
      ? [{ eventId: stretch.began.id, at: start, ...supervision }]
      : []),
    ...(end !== null && end !== stretch.endedAt && stretch.ended !== null
      ? [{ eventId: stretch.ended.id, at: end }]
      : []),
  ];
  const seconds = end === null ? null : Math.floor((Date.parse(end) - Date.parse(start)) / 1000);
  return { ends, seconds };
}
