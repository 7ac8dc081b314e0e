import styles from './honest.module.css';

/** A tenth of jobs as text: those on a border are halved. */
const countText = (count: number) => (Number.isInteger(count) ? String(count) : count.toFixed(1));

/**
 * Where the clock came out in a forecast, in tenths, small, to be held against the others; beside it the share between
 * P10 and P90. Null: not scored then.
 */
export function SmallTenths({
  who,
  tenths,
  within,
}: {
  who: string;
  tenths: readonly number[] | null;
  within: number | null;
}) {
  const items = (tenths ?? []).reduce((sum, count) => sum + count, 0);
  const most = Math.max(items / 10, ...(tenths ?? [])) * 1.02 || 1;
  const up = (count: number) => `${100 - (count / most) * 100}%`;
  return (
    <div className={styles.level}>
      <span className={styles.name}>PIT</span>
      {tenths === null ? (
        <span className={styles.unscored}>not scored then</span>
      ) : (
        <>
          <svg
            className={styles.small}
            role="img"
            aria-label={`Jobs in each tenth of the forecast of ${who}, from the shortest: ${tenths.map(countText).join(', ')}. Even would be ${countText(items / 10)} each.`}
          >
            {tenths.map((count, index) => (
              <rect
                key={index}
                className={styles.bar}
                x={`${index * 10 + 1}%`}
                width="8%"
                y={up(count)}
                height={`${(count / most) * 100}%`}
              />
            ))}
            <line
              className={styles.even}
              x1="0"
              x2="100%"
              y1={up(items / 10)}
              y2={up(items / 10)}
            />
            <line className={styles.floor} x1="0" x2="100%" y1="100%" y2="100%" />
          </svg>
          <span className={styles.figure}>
            {within === null ? '' : `${Math.round(within * 100)} % in`}
            <span className="spoken"> its range of eight in ten</span>
          </span>
        </>
      )}
    </div>
  );
}
