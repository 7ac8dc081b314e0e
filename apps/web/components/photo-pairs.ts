/** Two photos that show the same, before a correction and after it; by their ids. */
export interface PhotoPair {
  beforeId: string;
  afterId: string;
}

/**
 * Photos as they are shown: each that was taken again after the correction with what it then looked like, in their order;
 * the others alone.
 *
 * @example inPairs([{ id: 'a' }, { id: 'b' }, { id: 'c' }], [{ beforeId: 'a', afterId: 'c' }]) // → [{ photo: { id: 'a' }, afters: [{ id: 'c' }] }, { photo: { id: 'b' }, afters: [] }]
 */
export function inPairs<Photo extends { id: string }>(
  photos: readonly Photo[],
  pairs: readonly PhotoPair[],
): { photo: Photo; afters: Photo[] }[] {
  const befores = new Map(pairs.map(({ beforeId, afterId }) => [afterId, beforeId]));
  const here = new Set(photos.map(({ id }) => id));
  // One whose photo of before is not among these stands alone.
  const beforeOf = ({ id }: Photo) => {
    const before = befores.get(id);
    return before !== undefined && here.has(before) ? before : null;
  };
  return photos
    .filter((photo) => beforeOf(photo) === null)
    .map((photo) => ({ photo, afters: photos.filter((each) => beforeOf(each) === photo.id) }));
}
