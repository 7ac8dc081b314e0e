'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Field, Select } from '../../components/Field.tsx';
import type { ReservePartInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { clientId } from '../../lib/client-id.ts';
import { useDoing } from '../quoting/use-answer.ts';
import {
  OrdersToKeepForDocument,
  ReleaseReservedDocument,
  ReservePartDocument,
} from './lot-documents.ts';
import { MoveFrame } from './move-frame.tsx';
import { typedQuantity } from './shelves.ts';
import styles from './stores.module.css';
import type { Lot } from './stores-documents.ts';

const wrongQuantity = (typed: string) =>
  `“${typed}” is no quantity: needed is more than 0, with at most 3 decimals.`;

/** Keeps units of a lot for an order that is planned or here. */
export function ReserveForm({
  lot,
  onDone,
  onLeave,
}: {
  lot: Lot;
  onDone: (said: string) => void;
  onLeave: () => void;
}) {
  const [key] = useState(clientId);
  const [orderId, setOrderId] = useState('');
  const [typed, setTyped] = useState('1');
  const orders = useQuery({
    queryKey: ['ordersToKeepFor'],
    queryFn: async () =>
      (await request(OrdersToKeepForDocument)).orders.edges.map(({ node }) => node),
  });
  const { title, unit } = lot.part;
  const quantity = typedQuantity(typed);
  const free = Math.max(0, Number(lot.available));
  const tooMany = quantity !== null && Number(quantity) > free;
  const options = (orders.data ?? []).map(({ id, number, title: what, aircraft }) => ({
    value: id,
    words: `${aircraft.registration}, order ${number}, ${what}`,
  }));
  const reserve = useDoing(
    async (input: ReservePartInput) => (await request(ReservePartDocument, { input })).reservePart,
    () =>
      onDone(
        `${quantity} ${unit} of ${title} kept for ${options.find(({ value }) => value === orderId)?.words ?? 'the order'}.`,
      ),
  );
  return (
    <MoveFrame
      name={`Reserve ${title}, batch ${lot.batch}`}
      says="It stays on the shelf and is kept for that order until it is issued, given free, or the order is over."
      yes="Reserve it"
      ready={quantity !== null && !tooMany && orderId !== ''}
      busy={reserve.isPending ? 'Recording' : undefined}
      problem={reserve.error ?? orders.error}
      onNo={onLeave}
      onYes={() => {
        if (quantity !== null)
          reserve.mutate({ lotId: lot.id, orderId, quantity, clientEventId: key });
      }}
    >
      <div className={styles.fields}>
        <Select
          label="For which order"
          hint={
            orders.data?.length === 0 ? 'No order is planned or here to keep it for' : undefined
          }
          value={orderId}
          onChange={(event) => setOrderId(event.currentTarget.value)}
          options={[{ value: '', words: 'choose the order' }, ...options]}
        />
        <Field
          label="How many"
          figures
          inputMode="decimal"
          autoComplete="off"
          unit={unit}
          hint={`${free} ${unit} are free`}
          wrong={
            quantity === null
              ? wrongQuantity(typed)
              : tooMany
                ? `${quantity} were given: ${free} are free.`
                : undefined
          }
          value={typed}
          onChange={(event) => setTyped(event.currentTarget.value)}
        />
      </div>
    </MoveFrame>
  );
}

/** Gives free what was kept for an order. */
export function ReleaseForm({
  lot,
  kept,
  onDone,
  onLeave,
}: {
  lot: Lot;
  kept: { quantity: string; order: { id: string; number: number } };
  onDone: (said: string) => void;
  onLeave: () => void;
}) {
  const [key] = useState(clientId);
  const [typed, setTyped] = useState(kept.quantity);
  const { title, unit } = lot.part;
  const quantity = typedQuantity(typed);
  const tooMany = quantity !== null && Number(quantity) > Number(kept.quantity);
  const release = useDoing(
    async (input: ReservePartInput) =>
      (await request(ReleaseReservedDocument, { input })).releaseReserved,
    () => onDone(`${quantity} ${unit} of ${title} given free by order ${kept.order.number}.`),
  );
  return (
    <MoveFrame
      name={`Give free ${title} of order ${kept.order.number}`}
      says="It is there for anybody again."
      yes="Give it free"
      ready={quantity !== null && !tooMany}
      busy={release.isPending ? 'Recording' : undefined}
      problem={release.error}
      onNo={onLeave}
      onYes={() => {
        if (quantity !== null)
          release.mutate({
            lotId: lot.id,
            orderId: kept.order.id,
            quantity,
            clientEventId: key,
          });
      }}
    >
      <div className={styles.fields}>
        <Field
          label="How many"
          figures
          inputMode="decimal"
          autoComplete="off"
          unit={unit}
          hint={`${kept.quantity} ${unit} are reserved`}
          wrong={
            quantity === null
              ? wrongQuantity(typed)
              : tooMany
                ? `${quantity} were given: ${kept.quantity} are reserved.`
                : undefined
          }
          value={typed}
          onChange={(event) => setTyped(event.currentTarget.value)}
        />
      </div>
    </MoveFrame>
  );
}
