import styles from './hours.module.css';
import type { Point } from './hours-document.ts';
import { logPercent, logScale, rulings } from './log-scale.ts';

const across = { x1: '0', x2: '100%' };
const down = { y1: '0', y2: '100%' };

/** With more items than this their dimensions would cover each other: marks alone are drawn. */
const MOST_SPANS = 80;

/**
 * Quoted hours against clocked ones on log paper. Each item stands on its quoted P50: the dimension
 * from P10 to P90 upright, and where the clock came out as a dot on it or a cross off it. On the
 * diagonal the two agree.
 */
export function LogPaper({
  points,
  of,
}: {
  /** The newest. */
  points: readonly Point[];
  /** How many there are in all. */
  of: number;
}) {
  const items = points.map((point, index) => ({
    ...point,
    key: index,
    within: point.p10 <= point.actual && point.actual <= point.p90,
  }));
  const spans = items.length <= MOST_SPANS;
  const scale = logScale(items.flatMap(({ p10, p90, actual }) => [p10, p90, actual]));
  const at = (hours: number) => `${logPercent(hours, scale)}%`;
  const up = (hours: number) => `${100 - logPercent(hours, scale)}%`;
  const lines = rulings(scale);
  const decades = lines.filter(({ strong }) => strong);
  // Many decades leave room for every second figure.
  const named = decades.filter(
    (_, index) => decades.length <= 5 || (decades.length - 1 - index) % 2 === 0,
  );
  const within = items.filter((item) => item.within).length;
  return (
    <figure className={styles.paper}>
      <div className={styles.sides}>
        <p className={styles.upright}>clocked, h</p>
        <div className={styles.scaleUp} aria-hidden="true">
          {named.map(({ value }) => (
            <span key={value} style={{ top: up(value) }}>
              {value}
            </span>
          ))}
        </div>
        <svg
          className={styles.plot}
          role="img"
          aria-label={`Quoted hours against clocked hours of the newest ${items.length} of ${of} finished items: ${within} lie between P10 and P90. The list of items below has each.`}
        >
          {lines.map(({ value, strong }) => (
            <g key={value} className={strong ? styles.decade : styles.ruling}>
              <line x1={at(value)} x2={at(value)} {...down} />
              <line y1={up(value)} y2={up(value)} {...across} />
            </g>
          ))}
          <line className={styles.diagonal} x1="0" y1="100%" x2="100%" y2="0" />
          {items.map(({ key, p10, p50, p90, actual, within: inside }) => (
            <g key={key}>
              {spans ? <Span x={at(p50)} from={up(p10)} to={up(p90)} /> : null}
              <svg x={at(p50)} y={up(actual)} overflow="visible" aria-hidden="true">
                {inside ? (
                  <circle className={styles.inside} r="4" />
                ) : (
                  <path className={styles.outside} d="M-5-5 5 5M-5 5 5-5" />
                )}
              </svg>
            </g>
          ))}
        </svg>
        <div className={styles.scaleAcross} aria-hidden="true">
          {named.map(({ value }) => (
            <span key={value} style={{ left: at(value) }}>
              {value}
            </span>
          ))}
        </div>
        <p className={styles.level}>quoted P50, h</p>
      </div>
      <figcaption className={styles.key}>
        <span>
          <svg width="16" height="16" viewBox="-8 -8 16 16" aria-hidden="true">
            <circle className={styles.inside} r="4" />
          </svg>
          clocked between P10 and P90
        </span>
        <span>
          <svg width="16" height="16" viewBox="-8 -8 16 16" aria-hidden="true">
            <path className={styles.outside} d="M-5-5 5 5M-5 5 5-5" />
          </svg>
          clocked outside of it
        </span>
        {spans ? (
          <span>
            <svg width="16" height="16" viewBox="-8 -8 16 16" aria-hidden="true">
              <path className={styles.tick} d="M-4-7H4M0-7V7M-4 7H4" />
            </svg>
            quoted, P10 to P90
          </span>
        ) : null}
        <span>
          <svg width="16" height="16" viewBox="-8 -8 16 16" aria-hidden="true">
            <path className={styles.diagonal} d="M-7 7 7-7" />
          </svg>
          as quoted
        </span>
        {items.length < of ? (
          <span>
            the newest {items.length} of {of}
          </span>
        ) : null}
      </figcaption>
    </figure>
  );
}

/** The dimension that was quoted, upright. */
function Span({ x, from, to }: { x: string; from: string; to: string }) {
  return (
    <>
      <line className={styles.span} x1={x} x2={x} y1={from} y2={to} />
      {[from, to].map((end) => (
        <svg key={end} x={x} y={end} overflow="visible" aria-hidden="true">
          <path className={styles.tick} d="M-4 0H4" />
        </svg>
      ))}
    </>
  );
}
