import styles from './Balloon.module.css';

/**
 * A number in a circle: the same number stands on the drawing and in the list beside it.
 * With `href` it leads from one to the other.
 */
export function Balloon({
  number,
  href,
  label,
}: {
  number: number;
  href?: string;
  label?: string;
}) {
  if (href === undefined) return <span className={styles.balloon}>{number}</span>;
  return (
    <a
      className={styles.balloon}
      href={href}
      aria-label={label === undefined ? undefined : `${number}, ${label}`}
    >
      {number}
    </a>
  );
}
