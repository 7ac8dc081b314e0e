'use client';

import { useState } from 'react';
import styles from './bench.module.css';
import { PhotoPreview } from './PhotoPreview.tsx';
import { MOST_BYTES, sizeWords, tooLargeWords } from './photo-words.ts';

export const MOST_PHOTOS = 12;

/** Opens the camera; what was taken is shown and can be taken back. */
export function PhotoPicker({
  photos,
  onPhotos,
}: {
  photos: readonly File[];
  onPhotos: (photos: File[]) => void;
}) {
  const [wrong, setWrong] = useState<string[]>([]);
  const room = MOST_PHOTOS - photos.length;
  return (
    <div className={styles.form}>
      {photos.length === 0 ? null : (
        <ul className={styles.photos}>
          {photos.map((photo, index) => (
            <li key={`${photo.name}-${photo.lastModified}-${photo.size}`}>
              <PhotoPreview photo={photo} words={`Photo ${index + 1}`} />
              <p className={styles.second}>{sizeWords(photo.size)}</p>
              <button
                type="button"
                onClick={() => onPhotos(photos.filter((each) => each !== photo))}
              >
                Take away<span className="spoken"> photo {index + 1}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {wrong.map((sentence) => (
        <p key={sentence} role="alert" className={styles.beyond}>
          {sentence}
        </p>
      ))}
      {photos.length === 0 ? null : (
        <p className={styles.second}>
          {photos.length === 1 ? 'It is' : 'They are'} sent when the finding is noted, and{' '}
          {photos.length === 1 ? 'joins' : 'join'} it when the signal allows.
        </p>
      )}
      {room === 0 ? (
        <p>{MOST_PHOTOS} photos: that is all that one finding holds.</p>
      ) : (
        <label className={styles.camera}>
          {photos.length === 0 ? 'Take a photo' : 'Another photo'}
          <input
            type="file"
            accept="image/jpeg,image/png,image/webp,image/heic,image/heif"
            capture="environment"
            multiple
            onChange={(event) => {
              const taken = [...(event.currentTarget.files ?? [])];
              event.currentTarget.value = '';
              const fits = taken.filter(({ size }) => size <= MOST_BYTES);
              setWrong(taken.filter((photo) => !fits.includes(photo)).map(tooLargeWords));
              onPhotos([...photos, ...fits].slice(0, MOST_PHOTOS));
            }}
          />
        </label>
      )}
    </div>
  );
}
