import { More } from '../../../components/More.tsx';
import styles from './honest.module.css';
import type { Backtest } from './honest-document.ts';

/**
 * Where the clock came out in its own forecast, in tenths (the probability-integral histogram). Honest forecasts fill all
 * tenths alike; between the dashed lines a tenth may lie by chance.
 */
export function Tenths({ score }: { score: Backtest['score'] }) {
  const { tenths, tenthsLow, tenthsHigh, items } = score;
  const most = Math.max(tenthsHigh, ...tenths) * 1.08;
  const up = (count: number) => `${100 - (count / most) * 100}%`;
  return (
    <figure className={styles.tenths}>
      <figcaption className={styles.title}>Where the clock came out in its own forecast</figcaption>
      <svg
        className={styles.plot}
        role="img"
        aria-label={`Of ${items} jobs, from the shortest tenth of their forecast to the longest: ${tenths.join(', ')}. Even would be ${(items / 10).toFixed(1)} each; chance leaves it anywhere from ${tenthsLow.toFixed(1)} to ${tenthsHigh.toFixed(1)}.`}
      >
        {tenths.map((count, index) => (
          <rect
            key={index}
            className={styles.bar}
            x={`${index * 10 + 0.8}%`}
            width="8.4%"
            y={up(count)}
            height={`${(count / most) * 100}%`}
          />
        ))}
        <line className={styles.even} x1="0" x2="100%" y1={up(items / 10)} y2={up(items / 10)} />
        {[tenthsLow, tenthsHigh].map((chance) => (
          <line
            key={chance}
            className={styles.chance}
            x1="0"
            x2="100%"
            y1={up(chance)}
            y2={up(chance)}
          />
        ))}
        <line className={styles.floor} x1="0" x2="100%" y1="100%" y2="100%" />
      </svg>
      <div className={styles.ends} aria-hidden="true">
        <span>under P10</span>
        <span>P50</span>
        <span>over P90</span>
      </div>
      <p className={styles.second}>
        Even columns are honest. High at both ends: ranges too narrow; high on the right: jobs take
        longer than said. Between the dashed lines lies what chance does, 19 times in 20.
      </p>
      <More words="The tenths as figures">
        <ol className={styles.counts}>
          {tenths.map((count, index) => (
            <li key={index}>
              {index === 0
                ? 'under P10'
                : index === 9
                  ? 'over P90'
                  : `P${index * 10} to P${(index + 1) * 10}`}
              : <span className={styles.figure}>{count}</span>
            </li>
          ))}
        </ol>
      </More>
    </figure>
  );
}
