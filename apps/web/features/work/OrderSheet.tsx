'use client';

import { OrderCare } from '../safety/order-care.tsx';
import { BenchFrame } from './BenchFrame.tsx';
import styles from './bench.module.css';
import { useBench } from './use-bench.ts';
import { ViewLink } from './view.tsx';

/** What is open on one aircraft, at the bench: panels, parts, tools, leaks, and what a shift leaves to the next. */
export function OrderSheet({ id }: { id: string }) {
  const bench = useBench();
  const order = bench.items.find((item) => item.order.id === id)?.order;
  const name =
    order === undefined ? 'What is open' : `What is open on ${order.aircraft.registration}`;
  return (
    <BenchFrame
      bench={bench}
      title={name}
      what={name}
      cells={
        order
          ? [
              { label: 'Aircraft', value: order.aircraft.registration },
              { label: 'Order', value: String(order.number) },
            ]
          : []
      }
    >
      {({ timeZone }) => (
        <div className={styles.sections}>
          <p>
            <ViewLink view={{ kind: 'list' }}>Bench</ViewLink>
            {order === undefined ? '' : ` / ${order.title}, order ${order.number}`}
          </p>
          <OrderCare
            orderId={id}
            roles={bench.viewer.data?.person.roles ?? []}
            timeZone={timeZone}
          />
        </div>
      )}
    </BenchFrame>
  );
}
