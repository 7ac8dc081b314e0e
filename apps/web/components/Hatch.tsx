import styles from './Hatch.module.css';

/** The five states of work on the floor and in lists, each with its hatch. */
export type WorkState = 'planned' | 'in_work' | 'waiting' | 'ready_to_sign' | 'released';

const words: Record<WorkState, string> = {
  planned: 'planned',
  in_work: 'in work',
  waiting: 'waiting',
  ready_to_sign: 'ready to sign',
  released: 'released',
};

/**
 * The fill of a shape in this state, for any drawing on the page.
 *
 * @param set the `name` of the HatchDefinitions to use; the page's own set is `hatch`
 */
export function hatchFill(state: WorkState, set = 'hatch'): string {
  if (state === 'planned') return 'var(--ground)';
  return state === 'released' ? 'currentColor' : `url(#${set}-${state})`;
}

/**
 * The patterns themselves. The layout holds one set in pixels. A drawing in metres adds its own:
 * `<HatchDefinitions name="floor" unit={0.02} />` where a pixel is 0.02 m.
 */
export function HatchDefinitions({ name = 'hatch', unit = 1 }: { name?: string; unit?: number }) {
  const cell = { width: 6, height: 6, patternUnits: 'userSpaceOnUse' as const };
  const scale = `scale(${unit})`;
  const ground = <rect width="6" height="6" fill="var(--ground)" />;
  const stroke = { stroke: 'currentColor', strokeWidth: 1.2 };
  return (
    <svg width="0" height="0" aria-hidden="true" style={{ position: 'absolute' }}>
      <defs>
        <pattern id={`${name}-in_work`} {...cell} patternTransform={`${scale} rotate(45)`}>
          {ground}
          <line x1="3" y1="0" x2="3" y2="6" {...stroke} />
        </pattern>
        <pattern id={`${name}-waiting`} {...cell} patternTransform={scale}>
          {ground}
          <circle cx="1.5" cy="1.5" r="1" fill="currentColor" />
          <circle cx="4.5" cy="4.5" r="1" fill="currentColor" />
        </pattern>
        <pattern id={`${name}-ready_to_sign`} {...cell} patternTransform={`${scale} rotate(45)`}>
          {ground}
          <path d="M3 0V6M0 3H6" fill="none" {...stroke} />
        </pattern>
      </defs>
    </svg>
  );
}

/** A state as its hatch and its word; `waitsFor` says what a waiting thing waits for. */
export function Hatch({
  state,
  waitsFor,
  word,
}: {
  state: WorkState;
  waitsFor?: string;
  /** Replaces the plain word, such as "signed" for a released item. */
  word?: string;
}) {
  return (
    <span className={styles.state}>
      <svg className={styles.swatch} viewBox="0 0 34 20" aria-hidden="true">
        <rect
          x="1"
          y="1"
          width="32"
          height="18"
          fill={hatchFill(state)}
          stroke="currentColor"
          strokeWidth="2"
        />
      </svg>
      <span className={styles.words}>
        {word ?? words[state]}
        {waitsFor === undefined ? null : <small> for {waitsFor}</small>}
      </span>
    </span>
  );
}
