'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, LongField, Select } from '../../components/Field.tsx';
import type { Meter, ReceiveAircraftInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { hundredthsFrom, metersOf, meterWords, readingText } from './meters.ts';
import { type OrderData, ReceiveAircraftDocument, StandsDocument } from './order-documents.ts';
import styles from './order-sheet.module.css';
import { useDoing } from './use-answer.ts';

interface Squawk {
  words: string;
  reportedBy: string;
}

/** The aircraft is here: its meters, what is reported, what came with it, and where it stands. */
export function ArrivalForm({ order }: { order: OrderData }) {
  const owner = order.aircraft.contacts[0]?.contact.name ?? '';
  const [readings, setReadings] = useState<Partial<Record<Meter, string>>>({});
  const [squawks, setSquawks] = useState<Squawk[]>([{ words: '', reportedBy: owner }]);
  const [received, setReceived] = useState('');
  const [standId, setStandId] = useState('');
  const stands = useQuery({
    queryKey: ['stands'],
    queryFn: async () => (await request(StandsDocument)).floor,
  });
  const receive = useDoing(
    async (input: ReceiveAircraftInput) =>
      (await request(ReceiveAircraftDocument, { input })).receiveAircraft,
  );
  const meters = metersOf(order.aircraft.readings);
  const read = meters.map((meter) => {
    const text = readings[meter] ?? '';
    return { meter, text, hundredths: hundredthsFrom(text) };
  });
  const ready = read.every(({ text, hundredths }) => text.trim() === '' || hundredths !== null);
  const free = stands.data?.__typename === 'Floor' ? stands.data.stands : [];

  function send() {
    receive.mutate({
      orderId: order.id,
      readings: read.flatMap(({ meter, hundredths }) =>
        hundredths === null ? [] : [{ meter, readingHundredths: hundredths }],
      ),
      squawks: squawks.filter(({ words }) => words.trim() !== ''),
      received: received.split('\n').flatMap((line) => (line.trim() === '' ? [] : [line.trim()])),
      ...(standId === '' ? {} : { standId }),
    });
  }

  return (
    <section className={styles.part} data-screen-only="" aria-label="Receive the aircraft">
      <h2>Receive {order.aircraft.registration}</h2>
      <div className={styles.pair}>
        {read.map(({ meter, text, hundredths }) => (
          <Field
            key={meter}
            label={meterWords[meter]}
            figures
            unit="h"
            inputMode="decimal"
            hint={lastRead(order, meter)}
            wrong={
              text.trim() === '' || hundredths !== null
                ? undefined
                : 'Needed are hours with at most two decimals, such as 3286.40'
            }
            value={text}
            onChange={(event) => setReadings({ ...readings, [meter]: event.currentTarget.value })}
          />
        ))}
        <Select
          label="Stand"
          value={standId}
          onChange={(event) => setStandId(event.currentTarget.value)}
          options={[
            { value: '', words: 'on none, outside' },
            ...free.map(({ id, name, stay }) => ({
              value: id,
              words: stay === null ? name : `${name}, taken by ${stay.aircraft.registration}`,
            })),
          ]}
        />
      </div>
      {squawks.map((squawk, index) => {
        const change = (part: Partial<Squawk>) =>
          setSquawks(squawks.map((each, at) => (at === index ? { ...each, ...part } : each)));
        return (
          <div className={styles.squawk} key={index}>
            <LongField
              label={`Squawk ${index + 1}`}
              hint={index === 0 ? 'What is reported, in their own words' : undefined}
              rows={2}
              maxLength={4000}
              value={squawk.words}
              onChange={(event) => change({ words: event.currentTarget.value })}
            />
            <Field
              label="Reported by"
              maxLength={120}
              value={squawk.reportedBy}
              onChange={(event) => change({ reportedBy: event.currentTarget.value })}
            />
          </div>
        );
      })}
      <div>
        <Button onClick={() => setSquawks([...squawks, { words: '', reportedBy: owner }])}>
          Another squawk
        </Button>
      </div>
      <LongField
        label="What came with it"
        hint="Keys, record books, equipment, fuel on board: one thing a line"
        rows={4}
        value={received}
        onChange={(event) => setReceived(event.currentTarget.value)}
      />
      {receive.error === null ? null : (
        <ErrorNote head="Not received">{receive.error.message}</ErrorNote>
      )}
      <div>
        <Button
          kind="primary"
          disabled={!ready}
          busy={receive.isPending ? 'Receiving' : undefined}
          onClick={send}
        >
          Receive the aircraft
        </Button>
      </div>
    </section>
  );
}

function lastRead({ aircraft }: OrderData, meter: Meter): string {
  const last = aircraft.readings.find((reading) => reading.meter === meter);
  return last === undefined
    ? 'Never read here'
    : `Last read ${readingText(last.readingHundredths)} h`;
}
