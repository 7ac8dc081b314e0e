'use client';

import { useQuery } from '@tanstack/react-query';
import { SheetLink } from '../../components/SheetLink.tsx';
import { request } from '../../graphql/request.ts';
import { calendarDateText } from '../../lib/figures/dates.ts';
import { moneyText } from '../../lib/figures/money.ts';
import { lotHref } from './addresses.ts';
import styles from './order-stores.module.css';
import { OrderStoresDocument } from './order-stores-documents.ts';
import { purchaseHref } from './purchase-words.ts';

/** What the stores keep for an order, what is on the way to it, and the old parts that its work owes. Nothing where there is neither. */
export function OrderStores({ orderId, currency }: { orderId: string; currency: string }) {
  const { data } = useQuery({
    queryKey: ['orderStores', orderId],
    queryFn: async () => (await request(OrderStoresDocument, { id: orderId })).node,
  });
  if (
    data?.__typename !== 'WorkOrder' ||
    data.reserved.length + data.onOrder.length + data.coresOwed.length === 0
  )
    return null;
  return (
    <section className={styles.part} aria-labelledby="order-stores">
      <h2 id="order-stores">In the stores</h2>
      <ul className={styles.list}>
        {data.reserved.map(({ lot, quantity }) => (
          <li key={lot.id}>
            <span className={styles.figures}>{quantity}</span> {lot.part.unit} of {lot.part.title}{' '}
            kept for it{lot.bin === '' ? '' : ` in ${lot.bin}`},{' '}
            <SheetLink href={lotHref(lot.id)}>batch {lot.batch}</SheetLink>
          </li>
        ))}
        {data.onOrder.map(({ quantity, line: { id, part, item, order, lots } }) => (
          <li key={id}>
            <span className={styles.figures}>{quantity}</span> {part.unit} of {part.title} on order
            {item === null ? '' : ` for item ${item.position}`},{' '}
            {lots.length > 0
              ? 'come in part or whole'
              : order.expectedOn === null
                ? 'nobody said when'
                : `expected ${calendarDateText(order.expectedOn)}`}
            , <SheetLink href={purchaseHref(order.id)}>purchase order {order.number}</SheetLink>
            {lots.map((lot) => (
              <span key={lot.id}>
                {' '}
                · <SheetLink href={lotHref(lot.id)}>batch {lot.batch}</SheetLink>
              </span>
            ))}
          </li>
        ))}
        {data.coresOwed.map(({ lot, item, quantity, amount }) => (
          <li key={`${lot.id} ${item.id}`}>
            <span className={styles.figures}>{quantity}</span> {lot.part.unit} of old{' '}
            {lot.part.title} owed for item {item.position}:{' '}
            <span className={styles.figures}>{moneyText(BigInt(amount), currency)}</span> {currency}{' '}
            stay charged until the old one comes
          </li>
        ))}
      </ul>
    </section>
  );
}
