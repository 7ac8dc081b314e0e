/** Two photos of a finding that show the same, before the correction and after it; by their keys. */
export interface PhotoPair {
  beforeId: string;
  afterId: string;
}

/**
 * The pairs among the photos of a finding.
 *
 * @param photos in their order
 * @example photoPairs([{ photoId: 'a', beforeId: null }, { photoId: 'b', beforeId: 'a' }]) // → [{ beforeId: 'a', afterId: 'b' }]
 */
export const photoPairs = (
  photos: readonly { photoId: string; beforeId: string | null }[],
): PhotoPair[] =>
  photos.flatMap(({ photoId, beforeId }) =>
    beforeId === null ? [] : [{ beforeId, afterId: photoId }],
  );
