import type { Zone } from '../../components/Silhouette.tsx';

const zoneWords: Record<Zone, string> = {
  nose: 'nose',
  cabin: 'cabin',
  engine_bay: 'engine',
  fuel: 'fuel',
  mast: 'mast and gearbox',
  main_rotor: 'main rotor',
  propeller: 'propeller',
  wing: 'wing',
  gear: 'gear',
  tail_boom: 'tail boom',
  tail_rotor: 'tail rotor',
  tail: 'tail',
};

/** Chapters of the JASC code table (FAA, 2008), and where they are on the side view. */
const zonesByChapter: readonly [from: number, to: number, zone: Zone][] = [
  [22, 23, 'nose'],
  [24, 24, 'engine_bay'],
  [28, 28, 'fuel'],
  [31, 31, 'nose'],
  [32, 32, 'gear'],
  [34, 34, 'nose'],
  [37, 37, 'engine_bay'],
  [54, 54, 'engine_bay'],
  [55, 55, 'tail'],
  [57, 57, 'wing'],
  [61, 61, 'propeller'],
  [62, 62, 'main_rotor'],
  [63, 63, 'mast'],
  [64, 64, 'tail_rotor'],
  [65, 65, 'tail_boom'],
  [66, 67, 'mast'],
  [71, 85, 'engine_bay'],
];

/**
 * Where on the side view the work of a JASC code is; what belongs nowhere else is in the cabin.
 *
 * @param jasc four digits
 * @example zoneOfJasc('7810') // → 'engine_bay'
 */
export function zoneOfJasc(jasc: string): Zone {
  const chapter = Number(jasc.slice(0, 2));
  return zonesByChapter.find(([from, to]) => chapter >= from && chapter <= to)?.[2] ?? 'cabin';
}

/** A zone as the trade calls it; one that is not of the side view as it was written. */
export function wordsOfZone(zone: string): string {
  return zone in zoneWords ? zoneWords[zone as Zone] : zone;
}

/** A zone of the side view, from whatever text a finding carries. */
export function zoneFrom(text: string): Zone {
  return text in zoneWords ? (text as Zone) : 'cabin';
}

export interface Place<Item> {
  /** Its balloon. */
  number: number;
  zone: Zone;
  items: readonly Item[];
}

/**
 * Items by their place on the aircraft, numbered in the order in which the places first come.
 *
 * @example placesOf([{ jasc: '7810' }, { jasc: '6200' }, { jasc: '7200' }], ({ jasc }) => jasc)
 *   .map(({ number, zone, items }) => [number, zone, items.length]) // → [[1, 'engine_bay', 2], [2, 'main_rotor', 1]]
 */
export function placesOf<Item>(
  items: readonly Item[],
  jascOf: (item: Item) => string | null,
): Place<Item>[] {
  const byZone = new Map<Zone, Item[]>();
  for (const item of items) {
    const jasc = jascOf(item);
    if (jasc === null) continue;
    const zone = zoneOfJasc(jasc);
    byZone.set(zone, [...(byZone.get(zone) ?? []), item]);
  }
  return [...byZone].map(([zone, of], index) => ({ number: index + 1, zone, items: of }));
}
