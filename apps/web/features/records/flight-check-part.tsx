'use client';

import { useQuery } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, LongField, Select } from '../../components/Field.tsx';
import { More } from '../../components/More.tsx';
import type { FlightCheckKind, FlightChecksQuery } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { calendarDateText, dayAndTimeText } from '../../lib/figures/dates.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { FlightChecksDocument, NoteFlightCheckDocument } from './flight-check-documents.ts';
import styles from './records.module.css';

type Check = Extract<
  FlightChecksQuery['node'],
  { __typename: 'WorkOrder' }
>['flightChecks'][number];

const answers: { value: FlightCheckKind; words: string }[] = [
  { value: 'flown', words: 'It was flown and logged' },
  { value: 'ground_tests', words: 'Ground tests show that it need not be flown, 91.407(c)' },
  { value: 'withdrawn', words: 'It was asked for in error' },
];

/** The flight that 14 CFR 91.407(b) asks for before anybody is carried, and what became of it. */
export function FlightCheckPart({
  orderId,
  timeZone,
  asks,
  answersFlown,
}: {
  orderId: string;
  timeZone: string;
  /** Whether the reader may ask for it, or say that it need not be. */
  asks: boolean;
  answersFlown: boolean;
}) {
  const asked = useQuery({
    queryKey: ['flightChecks', orderId],
    queryFn: async () => (await request(FlightChecksDocument, { id: orderId })).node,
  });
  if (asked.error) return <ErrorNote head="Not fetched">{asked.error.message}</ErrorNote>;
  const checks = asked.data?.__typename === 'WorkOrder' ? asked.data.flightChecks : null;
  if (checks === null || (checks.length === 0 && !asks)) return null;
  const open = checks[0]?.kind === 'asked';
  const form =
    open && answersFlown ? (
      <CheckForm
        orderId={orderId}
        kinds={asks ? answers : answers.slice(0, 1)}
        label="What became of the flight"
      />
    ) : !open && asks ? (
      <More words="The work may have changed how it flies: ask for a flight">
        <p className={styles.quiet}>
          Where work may have appreciably changed its flight characteristics or its operation in
          flight, nobody but the crew is carried until an appropriately rated pilot, with at least a
          private certificate, has flown it, checked the work and logged the flight (14 CFR
          91.407(b)). Whether it did is for a person to say, and local rules may ask for more.
        </p>
        <CheckForm
          orderId={orderId}
          kinds={[{ value: 'asked', words: 'To be flown first' }]}
          label="A flight before anybody is carried"
        />
      </More>
    ) : null;
  return (
    <section className={styles.part} aria-labelledby="flight-check">
      <h2 id="flight-check">Flight after the work</h2>
      {open ? (
        <p className={styles.caution}>
          To be flown before anybody but its crew is carried: {checks[0]?.words}
        </p>
      ) : null}
      {checks.map((check) => (
        <p key={check.id} className={styles.quiet}>
          {checkWords(check)} {check.by.name}, {dayAndTimeText(check.at, timeZone)}.
        </p>
      ))}
      {form}
    </section>
  );
}

function checkWords({ kind, words, pilotName, pilotCertificate, flownOn }: Check): string {
  const said = words.replace(/\.$/, '');
  if (kind === 'flown')
    return `Flown on ${flownOn == null ? '' : calendarDateText(flownOn)} by ${pilotName}, ${pilotCertificate}: ${said}.`;
  if (kind === 'ground_tests') return `Need not be flown: ${said}.`;
  return kind === 'withdrawn' ? `No longer asked for: ${said}.` : `Asked for: ${said}.`;
}

function CheckForm({
  orderId,
  kinds,
  label,
}: {
  orderId: string;
  kinds: readonly { value: FlightCheckKind; words: string }[];
  label: string;
}) {
  const [kind, setKind] = useState<FlightCheckKind>(kinds[0]?.value ?? 'asked');
  const [given, setGiven] = useState({
    words: '',
    pilotName: '',
    pilotCertificate: '',
    flownOn: '',
  });
  const field = (name: keyof typeof given) => ({
    value: given[name],
    onChange: (event: { currentTarget: { value: string } }) => {
      const { value } = event.currentTarget;
      setGiven((before) => ({ ...before, [name]: value }));
    },
  });
  const noting = useDoing(
    async () =>
      (
        await request(NoteFlightCheckDocument, {
          input: {
            orderId,
            kind,
            words: given.words,
            ...(kind === 'flown' && {
              pilotName: given.pilotName,
              pilotCertificate: given.pilotCertificate,
              flownOn: given.flownOn === '' ? null : given.flownOn,
            }),
          },
        })
      ).answer,
  );
  const submit = (event: FormEvent) => {
    event.preventDefault();
    noting.mutate(undefined);
  };
  return (
    <form className={styles.part} onSubmit={submit} noValidate aria-label={label}>
      {kinds.length > 1 ? (
        <Select
          label="What became of it"
          options={kinds}
          value={kind}
          onChange={(event) => setKind(event.currentTarget.value as FlightCheckKind)}
        />
      ) : null}
      {kind === 'flown' ? (
        <>
          <Field label="Flown by" maxLength={120} {...field('pilotName')} />
          <Field
            label="Their certificate and its number"
            maxLength={120}
            {...field('pilotCertificate')}
          />
          <Field label="On" type="date" {...field('flownOn')} />
        </>
      ) : null}
      <LongField
        label={kind === 'asked' ? 'What was done that may have changed it' : 'What it showed'}
        rows={2}
        maxLength={500}
        {...field('words')}
      />
      {noting.error ? <ErrorNote head="Not noted">{noting.error.message}</ErrorNote> : null}
      <div>
        <Button type="submit" busy={noting.isPending ? 'Noting' : undefined}>
          Note it
        </Button>
      </div>
    </form>
  );
}
