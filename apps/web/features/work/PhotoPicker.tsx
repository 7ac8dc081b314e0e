'use client';

import { useEffect, useState } from 'react';
import styles from './bench.module.css';

export const MOST_PHOTOS = 12;

/** Opens the camera; what was taken is shown and can be taken back. */
export function PhotoPicker({
  photos,
  onPhotos,
}: {
  photos: readonly File[];
  onPhotos: (photos: File[]) => void;
}) {
  const room = MOST_PHOTOS - photos.length;
  return (
    <div className={styles.form}>
      {photos.length === 0 ? null : (
        <ul className={styles.photos}>
          {photos.map((photo, index) => (
            <li key={`${photo.name}-${photo.lastModified}-${photo.size}`}>
              <Preview photo={photo} words={`Photo ${index + 1}`} />
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
      {room === 0 ? (
        <p>{MOST_PHOTOS} photos: that is all that one finding holds.</p>
      ) : (
        <label className={styles.camera}>
          {photos.length === 0 ? 'Take a photo' : 'Another photo'}
          <input
            type="file"
            accept="image/jpeg,image/png,image/webp"
            capture="environment"
            multiple
            onChange={(event) => {
              const taken = [...(event.currentTarget.files ?? [])];
              event.currentTarget.value = '';
              onPhotos([...photos, ...taken].slice(0, MOST_PHOTOS));
            }}
          />
        </label>
      )}
    </div>
  );
}

function Preview({ photo, words }: { photo: File; words: string }) {
  const [address, setAddress] = useState<string>();
  useEffect(() => {
    const made = URL.createObjectURL(photo);
    setAddress(made);
    return () => URL.revokeObjectURL(made);
  }, [photo]);
  return address === undefined ? null : <img src={address} alt={words} />;
}
