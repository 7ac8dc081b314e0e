import type { PromisedWork } from '@fairlead/hangar';
import { drawItems, hoursLeft, type PackageItem } from '@fairlead/labour';
import { civilDay } from '../../civil-day.ts';
import { sayDay } from '../../given.ts';

/** One seed for every promise, so that the same work gives the same days. */
export const PROMISE_SEED = 1;
/** A day is a coarse thing: with so many draws the share that is done by a day is known to 0.7 % (one standard error). */
export const PROMISE_DRAWS = 4000;

/** An item with what was clocked on it, and what it waits for. */
export interface WorkToDraw {
  item: PackageItem;
  clocked: number;
  wait: { words: string; until: string | null } | null;
}

/** Draws of the hours left, added up by what they wait for, with what items share kept shared. */
export function drawWork(items: readonly WorkToDraw[]): PromisedWork[] {
  const byWait = new Map<string, { draws: Float64Array; wait: WorkToDraw['wait'] }>();
  drawItems(
    items.map(({ item }) => item),
    { seed: PROMISE_SEED, draws: PROMISE_DRAWS },
    (index, drawn, from) => {
      const { item, clocked, wait } = items[index]!;
      const left = clocked > 0 ? hoursLeft(item.predictive, drawn, clocked) : drawn;
      const key = wait ? `${wait.until ?? '?'} ${wait.words}` : '';
      const sum = byWait.get(key) ?? { draws: new Float64Array(PROMISE_DRAWS), wait };
      for (let i = 0; i < left.length; i += 1) sum.draws[from + i]! += left[i]!;
      byWait.set(key, sum);
    },
  );
  return [...byWait.values()].map(({ draws, wait }) => (wait ? { draws, wait } : { draws }));
}

/** An appointment that takes nobody's time: nothing is ready before its day. */
export const noHands = (words: string, at: Date, timeZone: string): PromisedWork => ({
  draws: new Float64Array(PROMISE_DRAWS),
  wait: { words, until: sayDay(civilDay(at, timeZone)) },
});
