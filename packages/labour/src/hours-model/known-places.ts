import type { AccessConditions } from '../access-conditions.ts';
import type { PlannedItem } from './coding.ts';

type Placed = Pick<PlannedItem, 'task' | 'model' | 'place'>;

const keyOf = ({ task, model }: Placed): string => JSON.stringify([task, model ?? null]);

/** What is recorded of two descriptions of one place, the second one's word first. */
const merged = (
  older: AccessConditions | undefined,
  newer: AccessConditions | undefined,
): AccessConditions => ({
  ...older,
  ...Object.fromEntries(Object.entries(newer ?? {}).filter(([, value]) => value !== undefined)),
});

/** Where each task was on each model when it was last written down, condition by condition. */
export function placesOf(items: readonly Placed[]): Map<string, AccessConditions> {
  const places = new Map<string, AccessConditions>();
  for (const item of items) {
    if (item.place === undefined) continue;
    places.set(keyOf(item), merged(places.get(keyOf(item)), item.place));
  }
  return places;
}

/** An item's place; what is blank in it as it was last written down for the task on that model. */
export function filledPlace(
  item: Placed,
  places: { get(key: string): AccessConditions | undefined },
): AccessConditions | undefined {
  const known = places.get(keyOf(item));
  return known === undefined ? item.place : merged(known, item.place);
}
