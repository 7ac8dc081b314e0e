'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { Empty, Loading } from '../../components/Empty.tsx';
import { Hatch } from '../../components/Hatch.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import type { OrdersToSignQuery } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { dayText } from '../../lib/figures/dates.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import { DeadlinesPressing } from '../programme/deadlines-pressing.tsx';
import { RecordsNav } from '../programme/records-nav.tsx';
import { orderMark } from '../quoting/order-words.ts';
import { OrdersToSignDocument } from './records-documents.ts';

type Row = OrdersToSignQuery['orders']['edges'][number]['node'];

/** What an inspector has before them: aircraft that are here, and those that went. */
export function RecordsSheet() {
  const viewer = useViewer();
  const client = useQueryClient();
  const orders = useQuery({
    queryKey: ['ordersToSign'],
    queryFn: async () => (await request(OrdersToSignDocument)).orders.edges.map(({ node }) => node),
  });
  const rows = orders.data ?? [];
  const ready = rows.filter(({ state }) => state === 'ready_to_sign');
  const here = rows.filter(({ state }) => state === 'here');
  const released = rows.filter(({ state }) => state === 'released');
  const problem = viewer.error ?? orders.error;
  return (
    <Sheet
      here="records"
      viewer={viewer.data?.person ?? null}
      title="Records"
      titleBlock={{
        what: 'Inspection, entries and release',
        cells: [
          { label: 'Ready to sign', value: ready.length, figures: true },
          { label: 'In work', value: here.length, figures: true },
          {
            label: 'Date',
            value: viewer.data === undefined ? '' : dayText(new Date(), viewer.data.shop.timeZone),
            figures: true,
          },
          { label: 'Shop', value: viewer.data?.shop.name ?? '', span: 'whole' },
        ],
      }}
    >
      <RecordsNav here="orders" />
      <DeadlinesPressing />
      {problem !== null ? (
        <NoAnswer
          head="No list to show"
          problem={problem}
          onAgain={() => void client.refetchQueries()}
        />
      ) : orders.data === undefined ? (
        <Loading>Fetching the orders</Loading>
      ) : rows.length === 0 ? (
        <Empty>
          No aircraft is here to be inspected; one that is received stands in this list.
        </Empty>
      ) : (
        <PartsList
          caption="To inspect, sign and release"
          columns={[
            { key: 'order', head: 'Order' },
            { key: 'state', head: 'State' },
            { key: 'initialled', head: 'Inspected', kind: 'figure' },
            { key: 'entries', head: 'Entries', kind: 'figure' },
          ]}
          rows={[...ready, ...here, ...released].map(rowOf)}
        />
      )}
    </Sheet>
  );
}

function rowOf(order: Row) {
  const { id, number, title, aircraft, items, findings, entries } = order;
  const assess = findings.filter(({ state }) => state === 'noted');
  const bad = findings.filter(
    (finding) => finding.class === 'unairworthy' && finding.state !== 'corrected',
  );
  const note = [
    ...(assess.length === 0
      ? []
      : [`to assess: finding ${assess.map((finding) => finding.number).join(', ')}`]),
    ...(bad.length === 0
      ? []
      : [`unairworthy and open: finding ${bad.map((finding) => finding.number).join(', ')}`]),
  ].join(' · ');
  return {
    key: `order-${number}`,
    cells: {
      order: (
        <a href={`/records/${id}`}>
          {number} · {aircraft.registration}, {title}
        </a>
      ),
      state: <Hatch {...orderMark(order)} />,
      initialled: `${items.filter(({ state }) => state === 'inspected').length} of ${items.length}`,
      entries: `${entries.filter(({ corrections }) => corrections.length === 0).length}`,
    },
    note,
  };
}
