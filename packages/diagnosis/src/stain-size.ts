import type { Sighting } from './sighting.ts';

/** Classes of a fuel leak by the area that its fuel wets in 30 minutes. */
export type StainClass = 'stain' | 'seep' | 'heavy_seep' | 'running_leak';

export interface StainSize {
  readonly class: StainClass;
  readonly name: string;
  readonly meaning: string;
}

/** The four classes, as the question "How much?" has its answers. */
export const stainSizes: Readonly<Record<StainClass, StainSize>> = {
  stain: {
    class: 'stain',
    name: 'Stain',
    meaning: 'Record it and watch it as the manual says; correct the cause of any fuel stain.',
  },
  seep: {
    class: 'seep',
    name: 'Seep',
    meaning: 'Record it and watch it as the manual says; correct the cause of any fuel stain.',
  },
  heavy_seep: {
    class: 'heavy_seep',
    name: 'Heavy seep',
    meaning: 'Record it and watch it as the manual says; correct the cause of any fuel stain.',
  },
  running_leak: {
    class: 'running_leak',
    name: 'Running leak',
    meaning: 'Repair it before flight.',
  },
};

/**
 * Size of a fuel leak: under ¾ inch across after 30 minutes a stain, to 1½ a seep, to 4 a heavy seep; what is larger,
 * drips or runs is a running leak (FAA-H-8083-31, as reproduced by others; "correct the cause of any fuel stains":
 * AC 43.13-1B 8-34 b). A value on a limit belongs to the larger class, which is the safer reading.
 *
 * @param inches across, 30 minutes after it was wiped dry; 0 or more
 * @param drips whether it drips or runs, whatever its size
 * @throws RangeError for a size that cannot be
 * @example stainSize(0.5, false).class // → 'stain'
 * @example stainSize(0.75, false).class // → 'seep'
 */
export function stainSize(inches: number, drips: boolean): StainSize {
  if (!Number.isFinite(inches) || inches < 0)
    throw new RangeError(`A stain is ${inches} inches across; needed is 0 or more.`);
  if (drips || inches > 4) return stainSizes.running_leak;
  if (inches < 0.75) return stainSizes.stain;
  return inches < 1.5 ? stainSizes.seep : stainSizes.heavy_seep;
}

/** What the size of a fuel leak asks for, whatever its cause; null where none was seen, or nobody said how much. */
export function leakSays({ symptom, seen }: Sighting): string | null {
  const size = seen['how_much'];
  if (symptom !== 'fluid' || !seen['fluid']?.startsWith('fuel_') || size === undefined) return null;
  const { name, meaning } = stainSizes[size as StainClass];
  return `${name} of fuel. ${meaning}`;
}
