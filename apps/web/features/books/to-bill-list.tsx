'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useRouter } from 'next/navigation';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Money } from '../../components/Figure.tsx';
import { Hatch } from '../../components/Hatch.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import type { OrdersToBillQuery } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { orderMark } from '../quoting/order-words.ts';
import styles from './books.module.css';
import { DraftInvoiceDocument } from './invoice-documents.ts';
import { invoiceHref } from './invoice-words.ts';

type OrderToBill = OrdersToBillQuery['orders']['edges'][number]['node'];

/** An order without a draft and without an invoice that stands. */
export const toBill = ({ invoices }: OrderToBill): boolean =>
  invoices.every(
    ({ state, credits, sale }) => sale !== null || credits !== null || state === 'credited',
  );

/** Orders that an invoice can be drafted for, one press each. */
export function ToBillList({
  caption,
  empty,
  note,
  orders,
  currency,
}: {
  caption: string;
  /** The sentence where there is none. */
  empty: string;
  note?: string;
  orders: readonly OrderToBill[];
  currency: string;
}) {
  const router = useRouter();
  const queries = useQueryClient();
  const drafting = useMutation({
    mutationFn: async (orderId: string) =>
      (await request(DraftInvoiceDocument, { input: { orderId } })).draftInvoice,
    onSuccess: async (drafted) => {
      if (drafted.__typename === 'Refusal') return;
      await queries.invalidateQueries({ queryKey: ['books'] });
      await queries.invalidateQueries({ queryKey: ['ordersToBill'] });
      router.push(invoiceHref(drafted.id));
    },
  });
  const refused =
    drafting.data?.__typename === 'Refusal' ? drafting.data.message : drafting.error?.message;
  if (orders.length === 0) {
    return (
      <section>
        <h2 className={styles.head}>{caption}</h2>
        <p className={styles.second}>{empty}</p>
      </section>
    );
  }
  return (
    <section className={styles.list}>
      <PartsList
        caption={caption}
        columns={[
          { key: 'job', head: 'Job' },
          { key: 'state', head: 'State' },
          { key: 'agreed', head: `Agreed, ${currency}`, kind: 'figure' },
          { key: 'cost', head: `Comes to, ${currency}`, kind: 'figure' },
          { key: 'draft', head: 'Invoice' },
        ]}
        rows={orders.map((order) => ({
          key: order.id,
          note: `Order ${order.number}`,
          cells: {
            job: (
              <>
                <b className={styles.registration}>{order.aircraft.registration}</b> {order.title}
              </>
            ),
            state: <Hatch {...orderMark(order)} />,
            agreed: <Money minor={BigInt(order.agreed)} currency={currency} />,
            cost:
              order.costSoFar === null ? (
                'no price'
              ) : (
                <>
                  <Money minor={BigInt(order.costSoFar)} currency={currency} />
                  {BigInt(order.beyondAuthority ?? '0') > 0n ? (
                    <span className={styles.beyond}>
                      {' '}
                      beyond{' '}
                      <Money minor={BigInt(order.beyondAuthority ?? '0')} currency={currency} />
                    </span>
                  ) : null}
                </>
              ),
            draft: (
              <Button
                busy={
                  drafting.isPending && drafting.variables === order.id ? 'Drafting' : undefined
                }
                disabled={drafting.isPending}
                aria-label={`Draft the invoice of ${order.aircraft.registration}, ${order.title}`}
                onClick={() => drafting.mutate(order.id)}
              >
                Draft
              </Button>
            ),
          },
        }))}
      />
      {note === undefined ? null : <p className={styles.second}>{note}</p>}
      {refused === undefined ? null : <ErrorNote head="Not drafted">{refused}</ErrorNote>}
    </section>
  );
}
