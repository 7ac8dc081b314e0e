import {
  type HoursModel,
  HoursPredictor,
  SUSPICION_LIMITS,
  type SuspiciousTime,
  suspiciousTimes,
  type WatchedItem,
} from '@fairlead/labour';

/** More than these nobody looks through; the least believable come first. */
const MOST_PROPOSED = 200;

/** A past item as it is looked at, with what a person decided about its time, if anybody did. */
export type WatchedPast = WatchedItem & { readonly verdict: string | null };

/** A time that a model cannot believe, as it is kept beside the model. */
export type KeptOddTime = Pick<SuspiciousTime, 'id' | 'hours' | 'expected' | 'weight'> & {
  readonly reasons: readonly { kind: string; words: string; otherTask?: string }[];
};

/** Older ones say little of how the shop works now, and each costs an estimate. */
export const NEWEST_WATCHED = 5000;
/** Less likely than one in so many, and it is worth asking whether it fits another task of its order. */
const ASK_OTHERS_ONE_IN = 20;

const keep = ({ id, hours, expected, weight, reasons }: SuspiciousTime): KeptOddTime => ({
  id,
  hours,
  expected,
  weight,
  reasons: reasons.map((reason) => ({
    kind: reason.kind,
    words: reason.words,
    ...(reason.kind === 'wrong-task' && { otherTask: reason.otherTask }),
  })),
});

/**
 * The times that a model cannot believe, of the newest that nobody has decided about.
 *
 * First each by itself, then those that are at all unusual against the other tasks of their order: to hold every item
 * against every other of its order would cost an estimate a pair.
 *
 * @param items oldest first
 */
export function oddTimesOf(model: HoursModel, items: readonly WatchedPast[]): KeptOddTime[] {
  const open = items.filter(({ verdict }) => verdict === null).slice(-NEWEST_WATCHED);
  if (model.rows.length === 0 || open.length === 0) return [];
  const predictor = new HoursPredictor(model);
  const alone = open.map((item) => ({ ...item, order: undefined }));
  const unusual = new Set(
    suspiciousTimes(predictor, alone, { ...SUSPICION_LIMITS, oneIn: ASK_OTHERS_ONE_IN }).map(
      ({ id }) => id,
    ),
  );
  const ofOrder = new Map<string, WatchedPast[]>();
  for (const item of items)
    if (item.order !== undefined)
      ofOrder.set(item.order, [...(ofOrder.get(item.order) ?? []), item]);
  const asked = open
    .filter(({ id }) => unusual.has(id))
    .flatMap((item) => {
      if (item.order === undefined) return [item];
      const others = (ofOrder.get(item.order) ?? []).filter(({ task }) => task !== item.task);
      // An order of its own for each that is asked about; the others only lend their tasks, and are not asked about.
      const order = item.id;
      return [
        { ...item, order },
        ...others.map((other) => ({ ...other, order, censored: true, presentHours: undefined })),
      ];
    });
  return suspiciousTimes(predictor, asked).slice(0, MOST_PROPOSED).map(keep);
}
