'use client';

import { type FormEvent, useEffect, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import { calendarDateText } from '../../lib/figures/dates.ts';
import styles from './people.module.css';
import { certificateWords, listed } from './people-words.ts';
import type { CertificateOnSheet, PersonOnSheet } from './shop-documents.ts';
import { AddCertificateDocument, EndCertificateDocument } from './shop-mutations.ts';
import { useSetting } from './use-setting.ts';

type Kind = CertificateOnSheet['certificate']['kind'];

/** What somebody holds and held; a renewed one is a new line. */
export function CertificatesPart({ each, today }: { each: PersonOnSheet; today: string }) {
  const [ending, setEnding] = useState<string | null>(null);
  const { person, certificates } = each;
  return (
    <div className={styles.certificates}>
      <h4>Certificates</h4>
      <ul>
        {certificates.map((held) => {
          const { id, kind, number, validFrom, validUntil } = held.certificate;
          const over = validUntil !== null && validUntil < today;
          return (
            <li key={id} data-over={over ? '' : undefined}>
              <span>
                {certificateWords[kind]} <span className={styles.number}>{number}</span>, from{' '}
                {calendarDateText(validFrom)}
                {validUntil === null ? '' : ` to ${calendarDateText(validUntil)}`}
              </span>
              {over ? null : (
                <Button
                  kind="plain"
                  aria-expanded={ending === id}
                  aria-label={`End ${certificateWords[kind]} of ${person.name}`}
                  onClick={() => setEnding(ending === id ? null : id)}
                >
                  End it
                </Button>
              )}
              {ending === id ? (
                <EndForm
                  held={held}
                  name={person.name}
                  today={today}
                  onDone={() => setEnding(null)}
                />
              ) : null}
            </li>
          );
        })}
      </ul>
      <AddForm personId={person.id} name={person.name} today={today} />
    </div>
  );
}

function EndForm({
  held: { certificate, restsOnIt },
  name,
  today,
  onDone,
}: {
  held: CertificateOnSheet;
  name: string;
  today: string;
  onDone: () => void;
}) {
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => form.current?.querySelector('input')?.focus(), []);
  const [lastDay, setLastDay] = useState(today);
  const ending = useSetting(async () => {
    const input = { certificateId: certificate.id, lastDay };
    return (await request(EndCertificateDocument, { input })).endCertificate;
  }, onDone);
  function submit(event: FormEvent) {
    event.preventDefault();
    ending.go(undefined);
  }
  return (
    <form
      ref={form}
      className={styles.ask}
      onSubmit={submit}
      onKeyDown={(event) => {
        if (event.key === 'Escape' && !ending.busy) onDone();
      }}
      aria-label={`End ${certificateWords[certificate.kind]}`}
    >
      <p className={styles.consequence}>
        {restsOnIt.length === 0
          ? `Nothing that ${name} may sign today rests on it alone.`
          : `From the day after, ${name} can no longer sign for: ${listed(restsOnIt)}.`}
      </p>
      <Field
        label="Last day"
        type="date"
        required
        value={lastDay}
        hint="It still counts on that day. It cannot be set later again: one that goes on is a new certificate."
        wrong={ending.about('lastDay')}
        onChange={(event) => setLastDay(event.currentTarget.value)}
      />
      {ending.sentence === undefined ? null : (
        <ErrorNote head="Not ended">{ending.sentence}</ErrorNote>
      )}
      <div className={styles.ways}>
        <Button type="submit" busy={ending.busy ? 'Ending' : undefined}>
          End it on that day
        </Button>
        <Button disabled={ending.busy} onClick={onDone}>
          Not now
        </Button>
      </div>
    </form>
  );
}

function AddForm({ personId, name, today }: { personId: string; name: string; today: string }) {
  const empty = { kind: 'mechanic_airframe' as Kind, number: '', validFrom: today, validUntil: '' };
  const [open, setOpen] = useState(false);
  const [typed, setTyped] = useState(empty);
  const adding = useSetting(
    async () => {
      const input = { ...typed, personId, validUntil: typed.validUntil || null };
      return (await request(AddCertificateDocument, { input })).addCertificate;
    },
    () => {
      setTyped(empty);
      setOpen(false);
    },
  );
  if (!open)
    return (
      <div>
        <Button onClick={() => setOpen(true)}>Add a certificate</Button>
      </div>
    );
  function submit(event: FormEvent) {
    event.preventDefault();
    adding.go(undefined);
  }
  return (
    <form
      className={styles.ask}
      onSubmit={submit}
      onKeyDown={(event) => {
        if (event.key === 'Escape' && !adding.busy) setOpen(false);
      }}
      aria-label={`Add a certificate of ${name}`}
    >
      <div className={styles.fields}>
        <Select
          label="Kind"
          value={typed.kind}
          onChange={(event) => setTyped({ ...typed, kind: event.currentTarget.value as Kind })}
          options={Object.entries(certificateWords).map(([value, words]) => ({ value, words }))}
        />
        <Field
          label="Number"
          required
          maxLength={60}
          value={typed.number}
          wrong={adding.about('number')}
          onChange={(event) => setTyped({ ...typed, number: event.currentTarget.value })}
        />
        <Field
          label="First day"
          type="date"
          required
          value={typed.validFrom}
          wrong={adding.about('validFrom')}
          onChange={(event) => setTyped({ ...typed, validFrom: event.currentTarget.value })}
        />
        <Field
          label="Last day"
          type="date"
          hint="Empty where it does not lapse."
          value={typed.validUntil}
          wrong={adding.about('validUntil')}
          onChange={(event) => setTyped({ ...typed, validUntil: event.currentTarget.value })}
        />
      </div>
      {adding.sentence === undefined ? null : (
        <ErrorNote head="Not added">{adding.sentence}</ErrorNote>
      )}
      <div className={styles.ways}>
        <Button type="submit" busy={adding.busy ? 'Adding' : undefined}>
          Add it
        </Button>
        <Button disabled={adding.busy} onClick={() => setOpen(false)}>
          Not now
        </Button>
      </div>
    </form>
  );
}
