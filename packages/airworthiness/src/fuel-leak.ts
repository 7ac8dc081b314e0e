/** How bad a fuel leak is, by the stain that it leaves in half an hour. */
export type FuelLeak = 'stain' | 'seep' | 'heavy_seep' | 'running_leak';

/**
 * What a fuel leak is called, by the width of what has collected in 30 minutes.
 *
 * Source: FAA-H-8083-31, as quoted by others: under ¾ inch a stain, to 1½ a seep, to 4 a heavy seep; what
 * drips or runs is a running leak, and no flight is made with one. A stain wider than 4 inches has no name
 * there; it is taken as a running leak here. The maker's own limits govern where there are any, and the
 * cause of every fuel stain is corrected (AC 43.13-1B).
 *
 * @param inches across, above 0.
 * @throws RangeError unless it is a number above 0.
 * @example fuelLeak(1.2) // → 'seep'
 */
export function fuelLeak(inches: number): FuelLeak {
  if (!Number.isFinite(inches) || inches <= 0)
    throw new RangeError(`Cannot name a stain ${inches} inches across: give a width above 0`);
  if (inches < 0.75) return 'stain';
  if (inches <= 1.5) return 'seep';
  return inches <= 4 ? 'heavy_seep' : 'running_leak';
}
