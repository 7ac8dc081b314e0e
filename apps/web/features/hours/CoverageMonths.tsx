import { Figure } from '../../components/Figure.tsx';
import { More } from '../../components/More.tsx';
import { At } from '../../components/marks.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import styles from './coverage.module.css';
import type { Month } from './hours-document.ts';
import { monthText, ofText, verdictWords } from './hours-words.ts';

/** Columns that fit on a telephone; older months are in the table. */
const DRAWN = 12;
/** Its year stands under it, and takes the room of two columns. */
const beginsYear = ({ month }: Pick<Month, 'month'>) => month.endsWith('-01');
const levels = [0, 50, 80, 100];
const up = (share: number) => `${100 - share * 100}%`;
const perCent = (share: number) => `${Math.round(share * 100)} %`;

/**
 * A column a month: the share that came out between P10 and P90 as a dot, or a cross where chance
 * does not explain how far it is from eight in ten, and how far the count leaves it open as the line
 * through it. Under each column the count itself, as a fraction.
 */
export function CoverageMonths({ months }: { months: readonly Month[] }) {
  const drawn = months.slice(-DRAWN);
  const place = (index: number) => `${((index + 0.5) / drawn.length) * 100}%`;
  const columns = { gridTemplateColumns: `repeat(${drawn.length}, minmax(0, 1fr))` };
  const told = months.flatMap(({ month, coverage }) => (coverage ? [{ month, coverage }] : []));
  return (
    <figure className={styles.months}>
      <figcaption className={styles.title}>Within P10 to P90, month by month</figcaption>
      <div className={styles.sides}>
        <div className={styles.scale} aria-hidden="true">
          {levels.map((level) => (
            <span
              key={level}
              style={{ top: up(level / 100) }}
              data-promised={level === 80 ? '' : undefined}
            >
              {level} %
            </span>
          ))}
        </div>
        <svg
          className={styles.plot}
          role="img"
          aria-label={`Share of items that came out between P10 and P90 in each of ${drawn.length} months up to ${monthText(drawn.at(-1)?.month ?? '')}. The table below has each.`}
        >
          {levels.map((level) => (
            <line
              key={level}
              className={level === 80 ? styles.promised : styles.level}
              x1="0"
              x2="100%"
              y1={up(level / 100)}
              y2={up(level / 100)}
            />
          ))}
          {drawn.map(({ month, coverage }, index) => {
            if (!coverage) return null;
            const { low, high, items, within, verdict } = coverage;
            const off = verdict === 'too_narrow' || verdict === 'too_wide';
            const x = place(index);
            return (
              <g key={month}>
                <line className={styles.open} x1={x} x2={x} y1={up(high)} y2={up(low)} />
                {[low, high].map((end) => (
                  <At key={end} x={x} y={up(end)}>
                    <path className={styles.open} d="M-4 0H4" />
                  </At>
                ))}
                <At x={x} y={up(within / items)}>
                  {off ? (
                    <path className={styles.off} d="M-5-5 5 5M-5 5 5-5" />
                  ) : (
                    <circle className={styles.held} r="4" />
                  )}
                </At>
              </g>
            );
          })}
        </svg>
        <div className={styles.counts} style={columns} aria-hidden="true">
          {drawn.map(({ month, coverage }, index) => (
            <div key={month} className={styles.count}>
              <span className={styles.fraction}>
                {coverage ? (
                  <>
                    <span>{coverage.within}</span>
                    <span>{coverage.items}</span>
                  </>
                ) : (
                  '–'
                )}
              </span>
              <span>{month.slice(5)}</span>
              <span className={styles.year}>
                {beginsYear({ month }) || (index === 0 && !drawn.slice(1, 3).some(beginsYear))
                  ? month.slice(0, 4)
                  : ''}
              </span>
            </div>
          ))}
        </div>
      </div>
      <p className={styles.note}>
        The line through a mark is how far so few items leave the share open, 19 times in 20; by
        chance alone one month in twenty lies off. A cross lies off.
      </p>
      <More words={`The ${told.length === 1 ? 'month' : `${told.length} months`} as a table`}>
        <PartsList
          caption="Coverage by month"
          captionHidden
          columns={[
            { key: 'month', head: 'Month' },
            { key: 'within', head: 'Within', kind: 'figure' },
            { key: 'open', head: 'In the long run', kind: 'figure' },
            { key: 'verdict', head: 'The range' },
          ]}
          rows={[...told].reverse().map(({ month, coverage }) => ({
            key: month,
            cells: {
              month: monthText(month),
              within: <Figure text={ofText(coverage.within, coverage.items)} />,
              open: <Figure text={`${perCent(coverage.low)} to ${perCent(coverage.high)}`} />,
              verdict: verdictWords[coverage.verdict],
            },
          }))}
        />
      </More>
    </figure>
  );
}
