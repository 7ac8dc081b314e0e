import { type Pending, type PendingClock, type PendingPhoto, waits } from './pending.ts';

/** As many clock events as go in one request; the shop takes 200. */
const MOST_AT_ONCE = 100;

const place = ({ seq }: Pending): number => seq ?? Number.MAX_SAFE_INTEGER;
/** In the order in which the device noted them; what has no place yet comes last. */
export const inOrder = (pending: readonly Pending[]): Pending[] =>
  [...pending].sort((one, other) => place(one) - place(other));

/**
 * What goes next of everything but photos: the first thing that waits, and where it is a clock event, all that follow it.
 *
 * @param pending in order
 */
export function nextToSend(pending: readonly Pending[], personId: string): Pending[] {
  const mine = pending.filter(
    (entry) => entry.personId === personId && entry.kind !== 'photo' && waits(entry),
  );
  const [first] = mine;
  if (first?.kind !== 'clock') return first ? [first] : [];
  const end = mine.findIndex(({ kind }) => kind !== 'clock');
  return mine.slice(0, Math.min(end < 0 ? mine.length : end, MOST_AT_ONCE));
}

/** The next photo: none before its finding is through, and those first whose preview has not gone yet. */
export function nextPhoto(pending: readonly Pending[], personId: string): Pending[] {
  const photos = pending.filter(
    (entry): entry is PendingPhoto =>
      entry.kind === 'photo' &&
      entry.personId === personId &&
      waits(entry) &&
      !pending.some(({ id, taken }) => id === entry.finding && taken === undefined),
  );
  const photo = photos.find(({ preview }) => preview === undefined) ?? photos[0];
  return photo ? [photo] : [];
}

/** What the store has, with what only this page knows of it; what the store no longer has was taken by another page. */
export function afterReading(
  here: readonly Pending[],
  found: readonly Pending[],
  unkept: ReadonlySet<string>,
): Pending[] {
  const known = new Map(here.map((entry) => [entry.id, entry]));
  const stored = new Set(found.map(({ id }) => id));
  const gone = here
    .filter(({ id }) => !stored.has(id))
    .map((entry): Pending => (unkept.has(entry.id) ? entry : { ...entry, taken: true }));
  const read = found.map((entry): Pending => {
    const mine = known.get(entry.id);
    const progress =
      mine?.kind === 'photo'
        ? {
            ...(mine.sent !== undefined && { sent: mine.sent }),
            ...(mine.preview !== undefined && { preview: mine.preview }),
          }
        : {};
    // A page of before kept them without a place.
    return { ...entry, seq: entry.seq ?? entry.madeAt, ...progress };
  });
  return inOrder([...read, ...gone]);
}

export const isClock = (entry: Pending): entry is PendingClock => entry.kind === 'clock';
