'use client';

import type { Sighting } from '@fairlead/diagnosis';
import { type FormEvent, Suspense, useRef, useState } from 'react';
import { AfterPaint } from '../../components/AfterPaint.tsx';
import { Button } from '../../components/Button.tsx';
import { Choices } from '../../components/Choice.tsx';
import { Empty, Loading } from '../../components/Empty.tsx';
import { Field, Select } from '../../components/Field.tsx';
import type { Zone } from '../../components/Silhouette.tsx';
import { clientId } from '../../lib/client-id.ts';
import { flies } from '../diagnosis/flies.ts';
import { WhatSeen } from '../diagnosis/late-diagnosis.tsx';
import { BenchFrame } from './BenchFrame.tsx';
import styles from './bench.module.css';
import type { BenchItem } from './bench-documents.ts';
import { type FoundClass, findingClasses } from './form-words.ts';
import { outbox } from './outbox.ts';
import type { Pending } from './outbox-store.ts';
import { PhotoPicker } from './PhotoPicker.tsx';
import { SpokenField } from './SpokenField.tsx';
import { type Bench, useBench } from './use-bench.ts';
import { goTo, ViewLink } from './view.tsx';
import { ZonePicker } from './ZonePicker.tsx';

/** Notes a finding without walking to the office: a photo, a line, where, and how bad it looks. */
export function FoundSheet({ itemId }: { itemId: string | null }) {
  const bench = useBench();
  return (
    <BenchFrame bench={bench} title="Found something" what="Finding, as noted">
      {({ personId }) => {
        const orders = ordersOf(bench);
        const item =
          bench.items.find(({ id }) => id === itemId) ??
          (bench.runningItem?.id === itemId ? bench.runningItem : null);
        return orders.length === 0 && item === null ? (
          <Empty draws="sheet" action={<ViewLink view={{ kind: 'list' }}>To the bench</ViewLink>}>
            No aircraft is here to find something on.
          </Empty>
        ) : (
          <Form item={item} orders={orders} personId={personId} />
        );
      }}
    </BenchFrame>
  );
}

type Order = BenchItem['order'];

function ordersOf(bench: Bench): Order[] {
  return [...new Map(bench.items.map(({ order }) => [order.id, order])).values()];
}

function Form({
  item,
  orders,
  personId,
}: {
  item: BenchItem | null;
  orders: Order[];
  personId: string;
}) {
  const [orderId, setOrderId] = useState(item?.order.id ?? orders[0]?.id ?? '');
  const [photos, setPhotos] = useState<File[]>([]);
  const [title, setTitle] = useState('');
  const [words, setWords] = useState('');
  const [zone, setZone] = useState<Zone | ''>('');
  const [sighting, setSighting] = useState<Sighting | null>(null);
  const [saying, setSaying] = useState(false);
  const [looks, setLooks] = useState<FoundClass>('discrepancy');
  const [wrong, setWrong] = useState<string>();
  const line = useRef<HTMLInputElement>(null);
  const [busy, setBusy] = useState(false);
  const order = item?.order.id === orderId ? item.order : orders.find(({ id }) => id === orderId);

  const send = async (event: FormEvent) => {
    event.preventDefault();
    const short = title.trim().length < 3;
    setWrong(short ? 'Say in a line what it is.' : undefined);
    if (short) line.current?.focus();
    if (short || busy) return;
    setBusy(true);
    const id = clientId();
    const now = new Date();
    const finding: Pending = {
      kind: 'finding',
      id,
      personId,
      madeAt: now.getTime(),
      words: `Finding: ${title.trim()}`,
      input: {
        orderId,
        itemId: item?.order.id === orderId ? item.id : null,
        title,
        words,
        zone,
        class: looks,
        ...(sighting && { sighting: asSent(sighting) }),
        foundAt: now.toISOString(),
        clientEventId: id,
      },
    };
    const pictures = photos.map(
      (photo, index): Pending => ({
        kind: 'photo',
        id: clientId(),
        personId,
        // After the finding, and in the order in which they were taken.
        madeAt: now.getTime() + index + 1,
        words: `Photo${photos.length === 1 ? '' : ` ${index + 1} of ${photos.length}`}: ${title.trim()}`,
        finding: id,
        photo,
      }),
    );
    await outbox.add(finding, ...pictures);
    goTo({ kind: 'list' });
  };
  return (
    <form className={styles.sections} onSubmit={(event) => void send(event)} noValidate>
      <p>
        <ViewLink view={{ kind: 'list' }}>Bench</ViewLink> /{' '}
        {item
          ? `${item.order.aircraft.registration}, while at: ${item.title}`
          : 'not while at an item'}
      </p>
      {item ? null : (
        <Select
          label="On which aircraft"
          options={orders.map(({ id, aircraft, title: visit }) => ({
            value: id,
            words: `${aircraft.registration}: ${visit}`,
          }))}
          value={orderId}
          onChange={(event) => {
            setOrderId(event.currentTarget.value);
            setZone('');
          }}
        />
      )}
      <PhotoPicker photos={photos} onPhotos={setPhotos} />
      <Field
        label="What it is"
        ref={line}
        hint="In a line: grey streak on the shroud."
        maxLength={200}
        wrong={wrong}
        value={title}
        onChange={(event) => setTitle(event.currentTarget.value)}
      />
      <AfterPaint>
        <SpokenField
          label="More of it"
          rows={3}
          maxLength={4000}
          value={words}
          onWords={setWords}
        />
        {order ? (
          <ZonePicker model={order.aircraft.model} number={1} zone={zone} onZone={setZone} />
        ) : null}
        {saying && order ? (
          <section className={styles.form} aria-labelledby="what-seen">
            <h2 id="what-seen">What do you see?</h2>
            <Suspense fallback={<Loading>Fetching the questions</Loading>}>
              <WhatSeen
                aircraft={flies(order.aircraft.model.kind)}
                sighting={sighting}
                onSighting={setSighting}
              />
            </Suspense>
          </section>
        ) : (
          <Button size="bench" onClick={() => setSaying(true)}>
            Say what you see: what it may be
          </Button>
        )}
        <Choices
          legend="How it looks to you"
          name="class"
          options={findingClasses}
          value={looks}
          onChoose={(value) => setLooks(value as FoundClass)}
        />
        <p className={styles.second}>
          A qualified person confirms the class before the owner sees it. If it must not fly, say so
          to them now.
        </p>
        <Button type="submit" kind="primary" size="bench" busy={busy ? 'Noting it' : undefined}>
          Note it
        </Button>
      </AfterPaint>
    </form>
  );
}

/** Answers as the server takes them, with the finding. */
const asSent = ({ symptom, seen }: Sighting) => ({
  symptom,
  answers: Object.entries(seen).map(([question, answer]) => ({ question, answer })),
});
