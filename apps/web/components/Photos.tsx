import { type Mark, markWords, PhotoMarks } from './PhotoMarks.tsx';
import styles from './Photos.module.css';
import { inPairs, type PhotoPair } from './photo-pairs.ts';

/** A photo that the shop has, and where its sizes are. */
export interface ShownPhoto {
  id: string;
  /** What it shows, for those who cannot see it; may be empty. */
  words: string;
  /** Pixels of the whole one. */
  width: number;
  height: number;
  thumb: string;
  middle: string;
  large: string;
  whole: string;
  /** What was marked over it. */
  marks?: readonly Mark[];
}

/**
 * Small pictures; touching one, or Enter on it, opens it large where it stands, with its words. Works without script.
 *
 * `of`: what they are photographs of, for those without words of their own. `firstOpen`: the first is large already.
 * `pairs`: which show the same before and after a correction: they stand side by side.
 */
export function Photos({
  of,
  photos,
  pairs = [],
  firstOpen = false,
}: {
  of: string;
  photos: readonly ShownPhoto[];
  pairs?: readonly PhotoPair[];
  firstOpen?: boolean;
}) {
  if (photos.length === 0) return null;
  const place = (photo: ShownPhoto) =>
    photos.length === 1 ? '' : ` ${photos.indexOf(photo) + 1} of ${photos.length}`;
  const wordsOf = (photo: ShownPhoto, when = '') =>
    `${photo.words === '' ? `Photograph${place(photo)}: ${of}` : photo.words}${when}`;
  return (
    <ul className={styles.photos}>
      {inPairs(photos, pairs).map(({ photo, afters }, index) =>
        afters.length === 0 ? (
          <li key={photo.id}>
            <OnePhoto photo={photo} words={wordsOf(photo)} open={firstOpen && index === 0} />
          </li>
        ) : (
          <li key={photo.id} className={styles.pair}>
            <div>
              <p className={styles.when}>Before</p>
              <OnePhoto photo={photo} words={wordsOf(photo, ', before')} open={false} />
            </div>
            {afters.map((after) => (
              <div key={after.id}>
                <p className={styles.when}>After</p>
                <OnePhoto photo={after} words={wordsOf(after, ', after')} open={false} />
              </div>
            ))}
          </li>
        ),
      )}
    </ul>
  );
}

function OnePhoto({ photo, words, open }: { photo: ShownPhoto; words: string; open: boolean }) {
  const { width, height, thumb, middle, large, whole, marks = [] } = photo;
  const wide = (longest: number) => widthOf(photo, longest);
  return (
    <details open={open}>
      <summary>
        <img
          src={thumb}
          srcSet={`${thumb} ${wide(320)}w, ${middle} ${wide(800)}w`}
          sizes="240px"
          width={width}
          height={height}
          loading="lazy"
          alt={words}
        />
        <span className={styles.smaller}>
          Smaller<span className="spoken">: {words}</span>
        </span>
      </summary>
      <figure>
        <div className={styles.marked}>
          <img
            src={middle}
            srcSet={`${middle} ${wide(800)}w, ${large} ${wide(1600)}w`}
            sizes={`min(100vw, ${width}px)`}
            width={width}
            height={height}
            loading="lazy"
            alt={words}
          />
          <PhotoMarks marks={marks} width={width} height={height} />
        </div>
        <figcaption>
          {words}
          {markWords(marks)}{' '}
          <a href={whole}>
            Whole, {width} × {height} pixels
          </a>
        </figcaption>
      </figure>
    </details>
  );
}

/** How wide a size is whose longer side has at most so many pixels; small pictures are not blown up. */
const widthOf = ({ width, height }: Pick<ShownPhoto, 'width' | 'height'>, longest: number) =>
  Math.max(1, Math.round(width * Math.min(1, longest / Math.max(width, height, 1))));

/** The addresses of a photo as the shop's own people are given them. */
export const photoOfShop = ({
  url,
  largeUrl,
  middleUrl,
  thumbUrl,
  ...photo
}: Pick<ShownPhoto, 'id' | 'words' | 'width' | 'height'> & {
  url: string;
  largeUrl: string;
  middleUrl: string;
  thumbUrl: string;
  marks?: readonly Mark[];
}): ShownPhoto => ({ ...photo, thumb: thumbUrl, middle: middleUrl, large: largeUrl, whole: url });
