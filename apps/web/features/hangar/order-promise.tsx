'use client';

import { DayDimension } from '../../components/DayDimension.tsx';
import { calendarDateText, dayText } from '../../lib/figures/dates.ts';
import { ExpectedForm } from './expected-form.tsx';
import styles from './promise.module.css';
import type { PromiseData } from './promise-shown.ts';

interface WaitingWork {
  id: string;
  position: number;
  title: string;
  state: string;
  expectations: readonly {
    id: string;
    what: string;
    expectedOn: string | null;
    saidBy: string;
    notedAt: string;
  }[];
}

/** When an order's aircraft is ready, what was said when it came, and where the day of a part is noted. */
export function OrderPromise({
  promise,
  atArrival,
  items,
  timeZone,
}: {
  promise: PromiseData | null;
  atArrival: PromiseData | null;
  items: readonly WaitingWork[];
  timeZone: string;
}) {
  const live = items.filter(({ state }) => ['open', 'in_work', 'waiting'].includes(state));
  const said = live.flatMap((item) => newestOf(item.expectations).map((each) => ({ item, each })));
  if (promise === null && atArrival === null) return null;
  return (
    <section className={styles.part} aria-label="When it is ready">
      {promise === null ? null : <DayDimension promise={promise} />}
      {atArrival === null ? null : (
        <p className={styles.how}>Said when it arrived: {lowered(atArrival.sentence)}</p>
      )}
      {said.length === 0 ? null : (
        <ul className={styles.rows} aria-label="What is expected">
          {said.map(({ item, each }) => (
            <li key={each.id}>
              {each.what} for item {item.position}:{' '}
              {each.expectedOn === null
                ? 'nobody can say when'
                : `expected ${calendarDateText(each.expectedOn)}`}
              , {each.saidBy}, noted {dayText(each.notedAt, timeZone)}
            </li>
          ))}
        </ul>
      )}
      {promise === null || live.length === 0 ? null : (
        <ExpectedForm
          which="For which item"
          things={live.map(({ id, position, title, state }) => ({
            id,
            words: `${position} · ${title}`,
            of: { itemId: id },
            waits: state === 'waiting',
          }))}
        />
      )}
    </section>
  );
}

const lowered = (sentence: string) => sentence.charAt(0).toLowerCase() + sentence.slice(1);

/** Of each thing the newest word; the API gives newest first. */
function newestOf(expectations: WaitingWork['expectations']) {
  const seen = new Set<string>();
  return expectations.filter(({ what }) => {
    const key = what.toLowerCase();
    return seen.has(key) ? false : seen.add(key);
  });
}
