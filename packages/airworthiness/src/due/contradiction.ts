import { writeDay } from './civil-days.ts';
import { counters, type DueItem } from './due-item.ts';

/**
 * What is repeated up to a limit cannot have been done past it, nor a part fitted new after its last day.
 *
 * @param path where the item stands in its request
 * @throws RangeError with both figures
 */
export function refuseContradiction({ rule, last, limit }: DueItem, path: string): void {
  if (!last || !limit || rule === 'once') return;
  const past = (field: string, given: string, end: string, needed: string) => {
    throw new RangeError(
      `${path}.limit and ${path}.last contradict each other: last.${field} is ${given}, past the limit of ${end}; ${needed}.`,
    );
  };
  const needed =
    rule === 'life_limit'
      ? 'last is when the part was fitted new, and has to lie before its limit'
      : 'a limit ends the repeat. Leave it out if it was only for the first time';
  if (last.date !== undefined && limit.date !== undefined && last.date > limit.date)
    past('date', writeDay(last.date), writeDay(limit.date), needed);
  // A life in hours or counts runs on from where the part was fitted.
  if (rule === 'life_limit') return;
  if (last.tis !== undefined && limit.hours !== undefined && last.tis > limit.hours)
    past('tis', `${last.tis / 100} h`, `${limit.hours / 100} h`, needed);
  for (const counter of counters) {
    const [done, end] = [last[counter], limit[counter]];
    if (done !== undefined && end !== undefined && done > end)
      past(counter, `${done}`, `${end}`, needed);
  }
}
