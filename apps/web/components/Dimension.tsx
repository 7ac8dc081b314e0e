import {
  commonScale,
  differenceText,
  percent,
  type Quantity,
  quantityText,
  type Scale,
  type Unit,
} from '../lib/figures/quantity.ts';
import { ChainDimension, type ChainStep } from './ChainDimension.tsx';
import styles from './Dimension.module.css';
import { At, End } from './marks.tsx';

/** What is known of hours or money before the work is done: hours as numbers, money as minor units. */
export interface Estimate {
  p10: Quantity;
  p50: Quantity;
  p80: Quantity;
  p90: Quantity;
}

/**
 * An estimate as a dimension: nominal with its tolerances, and the line that draws them. Its ends
 * are P10 and P90, the stroke is P50, the open triangle P80. A firm figure has no tolerance.
 *
 * Give rows of one column the same `scale` (see `commonScale`) so that their lines compare.
 */
export function Dimension({
  estimate,
  unit,
  scale = commonScale([estimate.p90]),
  reasons,
}: {
  estimate: Estimate;
  /** `'h'`, or the currency's ISO 4217 code. */
  unit: Unit;
  scale?: Scale;
  /** Opens on touch as a chain dimension from the standard to this estimate. */
  reasons?: readonly ChainStep[];
}) {
  const line = (
    <span className={styles.line} data-money={unit === 'h' ? undefined : ''}>
      <DimensionText estimate={estimate} unit={unit} opens={reasons !== undefined} />
      <DimensionLine estimate={estimate} scale={scale} />
    </span>
  );
  if (reasons === undefined) return <div className={styles.dimension}>{line}</div>;
  return (
    <div className={styles.dimension}>
      <details className={styles.reasons}>
        <summary>{line}</summary>
        <div className={styles.chain}>
          <ChainDimension steps={reasons} unit={unit} />
        </div>
      </details>
    </div>
  );
}

/** The figures alone: `3.2 h +1.4 −0.8`, with what they mean for readers by ear. */
export function DimensionText({
  estimate: { p10, p50, p80, p90 },
  unit,
  opens = false,
}: {
  estimate: Estimate;
  unit: Unit;
  opens?: boolean;
}) {
  const write = (value: Quantity) => quantityText(value, unit);
  const firm = p10 === p90;
  return (
    <span className={styles.text} data-money={unit === 'h' ? undefined : ''}>
      <span className={styles.nominal}>{write(p50)}</span>
      <span className={styles.unit}>{unit}</span>
      {firm ? (
        <span className={styles.firm}>firm</span>
      ) : (
        <>
          <span className={styles.tolerance}>
            <span>{differenceText(p50, p90, unit)} </span>
            <span>{differenceText(p50, p10, unit)}</span>
          </span>
          <span className="spoken">
            {`, as likely over as under; eight in ten come out under ${write(p80)}, nine in ten under ${write(p90)}, one in ten under ${write(p10)}`}
          </span>
        </>
      )}
      {opens ? (
        <span className={styles.why}>
          why<span className="spoken"> this figure</span>
        </span>
      ) : null}
    </span>
  );
}

/** The drawing alone, as wide as its place. */
export function DimensionLine({ estimate, scale }: { estimate: Estimate; scale: Scale }) {
  const at = (value: Quantity) => `${percent(value, scale)}%`;
  const { p10, p50, p80, p90 } = estimate;
  const firm = p10 === p90;
  return (
    <svg className={styles.drawing} aria-hidden="true">
      <path className={styles.base} d="M.5 13V27" />
      <line className={styles.base} x1="0" x2="100%" y1="20" y2="20" />
      <line x1={at(p10)} x2={at(p90)} y1="20" y2="20" stroke="currentColor" />
      {firm ? null : (
        <>
          <End x={at(p10)} y="20" />
          <End x={at(p90)} y="20" />
          <At x={at(p80)} y="20">
            <path
              d="M0-1.5-6-12H6Z"
              fill="var(--ground)"
              stroke="currentColor"
              strokeWidth="1.25"
            />
          </At>
        </>
      )}
      <At x={at(p50)} y="20">
        <path d="M0-11V11" stroke="currentColor" strokeWidth="2" />
      </At>
    </svg>
  );
}
