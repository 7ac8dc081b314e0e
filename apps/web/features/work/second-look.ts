import type { ItemOnSheet } from './item-documents.ts';
import { counts, type Pending, shopTimeOf } from './pending.ts';

type Look = Extract<Pending, { kind: 'change'; does: 'secondLook' }>;

/** Where the second look of a critical item stands for one person, in words. */
export type SecondLookNow =
  /** Theirs, kept on this device, and not with the shop yet; by the shop's clock. */
  | { stands: 'noted'; at: string }
  /** Theirs came to the shop and did not count. `wanted`: it still wants another person's. */
  | { stands: 'refused'; entry: Look; wanted: boolean }
  /** It waits for the first initials, or for somebody else's eyes. */
  | { stands: 'closed'; words: string }
  /** Theirs may be it; `firstId`: of the first initial that it is given after. */
  | { stands: 'open'; words: string; firstId: string };

const isLookAt =
  (itemId: string) =>
  (entry: Pending): entry is Look =>
    entry.kind === 'change' && entry.does === 'secondLook' && entry.input.itemId === itemId;

/**
 * What happened since the item was last done, as far as the second look of a critical item goes.
 *
 * @param item as the shop said it last
 * @param mine what this person has noted on this device, in order
 */
export function secondLookOf(
  { id, critical, state, events, stretches }: ItemOnSheet,
  personId: string,
  mine: readonly Pending[],
): SecondLookNow | null {
  const said = mine.findLast(isLookAt(id));
  if (said !== undefined && counts(said))
    return { stands: 'noted', at: new Date(shopTimeOf(said)).toISOString() };
  if (said?.refused !== undefined)
    return { stands: 'refused', entry: said, wanted: critical && state === 'done' };
  if (!critical || state !== 'done') return null;
  const done = events.findLastIndex(({ kind }) => kind === 'done');
  const since = events.slice(Math.max(0, done));
  const first = since.find(({ kind }) => kind === 'initialled');
  if (first === undefined)
    return {
      stands: 'closed',
      words: 'Critical: after the first initials it wants a second pair of eyes.',
    };
  const worked =
    stretches.some(({ person }) => person.id === personId) ||
    since[0]?.by.id === personId ||
    // Not sent yet, and true all the same.
    mine.some((entry) => counts(entry) && entry.kind === 'clock' && entry.input.itemId === id);
  if (worked || first.by.id === personId)
    return {
      stands: 'closed',
      words: `Critical: it wants a second pair of eyes, and not yours: you ${worked ? 'worked on it' : 'gave the first initials'}.`,
    };
  return {
    stands: 'open',
    words: `Critical: ${first.by.name} gave the first initials. It wants a second, independent look: yours may be it.`,
    firstId: first.id,
  };
}
