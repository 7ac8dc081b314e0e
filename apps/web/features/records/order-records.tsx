'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Hatch } from '../../components/Hatch.tsx';
import { More } from '../../components/More.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { aircraftSize, Silhouette } from '../../components/Silhouette.tsx';
import { request } from '../../graphql/request.ts';
import { dayText } from '../../lib/figures/dates.ts';
import { useViewer, type Viewer } from '../../lib/use-viewer.ts';
import { FindingPart } from '../quoting/finding-part.tsx';
import { orderMark } from '../quoting/order-words.ts';
import { zoneFrom } from '../quoting/places.ts';
import { OrderCare } from '../safety/order-care.tsx';
import { BooksPart } from './books-part.tsx';
import { FlightCheckPart } from './flight-check-part.tsx';
import { HandBackPart } from './hand-back-part.tsx';
import { ItemsPart } from './items-part.tsx';
import styles from './records.module.css';
import { type OrderToSign, OrderToSignDocument, type Signing } from './records-documents.ts';
import { outcomeWords } from './records-words.ts';
import { ReleasePart } from './release-part.tsx';
import { stillOpen } from './still-open.ts';
import { StillOpenList } from './still-open-list.tsx';

/** The sheet of one order, as the inspector works with it: items, findings, entries, release. */
export function OrderRecords({ id }: { id: string }) {
  const viewer = useViewer();
  const client = useQueryClient();
  const order = useQuery({
    queryKey: ['orderToSign', id],
    queryFn: () => request(OrderToSignDocument, { id }),
  });
  const problem = viewer.error ?? order.error;
  const { node, signing } = order.data ?? {};
  if (
    viewer.data !== undefined &&
    node?.__typename === 'WorkOrder' &&
    signing?.__typename === 'Signing'
  ) {
    return <Drawn viewer={viewer.data} order={node} signing={signing} />;
  }
  return (
    <Sheet
      here="records"
      viewer={viewer.data?.person ?? null}
      title="Order to sign"
      titleBlock={{ what: 'Order to sign', cells: [] }}
    >
      {problem !== null ? (
        <NoAnswer
          head="No order to show"
          problem={problem}
          onAgain={() => void client.refetchQueries()}
          action={<a href="/records">All orders</a>}
        />
      ) : order.data === undefined ? (
        <Loading>Fetching the order</Loading>
      ) : (
        <ErrorNote head="No order to show" action={<a href="/records">All orders</a>}>
          {signing?.__typename === 'Refusal'
            ? signing.message
            : 'There is no such order in this shop.'}
        </ErrorNote>
      )}
    </Sheet>
  );
}

function Drawn({
  viewer,
  order,
  signing,
}: {
  viewer: Viewer;
  order: OrderToSign;
  signing: Signing;
}) {
  const { aircraft, findings } = order;
  const { timeZone } = viewer.shop;
  const arrived = order.events.find(({ kind }) => kind === 'arrived');
  const gone = order.state === 'released' || order.state === 'closed';
  const inspector = viewer.person.roles.includes('inspector');
  const corrected = findings.filter(({ state }) => state === 'corrected');
  const open = findings.filter(({ state }) => state !== 'corrected');
  const part = (finding: OrderToSign['findings'][number]) => (
    <FindingPart key={finding.id} finding={finding} viewer={viewer} />
  );
  return (
    <Sheet
      here="records"
      viewer={viewer.person}
      title={`${aircraft.registration}, ${order.title}`}
      titleBlock={{
        what: `Inspection and entries, order ${order.number}`,
        cells: [
          { label: 'Aircraft', value: aircraft.registration, figures: true },
          { label: 'Serial', value: aircraft.serial, figures: true },
          { label: 'Order', value: order.number, figures: true },
          { label: 'Type', value: `${aircraft.model.maker} ${aircraft.model.name}`, span: 'half' },
          {
            label: 'Arrived',
            value: arrived === undefined ? 'not yet' : dayText(arrived.at, timeZone),
            figures: true,
            span: 'half',
          },
        ],
      }}
    >
      <div className={styles.head}>
        <p className={styles.what}>
          Order {order.number}
          {order.outcome == null ? '' : `, released ${outcomeWords[order.outcome]}`}
        </p>
        <Hatch {...orderMark(order)} />
        <a href={`/records/aircraft/${aircraft.id}`} data-screen-only="">
          All records of {aircraft.registration}
        </a>
      </div>
      <div className={styles.top}>
        {gone ? null : <StillOpenList rows={stillOpen(order, signing.books)} />}
        <Silhouette
          kind={aircraft.model.kind}
          size={aircraftSize(aircraft.model)}
          balloons={findings.map(({ number, zone, title }) => ({
            number,
            zone: zoneFrom(zone),
            href: `#finding-${number}`,
            label: title,
          }))}
          label={`Side view of ${aircraft.registration}${findings.map(({ number, title }) => `. ${number}: ${title}`).join('')}`}
          caption={`${aircraft.registration} · ${aircraft.model.maker} ${aircraft.model.name}`}
        />
      </div>
      <ItemsPart
        order={order}
        inspector={inspector}
        personId={viewer.person.id}
        timeZone={timeZone}
      />
      <section className={styles.part} aria-labelledby="findings">
        <h2 id="findings">Findings</h2>
        {findings.length === 0 ? (
          <p className={styles.quiet}>Nothing was found.</p>
        ) : (
          open.map(part)
        )}
        {corrected.length === 0 ? null : (
          <More words={`${corrected.length} corrected`}>
            <div className={styles.corrected}>{corrected.map(part)}</div>
          </More>
        )}
      </section>
      <div className={styles.part}>
        <OrderCare orderId={order.id} roles={viewer.person.roles} timeZone={timeZone} />
      </div>
      <BooksPart order={order} signing={signing} inspector={inspector} timeZone={timeZone} />
      <FlightCheckPart
        orderId={order.id}
        timeZone={timeZone}
        asks={inspector || viewer.person.roles.includes('manager')}
        answersFlown={viewer.person.roles.some((role) => role !== 'mechanic')}
      />
      {gone ? (
        <HandBackPart order={order} shop={viewer.shop} roles={viewer.person.roles} />
      ) : (
        <ReleasePart order={order} signing={signing} inspector={inspector} />
      )}
    </Sheet>
  );
}
