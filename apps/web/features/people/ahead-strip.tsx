import styles from './people.module.css';
import type { ShopSheet } from './shop-documents.ts';
import { weekdays } from './week-words.ts';

const DAY_HOURS = 8;

/** The next fourteen days: how many hours of hands are here on each, and who is away. Promise dates rest on it. */
export function AheadStrip({ ahead }: { ahead: ShopSheet['ahead'] }) {
  const hours = ahead.map(({ present }) =>
    present.reduce((sum, { minutes }) => sum + minutes / 60, 0),
  );
  const most = Math.max(DAY_HOURS, ...hours);
  return (
    <div className={styles.ahead}>
      <h3>The next fourteen days, hours of hands</h3>
      <ol>
        {ahead.map(({ day, closed, present, away }, index) => {
          const of = hours[index] ?? 0;
          const date = new Date(`${day}T00:00:00Z`);
          return (
            <li key={day} data-none={of === 0 ? '' : undefined}>
              <span className={styles.bar} aria-hidden="true">
                <i style={{ height: `${(of / most) * 100}%` }} />
              </span>
              <span className={styles.number}>{of === 0 ? '–' : Math.round(of * 10) / 10}</span>
              <time dateTime={day}>
                {weekdays[(date.getUTCDay() + 6) % 7]} {date.getUTCDate()}
              </time>
              <span className={styles.second}>
                {closed ?? away.map(({ name, reason }) => `${name}: ${reason}`).join(', ')}
                <span className="spoken">
                  {present.map(({ name }) => `${name} is here`).join(', ')}
                </span>
              </span>
            </li>
          );
        })}
      </ol>
    </div>
  );
}
