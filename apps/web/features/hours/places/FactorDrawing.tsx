import { At } from '../../../components/marks.tsx';
import { factorText } from '../hours-words.ts';
import { factorLines, factorPercent, factorScale } from './factor-scale.ts';
import styles from './places.module.css';
import { byCondition, type Factor, type Places } from './places-document.ts';

/**
 * Access factors as pairs of dimension lines on one logarithmic scale: what was believed before in hairline, what the
 * shop's own jobs have made of it in ink, each from end to end nine in ten, and how many jobs stand behind it.
 */
export function FactorDrawing({ factors }: { factors: Places['factors'] }) {
  const scale = factorScale(
    factors
      .flatMap(({ prior, posterior }) => [prior, posterior])
      .flatMap(({ from, to }) => [from, to]),
  );
  const lines = factorLines(scale);
  const at = (factor: number) => `${factorPercent(factor, scale)}%`;
  return (
    <figure className={styles.drawing}>
      <figcaption className={styles.key}>
        <span>
          <svg aria-hidden="true" width="56" height="16">
            <path className={styles.prior} d="M2 8H54M2 3V13M54 3V13M24 3V13" />
          </svg>
          believed before
        </span>
        <span>
          <svg aria-hidden="true" width="56" height="16">
            <path className={styles.posterior} d="M6 8H48M6 3V13M48 3V13M30 1V15" />
          </svg>
          as this shop’s jobs have it
        </span>
        <span>from end to end nine in ten; ×1 costs nothing</span>
      </figcaption>
      <div className={styles.axis} aria-hidden="true">
        <span />
        <span className={styles.scale}>
          {lines
            .filter((line) => line.named)
            .map(({ value }) => (
              <span key={value} style={{ left: at(value) }}>
                ×{value}
              </span>
            ))}
        </span>
        <span className={styles.heads}>
          <span>before</span>
          <span>now</span>
          <span>nine in ten</span>
          <span>behind it</span>
        </span>
      </div>
      {byCondition(factors).map(({ words, of }) => (
        <section key={words} className={styles.condition} aria-label={words}>
          <h3>{words}</h3>
          <ul>
            {of.map((factor) => (
              <li key={factor.words} className={styles.level}>
                <span className={styles.words}>{factor.words}</span>
                <svg className={styles.lines} aria-hidden="true">
                  {lines.map(({ value }) => (
                    <line
                      key={value}
                      className={value === 1 ? styles.one : styles.ruling}
                      x1={at(value)}
                      x2={at(value)}
                      y1="0"
                      y2="100%"
                    />
                  ))}
                  <Span range={factor.prior} y={15} kind={styles.prior} at={at} />
                  <Span range={factor.posterior} y={33} kind={styles.posterior} at={at} />
                </svg>
                <span className={styles.figures} aria-hidden="true">
                  <span className={styles.before}>{factorText(factor.prior.factor)}</span>
                  <span>{factorText(factor.posterior.factor)}</span>
                  <span className={styles.range}>
                    {factor.posterior.from.toFixed(2)} to {factor.posterior.to.toFixed(2)}
                  </span>
                  <span className={styles.jobs}>
                    {factor.items} {factor.items === 1 ? 'job' : 'jobs'}
                  </span>
                </span>
                <span className="spoken">{factor.sentence}</span>
              </li>
            ))}
          </ul>
        </section>
      ))}
    </figure>
  );
}

function Span({
  range,
  y,
  kind,
  at,
}: {
  range: Factor['prior'];
  y: number;
  kind: string | undefined;
  at: (factor: number) => string;
}) {
  return (
    <>
      <line className={kind} x1={at(range.from)} x2={at(range.to)} y1={y} y2={y} />
      {[range.from, range.to].map((end) => (
        <At key={end} x={at(end)} y={String(y)}>
          <path className={kind} d="M0-5V5" />
        </At>
      ))}
      <At x={at(range.factor)} y={String(y)}>
        <path className={kind} d="M0-7V7" />
      </At>
    </>
  );
}
