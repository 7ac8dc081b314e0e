import styles from './Photos.module.css';

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
}

/**
 * Small pictures; touching one, or Enter on it, opens it large where it stands, with its words. Works without script.
 *
 * `of`: what they are photographs of, for those without words of their own. `firstOpen`: the first is large already.
 */
export function Photos({
  of,
  photos,
  firstOpen = false,
}: {
  of: string;
  photos: readonly ShownPhoto[];
  firstOpen?: boolean;
}) {
  if (photos.length === 0) return null;
  return (
    <ul className={styles.photos}>
      {photos.map((photo, index) => {
        const { id, width, height, thumb, middle, large, whole } = photo;
        const wide = (longest: number) => widthOf(photo, longest);
        const place = photos.length === 1 ? '' : ` ${index + 1} of ${photos.length}`;
        const words = photo.words === '' ? `Photograph${place}: ${of}` : photo.words;
        return (
          <li key={id}>
            <details open={firstOpen && index === 0}>
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
                <img
                  src={middle}
                  srcSet={`${middle} ${wide(800)}w, ${large} ${wide(1600)}w`}
                  sizes={`min(100vw, ${width}px)`}
                  width={width}
                  height={height}
                  loading="lazy"
                  alt={words}
                />
                <figcaption>
                  {words}{' '}
                  <a href={whole}>
                    Whole, {width} × {height} pixels
                  </a>
                </figcaption>
              </figure>
            </details>
          </li>
        );
      })}
    </ul>
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
}): ShownPhoto => ({ ...photo, thumb: thumbUrl, middle: middleUrl, large: largeUrl, whole: url });
