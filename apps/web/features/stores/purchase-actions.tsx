'use client';

import { useState } from 'react';
import { Button, ButtonLink } from '../../components/Button.tsx';
import { Field, Select } from '../../components/Field.tsx';
import { Figure, Money } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { SheetLink } from '../../components/SheetLink.tsx';
import type { PurchaseChannel } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { paperHref } from '../../lib/paper-href.ts';
import { unitPriceText } from '../quoting/quote-figures.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { lotHref } from './addresses.ts';
import { MoveFrame } from './move-frame.tsx';
import { PastPart, SendAllTheSame } from './past-part.tsx';
import {
  CancelPurchaseDocument,
  type Purchase,
  type PurchaseLine,
  SendPurchaseDocument,
} from './purchase-documents.ts';
import { channelWords, stillToCome } from './purchase-words.ts';
import { ReceiveForm } from './receive-form.tsx';
import styles from './stores.module.css';

type Hand = { does: 'send' | 'cancel' } | { does: 'receive'; line: PurchaseLine };

/** What can be done with a purchase order, one thing at a time, and its lines with what came of each. */
export function PurchaseActions({
  purchase,
  today,
  orders,
  who,
}: {
  purchase: Purchase;
  today: string;
  /** The name under which a reason is kept. */
  who: string;
  /** Whether whoever reads may send and cancel. */
  orders: boolean;
}) {
  const [hand, setHand] = useState<Hand | null>(null);
  const [said, setSaid] = useState('');
  const { id, number, state, supplier, currency } = purchase;
  const open = (next: Hand) => {
    setSaid('');
    setHand(next);
  };
  const ends = {
    onDone: (words: string) => {
      setSaid(words);
      setHand(null);
    },
    onLeave: () => setHand(null),
  };
  const expected = state === 'sent' || state === 'received_in_part';
  return (
    <section className={styles.part} aria-label="The order and its lines">
      {hand?.does === 'send' ? (
        <SendForm purchase={purchase} who={who} {...ends} />
      ) : hand?.does === 'cancel' ? (
        <CancelForm purchase={purchase} {...ends} />
      ) : hand?.does === 'receive' ? (
        <ReceiveForm
          key={hand.line.id}
          ordered={{
            lineId: hand.line.id,
            number,
            part: hand.line.part,
            supplier,
            quantity: stillToCome(hand.line),
            unitCost: hand.line.unitCost,
          }}
          today={today}
          currency={currency}
          {...ends}
        />
      ) : (
        <div className={styles.ways} data-screen-only="">
          {orders && state === 'draft' ? (
            <Button kind="primary" onClick={() => open({ does: 'send' })}>
              Send it
            </Button>
          ) : null}
          <ButtonLink href={paperHref('purchase-order', id)}>Print it</ButtonLink>
          {orders && (state === 'draft' || expected) ? (
            <Button onClick={() => open({ does: 'cancel' })}>Cancel it</Button>
          ) : null}
        </div>
      )}
      {orders ? <PastPart purchase={purchase} /> : null}
      <p role="status" className={said === '' ? 'spoken' : styles.said}>
        {said}
      </p>
      <PartsList
        caption="Lines"
        columns={[
          { key: 'part', head: 'Part' },
          { key: 'quantity', head: 'Ordered', kind: 'figure' },
          { key: 'each', head: `Each, ${currency}`, kind: 'figure' },
          { key: 'net', head: `Net, ${currency}`, kind: 'figure' },
          { key: 'came', head: 'Came', kind: 'figure' },
        ]}
        rows={purchase.lines.map((line) => ({
          key: line.id,
          balloon: line.position,
          cells: {
            part: line.part.title,
            quantity: <Figure text={line.quantity} unit={line.part.unit} />,
            each: unitPriceText(line.unitCost),
            net: <Money minor={BigInt(line.net)} currency={currency} />,
            came: (
              <span className={styles.left}>
                <Figure text={line.received} />
                {expected && stillToCome(line) !== '0' ? (
                  <span data-screen-only="">
                    <Button
                      aria-label={`Receive ${line.part.title}`}
                      onClick={() => open({ does: 'receive', line })}
                    >
                      Receive
                    </Button>
                  </span>
                ) : null}
              </span>
            ),
          },
          note: (
            <>
              {line.part.number}
              {line.item === null ? null : (
                <>
                  {' '}
                  · for{' '}
                  <SheetLink href={`/desk/orders/${encodeURIComponent(line.item.order.id)}`}>
                    {line.item.order.aircraft.registration}, order {line.item.order.number}
                  </SheetLink>
                  , item {line.item.position}: {line.item.title}
                </>
              )}
              {line.lots.map((lot) => (
                <span key={lot.id}>
                  {' '}
                  · <SheetLink href={lotHref(lot.id)}>batch {lot.batch}</SheetLink>
                </span>
              ))}
            </>
          ),
        }))}
        foot={[
          {
            key: 'total',
            cells: {
              part: 'Together, before tax and freight',
              net: <Money minor={BigInt(purchase.total)} currency={currency} />,
            },
          },
        ]}
      />
    </section>
  );
}

interface OfPurchase {
  purchase: Purchase;
  onDone: (said: string) => void;
  onLeave: () => void;
}

function SendForm({ purchase, who, onDone, onLeave }: OfPurchase & { who: string }) {
  const { id, number, supplier, supplierEmail } = purchase;
  const [channel, setChannel] = useState<PurchaseChannel>(
    supplierEmail === '' ? 'telephone' : 'email',
  );
  const ways = (['email', 'telephone', 'other'] as const).filter(
    (way) => way !== 'email' || supplierEmail !== '',
  );
  const [known, setKnown] = useState(false);
  const [reason, setReason] = useState('');
  /** Somebody may have taken the room since the page was read: the shop says so. */
  const [beyond, setBeyond] = useState(purchase.pastAuthority.length > 0);
  const send = useDoing(
    async (way: PurchaseChannel) => {
      const answered = beyond && { despite: ['beyond_authority' as const], reason };
      const answer = (
        await request(SendPurchaseDocument, { input: { orderId: id, channel: way, ...answered } })
      ).sendPurchase;
      if (answer.__typename === 'Refusal' && answer.code === 'BEYOND_AGREED') setBeyond(true);
      return answer;
    },
    () => onDone(`Order ${number} sent to ${supplier} ${channelWords[channel]}.`),
  );
  return (
    <MoveFrame
      name={`Send order ${number} to ${supplier}`}
      says={`${channel === 'email' ? `It is mailed to ${supplierEmail}, with its PDF. ` : ''}From now on its parts are on order, and days promised to owners count on the day that it is expected.`}
      yes={channel === 'email' ? 'Mail it' : 'It is sent'}
      ready={!beyond || (known && reason.trim().length >= 3)}
      busy={send.isPending ? 'Recording' : undefined}
      problem={send.error}
      onNo={onLeave}
      onYes={() => send.mutate(channel)}
    >
      <div className={styles.fields}>
        <Select
          label="How it goes"
          options={ways.map((value) => ({ value, words: channelWords[value] }))}
          value={channel}
          onChange={(event) =>
            setChannel(ways.find((way) => way === event.currentTarget.value) ?? 'other')
          }
        />
      </div>
      {beyond ? (
        <SendAllTheSame
          known={known}
          reason={reason}
          who={who}
          onKnown={setKnown}
          onReason={setReason}
        />
      ) : null}
    </MoveFrame>
  );
}

function CancelForm({ purchase, onDone, onLeave }: OfPurchase) {
  const { id, number } = purchase;
  const [reason, setReason] = useState('');
  const cancel = useDoing(
    async (why: string) =>
      (await request(CancelPurchaseDocument, { input: { orderId: id, reason: why } }))
        .cancelPurchase,
    () => onDone(`Order ${number} cancelled.`),
  );
  return (
    <MoveFrame
      name={`Cancel order ${number}`}
      says="Nothing more is expected of it. What came stays, and its number is not given again."
      yes="Cancel it"
      ready={reason.trim().length >= 3}
      busy={cancel.isPending ? 'Recording' : undefined}
      problem={cancel.error}
      onNo={onLeave}
      onYes={() => cancel.mutate(reason)}
    >
      <div className={styles.fields}>
        <Field
          label="Why"
          maxLength={300}
          value={reason}
          onChange={(event) => setReason(event.currentTarget.value)}
        />
      </div>
    </MoveFrame>
  );
}
