import { At } from '../../../components/marks.tsx';
import styles from './honest.module.css';
import type { Rival, Score } from './honest-document.ts';
import { SmallTenths } from './SmallTenths.tsx';

const levels = ['p50', 'p80', 'p90'] as const;
const standings = {
  model_better: 'the model is better',
  even: 'cannot be told apart yet',
  rival_better: 'it is better than the model',
  too_few: 'too few to say',
} as const;
/** Three figures, so that a loss of minutes can be compared. */
const lossText = (hours: number) => hours.toFixed(hours < 1 ? 3 : 2);
const jobsText = (items: number) => `${items} ${items === 1 ? 'job' : 'jobs'}`;

/** What a forecast cost by one measure, the model's and, beside it, a rule's; null: not scored then. */
interface Cost {
  readonly name: string;
  readonly model: number | null;
  readonly rival?: number | null;
}

function costsOf(rival: Rival): Cost[] {
  return [
    ...levels.map((level) => ({
      name: level.toUpperCase(),
      model: rival.modelLoss[level],
      rival: rival.loss[level],
    })),
    { name: 'CRPS', model: rival.modelCrps, rival: rival.crps },
  ];
}

/**
 * What forecasts cost, the model beside each rival, on the jobs that the rival could predict: a dot for the model, a cross
 * for the rival, on one scale from nothing; further left is better. Below, where the clock came out in each forecast.
 */
export function RivalLines({ score }: { score: Score }) {
  const ours: Cost[] = [
    ...levels.map((level) => ({ name: level.toUpperCase(), model: score.loss[level] })),
    { name: 'CRPS', model: score.crps },
  ];
  const most = Math.max(
    1e-9,
    ...[...ours, ...score.rivals.flatMap(costsOf)].flatMap(({ model, rival }) => [
      model ?? 0,
      rival ?? 0,
    ]),
  );
  const share = score.coverage && score.coverage.within / score.coverage.items;
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
        <span>mean pinball loss of each quantile and mean CRPS, hours; further left is better</span>
        <span>PIT: tenths as above; even is honest</span>
      </p>
      <ul>
        <li className={styles.row}>
          <div className={styles.who}>
            <h3>the model</h3>
            <p>on all {jobsText(score.items)}</p>
          </div>
          <div className={styles.levels}>
            {ours.map((cost) => (
              <CostLine key={cost.name} cost={cost} most={most} rule="" />
            ))}
            <SmallTenths who="the model" tenths={score.tenths} within={share} />
          </div>
        </li>
        {score.rivals.map((rival) => (
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
                  : `${standings[rival.standing]}, on ${jobsText(rival.items)}`}
              </p>
            </div>
            {rival.items === 0 ? null : (
              <div className={styles.levels}>
                {costsOf(rival).map((cost) => (
                  <CostLine key={cost.name} cost={cost} most={most} rule={rival.name} />
                ))}
                <SmallTenths who={rival.name} tenths={rival.tenths} within={rival.coverage} />
              </div>
            )}
          </li>
        ))}
      </ul>
    </figure>
  );
}

function CostLine({ cost, most, rule }: { cost: Cost; most: number; rule: string }) {
  const { name, model, rival } = cost;
  if (model === null || rival === null)
    return (
      <div className={styles.level}>
        <span className={styles.name}>{name}</span>
        <span className={styles.unscored}>not scored then</span>
      </div>
    );
  const at = (hours: number) => `${(hours / most) * 96}%`;
  return (
    <div className={styles.level}>
      <span className={styles.name}>{name}</span>
      <svg className={styles.line} aria-hidden="true">
        <line className={styles.base} x1="0" x2="100%" y1="11" y2="11" />
        <path className={styles.base} d="M.5 5V17" />
        {rival === undefined ? null : (
          <>
            <line className={styles.between} x1={at(model)} x2={at(rival)} y1="11" y2="11" />
            <At x={at(rival)} y="11">
              <path className={styles.rival} d="M-4-4 4 4M-4 4 4-4" />
            </At>
          </>
        )}
        <At x={at(model)} y="11">
          <circle className={styles.model} r="4" />
        </At>
      </svg>
      <span className={styles.figure}>
        <span className="spoken">the model </span>
        {lossText(model)}
        {rival === undefined ? null : (
          <>
            <span aria-hidden="true"> · </span>
            <span className="spoken">, {rule} </span>
            {lossText(rival)}
          </>
        )}
      </span>
    </div>
  );
}
