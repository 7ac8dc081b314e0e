import { At } from '../../../components/marks.tsx';
import { type LogScale, logPercent, rulings } from '../log-scale.ts';
import styles from './odd.module.css';

/** What was expected as a dimension on log paper, and where the clock came out as a cross. */
export function OddDrawing({
  expected: { p10, p50, p90 },
  hours,
  scale,
}: {
  expected: { p10: number; p50: number; p90: number };
  hours: number;
  /** One for all times of the sheet. */
  scale: LogScale;
}) {
  const at = (value: number) => `${logPercent(value, scale)}%`;
  return (
    <svg className={styles.drawing} aria-hidden="true">
      {rulings(scale).map(({ value, strong }) => (
        <line
          key={value}
          className={strong ? styles.decade : styles.ruling}
          x1={at(value)}
          x2={at(value)}
          y1="0"
          y2="30"
        />
      ))}
      {rulings(scale)
        .filter(({ strong }) => strong)
        .map(({ value }) => (
          <text
            key={value}
            x={at(value)}
            y="46"
            textAnchor={
              value === 10 ** scale.from ? 'start' : value === 10 ** scale.to ? 'end' : 'middle'
            }
          >
            {value} h
          </text>
        ))}
      <line className={styles.gap} x1={at(p50)} x2={at(hours)} y1="15" y2="15" />
      <line className={styles.range} x1={at(p10)} x2={at(p90)} y1="15" y2="15" />
      {[p10, p90].map((end) => (
        <At key={end} x={at(end)} y="15">
          <path className={styles.range} d="M0-6V6" />
        </At>
      ))}
      <At x={at(p50)} y="15">
        <path className={styles.middle} d="M0-10V10" />
      </At>
      <At x={at(hours)} y="15">
        <path className={styles.cross} d="M-6-6 6 6M-6 6 6-6" />
      </At>
    </svg>
  );
}
