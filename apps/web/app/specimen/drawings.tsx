import { Balloon } from '../../components/Balloon.tsx';
import { Hatch, HatchDefinitions, hatchFill, type WorkState } from '../../components/Hatch.tsx';
import { LeaderNote } from '../../components/LeaderNote.tsx';
import {
  type AircraftKind,
  AircraftPlan,
  type AircraftSize,
  Silhouette,
} from '../../components/Silhouette.tsx';
import styles from './specimen.module.css';

const models: readonly { kind: AircraftKind; words: string; size: AircraftSize }[] = [
  {
    kind: 'helicopter_two_seat',
    words: 'Two-seat helicopter',
    size: { lengthM: 6.7, spanM: 7.6, heightM: 2.7, parkedLengthM: 8.7, parkedWidthM: 2.0 },
  },
  {
    kind: 'helicopter_four_seat',
    words: 'Four-seat helicopter',
    size: { lengthM: 9.1, spanM: 10.0, heightM: 3.3, parkedLengthM: 11.5, parkedWidthM: 2.3 },
  },
  {
    kind: 'airplane_single',
    words: 'High-wing single',
    size: { lengthM: 8.2, spanM: 10.9, heightM: 2.7, parkedLengthM: 8.2, parkedWidthM: 10.9 },
  },
  {
    kind: 'airplane_twin',
    words: 'Low-wing twin',
    size: { lengthM: 8.9, spanM: 11.9, heightM: 2.9, parkedLengthM: 8.9, parkedWidthM: 11.9 },
  },
];

const states: readonly WorkState[] = ['planned', 'in_work', 'waiting', 'ready_to_sign', 'released'];

export function AircraftSpecimen() {
  const [two] = models;
  return (
    <section className={styles.part}>
      <h2>Aircraft, with balloons and leaders</h2>
      {two === undefined ? null : (
        <Silhouette
          kind={two.kind}
          size={two.size}
          label={`${two.words} from its left side, with four numbered places`}
          balloons={[
            { number: 1, zone: 'engine_bay', href: '#row-shroud', label: 'exhaust collector' },
            { number: 2, zone: 'tail_boom', href: '#row-boom', label: 'tail boom' },
            { number: 3, zone: 'mast', href: '#row-mast', label: 'mast' },
            { number: 4, zone: 'gear', href: '#row-skid', label: 'skids' },
          ]}
        />
      )}
      <div className={styles.two}>
        {models.map(({ kind, words, size }) => (
          <Silhouette
            key={kind}
            kind={kind}
            size={size}
            label={`${words} from its left side`}
            caption={words}
          />
        ))}
        {models.map(({ kind, words, size }) => (
          <Silhouette
            key={kind}
            kind={kind}
            size={size}
            view="plan"
            label={`${words} from above`}
            caption={`${words}, plan`}
          />
        ))}
      </div>
    </section>
  );
}

export function StateSpecimen() {
  const [two, four, single, twin] = models;
  return (
    <section className={styles.part}>
      <h2>States, on the floor and in lists</h2>
      <ul className={styles.row}>
        {states.map((state) => (
          <li key={state}>
            <Hatch
              state={state}
              {...(state === 'waiting' ? { waitsFor: 'owner: 1 finding' } : {})}
            />
          </li>
        ))}
      </ul>
      <svg
        className={styles.floor}
        viewBox="-0.2 -0.2 32.4 16.4"
        role="img"
        aria-label="Four aircraft on a floor of 32 by 16 metres"
      >
        <HatchDefinitions name="specimen-floor" unit={0.03} />
        <path className={styles.grid} d={metreGrid(32, 16, 4)} />
        <rect className={styles.wall} width="32" height="16" />
        {two && (
          <AircraftPlan
            kind={two.kind}
            size={two.size}
            transform="translate(5 5.6) rotate(90)"
            fill={hatchFill('planned')}
            footprint
          />
        )}
        {four && (
          <AircraftPlan
            kind={four.kind}
            size={four.size}
            transform="translate(9.4 8) rotate(90)"
            fill={hatchFill('ready_to_sign', 'specimen-floor')}
            footprint
          />
        )}
        {single && (
          <AircraftPlan
            kind={single.kind}
            size={single.size}
            transform="translate(17.4 5.4) rotate(90)"
            fill={hatchFill('in_work', 'specimen-floor')}
            footprint
          />
        )}
        {twin && (
          <AircraftPlan
            kind={twin.kind}
            size={twin.size}
            transform="translate(25.6 10.4) rotate(90)"
            fill={hatchFill('waiting', 'specimen-floor')}
            footprint
          />
        )}
      </svg>
      <div className={styles.three}>
        <LeaderNote second="waits for owner: 1 finding · 1,240 of 1,900">
          QQ-117 100-hour, day 2 of 3
        </LeaderNote>
        <LeaderNote side="right" second="ready to sign">
          QQ-204 annual, day 4 of 4
        </LeaderNote>
        <div className={styles.row}>
          <Balloon number={1} />
          <Balloon number={12} />
          <Balloon number={104} />
          <Balloon number={7} href="#row-boom" label="tail boom" />
        </div>
      </div>
    </section>
  );
}

function metreGrid(width: number, height: number, every: number): string {
  const down = Array.from(
    { length: width / every - 1 },
    (_, i) => `M${(i + 1) * every} 0V${height}`,
  );
  const across = Array.from(
    { length: height / every - 1 },
    (_, i) => `M0 ${(i + 1) * every}H${width}`,
  );
  return [...down, ...across].join('');
}
