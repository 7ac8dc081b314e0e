'use client';

import { markWords } from '../../components/PhotoMarks.tsx';
import styles from './bench.module.css';
import { MarkWaiting } from './MarkWaiting.tsx';
import { PhotoPreview } from './PhotoPreview.tsx';
import { type PendingPhoto, waits } from './pending.ts';
import { sentWords } from './photo-words.ts';
import { useOutbox } from './use-bench.ts';

/** Photos that this device still holds for the shop, seen from its own files, with how far each is. */
export function PhotosOnTheWay({ personId }: { personId: string }) {
  const { pending, failing, trouble } = useOutbox();
  const photos = pending.filter(
    (entry): entry is PendingPhoto =>
      entry.kind === 'photo' && entry.personId === personId && waits(entry),
  );
  if (photos.length === 0) return null;
  return (
    <section className={styles.form} aria-labelledby="on-the-way">
      <h2 id="on-the-way">{photos.length === 1 ? 'Photo' : 'Photos'} on the way</h2>
      <ul className={styles.way}>
        {photos.map((entry) => {
          const { id, words, photo, sent, preview, marked } = entry;
          return (
            <li key={id}>
              <PhotoPreview photo={photo} words={words} />
              <div>
                <p>{words}</p>
                <p className={styles.second}>
                  {sentWords(sent, photo.size)}
                  {preview === 'sent' ? '; seen small already' : ''}
                  {failing ? '; waits for signal' : ''}
                </p>
                {marked === undefined ? null : (
                  <p className={styles.second}>
                    {marked.marks.length === 1 ? 'A mark goes' : `${marked.marks.length} marks go`}{' '}
                    with it
                    {markWords(marked.marks)}
                  </p>
                )}
                <Share of={(sent ?? 0) / Math.max(photo.size, 1)} />
              </div>
              {preview === 'sent' ? null : (
                <div className={styles.whole}>
                  <MarkWaiting entry={entry} />
                </div>
              )}
            </li>
          );
        })}
      </ul>
      {failing && trouble !== null ? <p className={styles.beyond}>{trouble}</p> : null}
    </section>
  );
}

/** As much of the line as the shop has of the photo. */
function Share({ of }: { of: number }) {
  return (
    <svg
      className={styles.share}
      viewBox="0 0 100 12"
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      <path className={styles.relation} d="M0 6H100" />
      {of > 0 ? <path className={styles.spent} d={`M0 6H${Math.round(of * 100)}`} /> : null}
    </svg>
  );
}
