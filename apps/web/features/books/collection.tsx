'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import type { Channel } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { calendarDateText, dayAndTimeText } from '../../lib/figures/dates.ts';
import { moneyText } from '../../lib/figures/money.ts';
import type { Viewer } from '../../lib/use-viewer.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { AskOnce } from './ask-once.tsx';
import styles from './books.module.css';
import {
  ChargeStorageDocument,
  type OrderWithCharges,
  TellReadyDocument,
} from './charge-documents.ts';

const channels: Record<Channel, string> = {
  telephone: 'by telephone',
  email: 'by e-mail',
  in_person: 'in person',
  owner_page: 'on their page',
};

/** Once an aircraft is ready: who was told, and what storage it has come to, which somebody charges or does not. */
export function Collection({
  order,
  shop,
  billed,
}: {
  order: OrderWithCharges;
  shop: Viewer['shop'];
  billed: boolean;
}) {
  const [telling, setTelling] = useState(false);
  const charging = useDoing(
    async (days: number) =>
      (await request(ChargeStorageDocument, { input: { orderId: order.id, days } })).result,
  );
  if (order.state !== 'released' && order.state !== 'closed') return null;
  const { storage, readyNotices } = order;
  const open = storage === null ? 0 : storage.days - storage.charged;
  return (
    <>
      <h2 className={styles.head}>Collection</h2>
      {readyNotices.map(({ id, told, channel, toldAt }) => (
        <p key={id} className={styles.second}>
          {told} was told that it is ready, {channels[channel]},{' '}
          {dayAndTimeText(toldAt, shop.timeZone)}
        </p>
      ))}
      {storage === null ? null : (
        <p>
          Storage until {calendarDateText(storage.lastOn)}
          {storage.left ? ', when it left' : ''}: {storage.days}{' '}
          {storage.days === 1 ? 'day' : 'days'} after {storage.freeDays} free, {storage.charged}{' '}
          charged.
          {open > 0
            ? ` Not charged: ${open} ${open === 1 ? 'day' : 'days'}, ${moneyText(BigInt(storage.open), shop.currency)} ${shop.currency}.`
            : ''}
        </p>
      )}
      {open > 0 && billed ? (
        <p className={styles.second}>
          The order is billed: to charge it, credit the invoice first and bill the order again.
        </p>
      ) : null}
      {charging.error === null ? null : (
        <ErrorNote head="Not charged">{charging.error.message}</ErrorNote>
      )}
      {telling ? (
        <TellForm order={order} onBack={() => setTelling(false)} />
      ) : (
        <div className={styles.ways} data-screen-only="">
          <Button onClick={() => setTelling(true)}>
            {readyNotices.length === 0 ? 'They were told it is ready' : 'They were told again'}
          </Button>
          {open > 0 && !billed ? (
            <Button
              busy={charging.isPending ? 'Charging' : undefined}
              onClick={() => charging.mutate(open)}
            >
              Charge {open} {open === 1 ? 'day' : 'days'} of storage
            </Button>
          ) : null}
        </div>
      )}
    </>
  );
}

function TellForm({ order, onBack }: { order: OrderWithCharges; onBack: () => void }) {
  const [told, setTold] = useState(order.aircraft.contacts[0]?.contact.name ?? '');
  const [channel, setChannel] = useState<Channel>('telephone');
  const telling = useDoing(
    async () =>
      (await request(TellReadyDocument, { input: { orderId: order.id, told, channel } })).result,
    onBack,
  );
  return (
    <AskOnce
      question={`Somebody was told that ${order.aircraft.registration} is ready to be fetched. Where the shop charges storage, its days are counted from the first time.`}
      yes="They were told"
      busy={telling.isPending ? 'Recording' : undefined}
      onYes={() => telling.mutate(undefined)}
      onNo={onBack}
    >
      <div className={styles.fields}>
        <Field
          label="Who"
          required
          maxLength={120}
          value={told}
          onChange={(event) => setTold(event.currentTarget.value)}
        />
        <Select
          label="How"
          value={channel}
          onChange={(event) => setChannel(event.currentTarget.value as Channel)}
          options={(['telephone', 'email', 'in_person'] as const).map((value) => ({
            value,
            words: channels[value],
          }))}
        />
      </div>
      {telling.error === null ? null : (
        <ErrorNote head="Not recorded">{telling.error.message}</ErrorNote>
      )}
    </AskOnce>
  );
}
