import {
  commonScale,
  differenceText,
  type Fineness,
  percent,
  type Quantity,
  quantityText,
  type Scale,
  type Unit,
} from '../lib/figures/quantity.ts';
import styles from './ChainDimension.module.css';
import { End } from './marks.tsx';

/** One link: what is applied, and the value that stands after it. */
export interface ChainStep {
  words: string;
  /** What it does, as written: `×1.12`, `+310.00`. The first link usually has none. */
  operation?: string;
  value: Quantity;
  note?: string;
}

/**
 * How one figure becomes another, link by link, each starting where the last one ended, and the
 * whole beneath. The last link's value is the total: a chain cannot fail to close.
 */
export function ChainDimension({
  steps,
  unit,
  total = 'together',
  fineness = 'estimate',
  scale = commonScale(steps.map((step) => step.value)),
}: {
  steps: readonly ChainStep[];
  unit: Unit;
  /** The word at the total. */
  total?: string;
  fineness?: Fineness;
  scale?: Scale;
}) {
  const last = steps.at(-1);
  if (last === undefined) return null;
  const zero = unit === 'h' ? 0 : 0n;
  return (
    <ol className={styles.chain}>
      {steps.map((step, index) => (
        <li className={styles.row} key={`${index}-${step.words}`}>
          <span className={styles.words}>
            {step.words}{' '}
            {step.operation === undefined ? null : (
              <span className={styles.operation}>{step.operation}</span>
            )}
            {step.note === undefined ? null : <small className={styles.note}>{step.note}</small>}
          </span>
          <Link from={steps[index - 1]?.value ?? zero} to={step.value} scale={scale} />
          <span className={styles.figure}>{quantityText(step.value, unit, fineness)}</span>
        </li>
      ))}
      <li className={`${styles.row} ${styles.total}`}>
        <span className={styles.words}>{total}</span>
        <Link from={zero} to={last.value} scale={scale} />
        <span className={styles.figure}>
          {quantityText(last.value, unit, fineness)} {unit}
        </span>
      </li>
    </ol>
  );
}

function Link({ from, to, scale }: { from: Quantity; to: Quantity; scale: Scale }) {
  const start = `${percent(from, scale)}%`;
  const end = `${percent(to, scale)}%`;
  return (
    <span className={styles.drawing}>
      <svg aria-hidden="true">
        <line
          className={styles.relation}
          x1={start}
          x2={start}
          y1="0"
          y2="100%"
          strokeDasharray="2 3"
        />
        <line
          className={styles.relation}
          x1={end}
          x2={end}
          y1="50%"
          y2="100%"
          strokeDasharray="2 3"
        />
        <line x1={start} x2={end} y1="50%" y2="50%" stroke="currentColor" />
        <End x={start} y="50%" down={8} />
        <End x={end} y="50%" down={8} />
      </svg>
    </span>
  );
}

/**
 * Links that add: from a start, each change to the next value, exact for money.
 *
 * @example addingSteps('quoted', 100000n, [{ words: 'finding 1', change: 31000n }], 'USD')
 * // → [{ words: 'quoted', value: 100000n }, { words: 'finding 1', operation: '+310.00', value: 131000n }]
 */
export function addingSteps(
  words: string,
  start: bigint,
  changes: readonly { words: string; change: bigint; note?: string }[],
  currency: string,
): ChainStep[] {
  const steps: ChainStep[] = [{ words, value: start }];
  let value = start;
  for (const { change, ...rest } of changes) {
    const next = value + change;
    steps.push({ ...rest, operation: differenceText(value, next, currency, 'exact'), value: next });
    value = next;
  }
  return steps;
}
