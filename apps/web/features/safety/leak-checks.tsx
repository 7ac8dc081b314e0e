'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { instantOf, wallOf } from '../../lib/shop-time.ts';
import { NotSent } from './not-sent.tsx';
import type { LeakStanding, OpenOrder } from './order-documents.ts';
import { RecordLook } from './record-look.tsx';
import styles from './safety.module.css';
import { fluidOptions, fuelLeakWords, leakKindWords } from './safety-words.ts';
import { useFact } from './use-fact.ts';

/** The looks for leaks before a release: appointed, made, and what was seen. */
export function LeakChecks({
  order,
  works,
  plans,
  timeZone,
}: {
  order: OpenOrder;
  works: boolean;
  /** Whether the person may appoint a look. */
  plans: boolean;
  timeZone: string;
}) {
  const { leakChecks } = order;
  const kinds = leakChecks.length === 0 ? (['after_standing', 'after_run_up'] as const) : null;
  return (
    <>
      {leakChecks.length === 0 ? (
        <p className={styles.second}>
          No inspection: a look for leaks is made where the work asks for it.
        </p>
      ) : (
        leakChecks.map((standing) => (
          <One
            key={standing.kind}
            standing={standing}
            order={order}
            works={works}
            plans={plans}
            timeZone={timeZone}
          />
        ))
      )}
      {kinds?.map((kind) => (
        <Ways
          key={kind}
          kind={kind}
          order={order}
          works={works}
          plans={plans}
          timeZone={timeZone}
        />
      ))}
    </>
  );
}

function One({
  standing,
  order,
  works,
  plans,
  timeZone,
}: {
  standing: LeakStanding;
  order: OpenOrder;
  works: boolean;
  plans: boolean;
  timeZone: string;
}) {
  const { kind, state } = standing;
  return (
    <section className={styles.part} aria-label={`Leak check ${leakKindWords[kind].toLowerCase()}`}>
      <h3>{leakKindWords[kind]}</h3>
      <p className={state === 'leaks' ? styles.oxide : undefined}>{sayLook(standing, timeZone)}</p>
      {state === 'leaks' ? (
        <p className={styles.oxide}>
          It names no finding: note one, and record the look with it. The release waits for it.
        </p>
      ) : null}
      <Ways kind={kind} order={order} works={works} plans={plans} timeZone={timeZone} />
    </section>
  );
}

/** Where a look stands, in a sentence. */
function sayLook({ state, last }: LeakStanding, timeZone: string): string {
  if (last === null) return 'Not made yet.';
  if (state === 'appointed' && last.plannedFor !== null)
    return `Appointed for ${dayAndTimeText(last.plannedFor, timeZone)}, by ${last.by.name}. The aircraft keeps its stand until then.`;
  const who = `${last.by.name}, ${dayAndTimeText(last.at, timeZone)}`;
  const where = last.words === '' ? '' : ` ${last.words}.`;
  if (state === 'dry') return `Dry. ${who}.${where}`;
  const fluid = fluidOptions.find(({ value }) => value === last.fluid)?.words ?? 'Leak';
  const size =
    last.seen === 'running_leak' ? 'a running leak' : `a stain of ${last.stainInches} in`;
  const called = last.fuelLeak === null ? '' : ` (${fuelLeakWords[last.fuelLeak]})`;
  const finding =
    last.finding === null ? '' : ` Finding ${last.finding.number}, ${last.finding.title}.`;
  return `${fluid}: ${size}${called}. ${who}.${where}${finding}`;
}

function Ways({
  kind,
  order,
  works,
  plans,
  timeZone,
}: {
  kind: LeakStanding['kind'];
  order: OpenOrder;
  works: boolean;
  plans: boolean;
  timeZone: string;
}) {
  const name = leakKindWords[kind].toLowerCase();
  return (
    <>
      {works ? (
        <details>
          <summary className={styles.summary}>
            <span>Record the look{<span> {name}</span>}</span>
          </summary>
          <RecordLook kind={kind} order={order} />
        </details>
      ) : null}
      {plans ? (
        <details>
          <summary className={styles.summary}>
            <span>Appoint a look {name}</span>
          </summary>
          <Appoint kind={kind} orderId={order.id} timeZone={timeZone} />
        </details>
      ) : null}
    </>
  );
}

/** Seven in the morning of the next day, as the shop has it. */
function tomorrowAtSeven(timeZone: string): string {
  const today = wallOf(new Date().toISOString(), timeZone).slice(0, 10);
  const next = new Date(`${today}T00:00:00Z`);
  next.setUTCDate(next.getUTCDate() + 1);
  return `${next.toISOString().slice(0, 10)}T07:00`;
}

function Appoint({
  kind,
  orderId,
  timeZone,
}: {
  kind: LeakStanding['kind'];
  orderId: string;
  timeZone: string;
}) {
  const [wall, setWall] = useState(() => tomorrowAtSeven(timeZone));
  const appointing = useFact('appoint');
  const appoint = (event: FormEvent) => {
    event.preventDefault();
    if (wall !== '')
      appointing.mutate({
        input: { orderId, kind, plannedFor: instantOf(wall, timeZone) },
        words: `Look ${leakKindWords[kind].toLowerCase()} appointed for ${dayAndTimeText(instantOf(wall, timeZone), timeZone)}`,
      });
  };
  return (
    <form className={styles.form} onSubmit={appoint} noValidate>
      <NotSent kinds={['appoint']} about={orderId} />
      <Field
        label="When"
        hint="It keeps the stand until then, and takes nobody’s hands."
        type="datetime-local"
        wrong={wall === '' ? 'Needed is a day and a time.' : undefined}
        value={wall}
        onChange={(event) => setWall(event.currentTarget.value)}
      />
      {appointing.error === null ? null : (
        <ErrorNote head="Not appointed">{appointing.error.message}</ErrorNote>
      )}
      <Button type="submit" busy={appointing.isPending ? 'Recording' : undefined}>
        Appoint it
      </Button>
    </form>
  );
}
