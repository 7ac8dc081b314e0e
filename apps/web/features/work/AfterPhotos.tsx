'use client';

import { useState } from 'react';
import { photoOfShop, type ShownPhoto } from '../../components/Photos.tsx';
import styles from './bench.module.css';
import type { ItemOnSheet } from './item-documents.ts';
import { PhotoPreview } from './PhotoPreview.tsx';
import { MOST_BYTES, tooLargeWords } from './photo-words.ts';

/** What was taken of the same place after the correction, by the id of the photo of before. */
export type Afters = Readonly<Record<string, File>>;

/** The photos of a finding that were not taken again since its correction. */
export function toTakeAgain(finding: NonNullable<ItemOnSheet['finding']>): ShownPhoto[] {
  const taken = new Set(finding.photoPairs.flatMap(({ beforeId, afterId }) => [beforeId, afterId]));
  return finding.photos.filter(({ id }) => !taken.has(id)).map(photoOfShop);
}

/** Beside each photo of the finding the camera for the same view now: owner and record then see both. */
export function AfterPhotos({
  befores,
  afters,
  onAfters,
}: {
  befores: readonly ShownPhoto[];
  afters: Afters;
  onAfters: (afters: Afters) => void;
}) {
  const [wrong, setWrong] = useState<string>();
  if (befores.length === 0) return null;
  const take = (before: string, photo: File | undefined) => {
    if (photo === undefined) return;
    const fits = photo.size <= MOST_BYTES;
    setWrong(fits ? undefined : tooLargeWords(photo));
    if (fits) onAfters({ ...afters, [before]: photo });
  };
  return (
    <fieldset className={styles.afters}>
      <legend>The same view, now that it is corrected</legend>
      {wrong === undefined ? null : (
        <p role="alert" className={styles.beyond}>
          {wrong}
        </p>
      )}
      <ul>
        {befores.map(({ id, thumb, words, width, height }, index) => {
          const name = words === '' ? `photo ${index + 1}` : words;
          const after = afters[id];
          return (
            <li key={id}>
              <figure>
                <img src={thumb} width={width} height={height} alt={`Before: ${name}`} />
                <figcaption className={styles.second}>Before</figcaption>
              </figure>
              <label className={styles.camera} data-taken={after === undefined ? undefined : ''}>
                {after === undefined ? (
                  <>
                    Take it after<span className="spoken">: {name}</span>
                  </>
                ) : (
                  <PhotoPreview photo={after} words={`After: ${name}`} />
                )}
                <input
                  type="file"
                  accept="image/jpeg,image/png,image/webp,image/heic,image/heif"
                  capture="environment"
                  onChange={(event) => {
                    const [photo] = event.currentTarget.files ?? [];
                    event.currentTarget.value = '';
                    take(id, photo);
                  }}
                />
              </label>
            </li>
          );
        })}
      </ul>
    </fieldset>
  );
}
