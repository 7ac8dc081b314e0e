'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import Link from 'next/link';
import { ButtonLink } from '../../components/Button.tsx';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Hatch } from '../../components/Hatch.tsx';
import { NoAnswer } from '../../components/NoAnswer.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { aircraftSize, Silhouette } from '../../components/Silhouette.tsx';
import { request } from '../../graphql/request.ts';
import { dayText } from '../../lib/figures/dates.ts';
import { paperHref } from '../../lib/paper-href.ts';
import { useViewer, type Viewer } from '../../lib/use-viewer.ts';
import { Deposits } from '../books/deposits.tsx';
import { OrderCharges } from '../books/order-charges.tsx';
import { Payers } from '../books/payers.tsx';
import { OrderPromise } from '../hangar/order-promise.tsx';
import { OwnerLinks } from '../owner/owner-links.tsx';
import { OrderStores } from '../stores/order-stores.tsx';
import { OutsidePart } from '../stores/outside/outside-part.tsx';
import { Arrival } from './arrival.tsx';
import { ArrivalForm } from './arrival-form.tsx';
import { BeyondPart } from './beyond-part.tsx';
import { FindingPart } from './finding-part.tsx';
import { OrderAccount } from './order-account.tsx';
import { type OrderData, OrderSheetDocument } from './order-documents.ts';
import { OrderItems } from './order-items.tsx';
import styles from './order-sheet.module.css';
import { orderMark } from './order-words.ts';
import { OurCost } from './our-cost.tsx';
import { zoneFrom } from './places.ts';

/** The sheet of one order, as the desk works with it. */
export function OrderSheet({ id }: { id: string }) {
  const viewer = useViewer();
  const client = useQueryClient();
  const order = useQuery({
    queryKey: ['order', id],
    queryFn: async () => (await request(OrderSheetDocument, { id })).node,
  });
  const problem = viewer.error ?? order.error;
  if (viewer.data !== undefined && order.data?.__typename === 'WorkOrder') {
    return <Drawn viewer={viewer.data} order={order.data} />;
  }
  return (
    <Sheet
      here="desk"
      viewer={viewer.data?.person ?? null}
      title="Order"
      titleBlock={{ what: 'Order', cells: [] }}
    >
      {problem !== null ? (
        <NoAnswer
          head="No order to show"
          problem={problem}
          onAgain={() => void client.refetchQueries()}
          action={<Link href="/desk">All orders</Link>}
        />
      ) : order.data === undefined ? (
        <Loading>Fetching the order</Loading>
      ) : (
        <ErrorNote head="No order to show" action={<Link href="/desk">All orders</Link>}>
          There is no such order in this shop.
        </ErrorNote>
      )}
    </Sheet>
  );
}

/** Whose money a deposit may be: whoever pays for the aircraft first. */
function payersOf({ aircraft }: OrderData) {
  const first = aircraft.contacts.toSorted(
    (one, other) => Number(other.capacity === 'payer') - Number(one.capacity === 'payer'),
  );
  return [...new Map(first.map(({ contact }) => [contact.id, contact.name]))].map(
    ([value, words]) => ({ value, words }),
  );
}

function Drawn({ viewer, order }: { viewer: Viewer; order: OrderData }) {
  const { timeZone, currency } = viewer.shop;
  const { aircraft, findings } = order;
  const { roles } = viewer.person;
  const arrived = order.events.find(({ kind }) => kind === 'arrived');
  return (
    <Sheet
      here="desk"
      viewer={viewer.person}
      title={`Order ${order.number}`}
      titleBlock={{
        what: order.title,
        cells: [
          { label: 'Aircraft', value: aircraft.registration, figures: true },
          { label: 'Number', value: order.number, figures: true },
          { label: 'Opened', value: dayText(order.openedAt, timeZone), figures: true },
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
          {aircraft.registration}, {order.title}
        </p>
        <Hatch {...orderMark(order)} />
        <a href={`/records/aircraft/${aircraft.id}`} data-screen-only="">
          What falls due on {aircraft.registration}, and whose it is
        </a>
      </div>
      <div className={styles.columns}>
        <div className={styles.stack}>
          <OrderAccount order={order} currency={currency} />
          <BeyondPart
            order={order}
            currency={currency}
            timeZone={timeZone}
            manages={roles.includes('manager')}
          />
          <Deposits
            orderId={order.id}
            payers={payersOf(order)}
            over={order.state === 'closed' || order.state === 'cancelled'}
            shop={viewer.shop}
          />
          <Payers orderId={order.id} over={order.state === 'cancelled'} currency={currency} />
          {roles.includes('front_desk') || roles.includes('manager') ? (
            <OrderCharges orderId={order.id} shop={viewer.shop} />
          ) : null}
          {arrived === undefined ? null : <Arrival order={order} timeZone={timeZone} />}
        </div>
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
      <OrderPromise
        promise={order.promise}
        atArrival={order.promisedAtArrival}
        items={order.items}
        timeZone={timeZone}
      />
      {order.state === 'planned' ? <ArrivalForm order={order} /> : null}
      <section className={styles.part}>
        <h2>Findings</h2>
        {findings.length === 0 ? (
          <p className={styles.quiet}>Nothing has been found so far.</p>
        ) : (
          findings.map((finding) => (
            <FindingPart key={finding.id} finding={finding} viewer={viewer} />
          ))
        )}
      </section>
      <section className={styles.part}>
        <OrderItems
          items={order.items}
          mayPutOff={
            ['planned', 'here', 'ready_to_sign'].includes(order.state) &&
            roles.some((role) => role !== 'mechanic')
          }
        />
        {roles.some((role) => role !== 'mechanic') && order.state !== 'cancelled' ? (
          <OurCost
            order={order}
            mayAdd={['planned', 'here', 'ready_to_sign'].includes(order.state)}
          />
        ) : null}
        <p data-screen-only="">
          <ButtonLink href={paperHref('job-card', order.id)}>Job cards, PDF</ButtonLink>
        </p>
      </section>
      <OutsidePart
        className={styles.part}
        orderId={order.id}
        open={order.state === 'here' || order.state === 'ready_to_sign'}
        shop={viewer.shop}
        roles={roles}
      />
      <OrderStores orderId={order.id} currency={currency} />
      {roles.includes('front_desk') || roles.includes('manager') ? (
        <OwnerLinks
          reaches={{ orderId: order.id }}
          contacts={aircraft.contacts}
          shop={viewer.shop}
        />
      ) : null}
    </Sheet>
  );
}
