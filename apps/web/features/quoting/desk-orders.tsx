'use client';

import { useQuery } from '@tanstack/react-query';
import { Empty, Loading } from '../../components/Empty.tsx';
import { Hatch } from '../../components/Hatch.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { graphql } from '../../graphql/document.ts';
import { request } from '../../graphql/request.ts';
import { moneyText } from '../../lib/figures/money.ts';
import styles from './desk-sheet.module.css';
import { orderMark } from './order-words.ts';

const DeskOrdersDocument = graphql(`
  query DeskOrders {
    orders(first: 40, states: [planned, here, ready_to_sign, released]) {
      edges {
        node {
          id
          number
          title
          state
          outcome
          beyondAuthority
          beyondOnOrder
          aircraft {
            registration
          }
          items {
            state
            waitingFor
            runningBy {
              initials
            }
          }
          findings {
            number
            state
          }
        }
      }
    }
  }
`);

/** The orders that are not over yet: what each waits for is one line. */
export function DeskOrders({ currency }: { currency: string }) {
  const { data, error, refetch } = useQuery({
    queryKey: ['deskOrders'],
    queryFn: () => request(DeskOrdersDocument),
  });
  if (error !== null) {
    return <NoAnswer head="No orders to show" problem={error} onAgain={() => void refetch()} />;
  }
  if (data === undefined) return <Loading>Fetching the orders</Loading>;
  const orders = data.orders.edges.map(({ node }) => node);
  if (orders.length === 0)
    return <Empty>No order is open: an owner’s yes to a quote makes one.</Empty>;
  return (
    <PartsList
      caption="Orders"
      columns={[
        { key: 'order', head: 'Order' },
        { key: 'state', head: 'State' },
        { key: 'done', head: 'Done', kind: 'figure' },
      ]}
      rows={orders.map((order) => ({
        key: `order-${order.number}`,
        cells: {
          order: (
            <a href={`/desk/orders/${order.id}`}>
              {order.number} · {order.aircraft.registration}, {order.title}
            </a>
          ),
          state: <Hatch {...orderMark(order)} />,
          done: `${order.items.filter(({ state }) => ['done', 'inspected', 'put_off'].includes(state)).length} of ${order.items.length}`,
        },
        note: noteOf(order, currency),
      }))}
    />
  );
}

/** What is past the owner's yes comes first: somebody has to ask. */
function noteOf(
  {
    beyondAuthority,
    beyondOnOrder,
    findings,
  }: {
    beyondAuthority: string | null;
    beyondOnOrder: string | null;
    findings: Parameters<typeof waitsFor>[0];
  },
  currency: string,
) {
  const waits = waitsFor(findings);
  const past = BigInt(beyondAuthority ?? '0') + BigInt(beyondOnOrder ?? '0');
  if (past === 0n) return waits;
  return (
    <>
      <span className={styles.beyond}>
        {moneyText(past, currency)} {currency} beyond what the owner agreed to
        {beyondOnOrder === null || beyondOnOrder === '0' ? '' : ', with what is on order'}: ask
      </span>
      {waits === '' ? '' : ` · ${waits}`}
    </>
  );
}

function waitsFor(findings: readonly { number: number; state: string }[]): string {
  const words: Record<string, string> = {
    noted: 'to be assessed',
    assessed: 'to be priced',
    offered: 'with the owner',
  };
  const said = findings.flatMap(({ number, state }) =>
    words[state] === undefined ? [] : [`finding ${number} ${words[state]}`],
  );
  return said.length === 0 ? '' : said.join(' · ');
}
