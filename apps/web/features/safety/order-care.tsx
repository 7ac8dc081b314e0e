'use client';

import { useQuery } from '@tanstack/react-query';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { More } from '../../components/More.tsx';
import type { Role } from '../../graphql/generated/graphql.ts';
import { calendarDateText, dayAndTimeText } from '../../lib/figures/dates.ts';
import { torquesNoted, withNoted } from './care-now.ts';
import { HandOverOrder, LeftOnOrder } from './hand-overs.tsx';
import { useUnsentFacts } from './kept-facts.ts';
import { LeakChecks } from './leak-checks.tsx';
import { OpenList } from './open-list.tsx';
import type { OpenOrder } from './order-documents.ts';
import styles from './safety.module.css';
import { ToolCounts } from './tool-counts.tsx';
import { torqueChoicesAsked, useOpenOnOrder } from './use-open.ts';

/** What is open on an aircraft, in the order in which one closes it. For the bench, and before an inspector signs. */
export function OrderCare({
  orderId,
  roles,
  timeZone,
}: {
  orderId: string;
  roles: readonly Role[];
  timeZone: string;
}) {
  const asked = useOpenOnOrder(orderId);
  const order = asked.data;
  if (order === undefined)
    return asked.error ? (
      <ErrorNote head="Nothing to show">{asked.error.message}</ErrorNote>
    ) : (
      <Loading>Looking up what is open</Loading>
    );
  if (order === null) return <ErrorNote>There is no such order in this shop.</ErrorNote>;
  const here = order.state === 'here' || order.state === 'ready_to_sign';
  const works = here && roles.some((role) => role !== 'front_desk');
  const untaken = order.handOvers.filter(({ takenOver }) => takenOver === null);
  const taken = order.handOvers.filter(({ takenOver }) => takenOver !== null);
  return (
    <>
      {untaken.map((left) => (
        <LeftOnOrder key={left.id} left={left} works={works} timeZone={timeZone} />
      ))}
      <section className={styles.part} aria-labelledby="open-things">
        <h2 id="open-things">Opened and removed</h2>
        <OpenList order={order} works={works} timeZone={timeZone} />
      </section>
      <section className={styles.part} aria-labelledby="counts">
        <h2 id="counts">Tools and rags</h2>
        <ToolCounts
          order={order}
          works={works}
          mayAccount={here && roles.some((role) => role === 'inspector' || role === 'manager')}
          timeZone={timeZone}
        />
      </section>
      <section className={styles.part} aria-labelledby="leak-checks">
        <h2 id="leak-checks">Leak checks</h2>
        <LeakChecks
          order={order}
          works={works}
          plans={here && roles.length > 0}
          timeZone={timeZone}
        />
      </section>
      <Lapsed order={order} />
      {works ? (
        <section className={styles.part} aria-labelledby="hand-over">
          <h2 id="hand-over">Hand over</h2>
          <details>
            <summary className={styles.summary}>Leave a note for the next shift</summary>
            <HandOverOrder orderId={order.id} />
          </details>
        </section>
      ) : null}
      {taken.length === 0 ? null : (
        <More words={`${taken.length} taken over`}>
          <ul className={styles.lines}>
            {taken.map((each) => (
              <li key={each.id} className={styles.line}>
                <div>
                  <p>
                    {each.item === null ? '' : `Item ${each.item.position}: `}
                    {each.notDone}
                  </p>
                  <p className={styles.second}>
                    {each.by.name}, {dayAndTimeText(each.at, timeZone)}; taken over by{' '}
                    {each.takenOver?.by.name},{' '}
                    {each.takenOver ? dayAndTimeText(each.takenOver.at, timeZone) : ''}
                  </p>
                </div>
              </li>
            ))}
          </ul>
        </More>
      )}
    </>
  );
}

/** Work done with a tool whose calibration had lapsed: whoever looks at it decides. */
function Lapsed({ order }: { order: OpenOrder }) {
  const facts = useUnsentFacts();
  const tools = useQuery(torqueChoicesAsked).data?.tools ?? [];
  const lapsed = order.items.flatMap(({ id, position, torques }) =>
    withNoted(torques, torquesNoted(id, facts, tools))
      .filter((each) => each.lapsed)
      .map((torque) => ({ position, torque })),
  );
  if (lapsed.length === 0) return null;
  return (
    <section className={styles.part} aria-labelledby="lapsed">
      <h2 id="lapsed">Done with a lapsed tool</h2>
      <ul className={styles.lines}>
        {lapsed.map(({ position, torque }) => (
          <li key={torque.id} className={styles.line}>
            <p className={styles.flag}>
              Item {position}, {torque.fastener}: {torque.tool.name} {torque.tool.number}, lapsed
              after {calendarDateText(torque.goodUntil)}. {torque.by.name}: {torque.reason}
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}
