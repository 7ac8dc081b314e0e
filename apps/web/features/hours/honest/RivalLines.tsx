import { At } from '../../../components/marks.tsx';
import styles from './honest.module.css';
import type { Rival } from './honest-document.ts';

const levels = ['p50', 'p80', 'p90'] as const;
const standings = {
  model_better: 'the model is better',
  even: 'cannot be told apart yet',
  rival_better: 'it is better than the model',
  too_few: 'too few to say',
} as const;
/** Three figures, so that a loss of minutes can be compared. */
const lossText = (hours: number) => hours.toFixed(hours < 1 ? 3 : 2);

/**
 * What quantiles cost, the model beside each rival, on the jobs that the rival could predict: a dot for the model, a cross
 * for the rival, on one scale from nothing. Further left is better.
 */
export function RivalLines({ rivals }: { rivals: readonly Rival[] }) {
  const most = Math.max(
    1e-9,
    ...rivals.flatMap(({ loss, modelLoss }) =>
      levels.flatMap((level) => [loss[level], modelLoss[level]]),
    ),
  );
  const at = (hours: number) => `${(hours / most) * 96}%`;
  return (
    <figure className={styles.rivals}>
      <figcaption className={styles.title}>
        What the quantiles cost, beside five plain rules
      </figcaption>
      <p className={styles.key}>
        <span>
          <svg width="16" height="16" aria-hidden="true">
            <circle className={styles.model} cx="8" cy="8" r="4" />
          </svg>
          the model
        </span>
        <span>
          <svg width="16" height="16" aria-hidden="true">
            <path className={styles.rival} d="M4 4 12 12M4 12 12 4" />
          </svg>
          the plain rule
        </span>
        <span>mean pinball loss, hours; further left is better</span>
      </p>
      <ul>
        {rivals.map((rival) => (
          <li
            key={rival.name}
            className={styles.row}
            data-wins={rival.standing === 'rival_better' ? '' : undefined}
          >
            <div className={styles.who}>
              <h3>{rival.name}</h3>
              <p>
                {rival.items === 0
                  ? 'had nothing to say'
                  : `${standings[rival.standing]}, on ${rival.items} ${rival.items === 1 ? 'job' : 'jobs'}`}
              </p>
            </div>
            {rival.items === 0 ? null : (
              <div className={styles.levels}>
                {levels.map((level) => (
                  <div key={level} className={styles.level}>
                    <span className={styles.name}>{level.toUpperCase()}</span>
                    <svg className={styles.line} aria-hidden="true">
                      <line className={styles.base} x1="0" x2="100%" y1="11" y2="11" />
                      <path className={styles.base} d="M.5 5V17" />
                      <line
                        className={styles.between}
                        x1={at(rival.modelLoss[level])}
                        x2={at(rival.loss[level])}
                        y1="11"
                        y2="11"
                      />
                      <At x={at(rival.loss[level])} y="11">
                        <path className={styles.rival} d="M-4-4 4 4M-4 4 4-4" />
                      </At>
                      <At x={at(rival.modelLoss[level])} y="11">
                        <circle className={styles.model} r="4" />
                      </At>
                    </svg>
                    <span className={styles.figure}>
                      <span className="spoken">the model </span>
                      {lossText(rival.modelLoss[level])}
                      <span aria-hidden="true"> · </span>
                      <span className="spoken">, {rival.name} </span>
                      {lossText(rival.loss[level])}
                    </span>
                  </div>
                ))}
              </div>
            )}
          </li>
        ))}
      </ul>
    </figure>
  );
}
