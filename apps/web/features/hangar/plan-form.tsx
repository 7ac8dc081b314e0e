'use client';

import { useMutation } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import type { FloorChoicesQuery } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { instantOf, wallOf } from '../../lib/shop-time.ts';
import { whyNot } from './fit-words.ts';
import styles from './floor.module.css';
import { type Floor, PlanStayDocument } from './floor-documents.ts';
import { standName } from './floor-words.ts';

const inDays = (from: string, days: number) =>
  new Date(Date.parse(from) + days * 86_400_000).toISOString();

/** Puts an aircraft on a stand for a time to come. What was chosen stays when it is refused. */
export function PlanForm({
  floor,
  choices,
  hidden,
  timeZone,
  onPlanned,
}: {
  floor: Floor;
  choices: FloorChoicesQuery;
  /** Closed; what was chosen in it is kept. */
  hidden: boolean;
  timeZone: string;
  onPlanned: (stayId: string) => void;
}) {
  const [aircraftId, setAircraft] = useState('');
  const [standId, setStand] = useState('');
  const [orderId, setOrder] = useState('');
  const [from, setFrom] = useState(
    () => `${wallOf(inDays(floor.asOf, 1), timeZone).slice(0, 10)}T08:00`,
  );
  const [to, setTo] = useState(
    () => `${wallOf(inDays(floor.asOf, 2), timeZone).slice(0, 10)}T16:00`,
  );

  const planning = useMutation({
    mutationFn: async () => {
      const input = {
        aircraftId,
        standId,
        startsAt: instantOf(from, timeZone),
        endsAt: instantOf(to, timeZone),
        ...(orderId === '' ? {} : { orderId }),
      };
      return (await request(PlanStayDocument, { input })).planStay;
    },
    onSuccess: (planned) => {
      if (planned.__typename !== 'Refusal') onPlanned(planned.id);
    },
  });

  const aircraft = choices.aircraft.edges.map(({ node }) => node);
  const chosen = aircraft.find(({ id }) => id === aircraftId);
  const orders = choices.orders.edges
    .map(({ node }) => node)
    .filter((order) => order.aircraft.id === aircraftId);
  const stand = floor.stands.find(({ id }) => id === standId);
  const noRoom = chosen && stand ? whyNot(chosen, stand, floor) : null;
  const answer = planning.data;
  const refused = answer?.__typename === 'Refusal' ? answer : null;
  const planned = answer?.__typename === 'Stay' ? answer : null;
  const wrong = (field: string) => (refused?.field === field ? refused.message : undefined);
  const general = refused?.field && refused.field !== 'aircraftId' ? null : refused?.message;

  function choose(id: string) {
    setAircraft(id);
    const only = choices.orders.edges.filter(({ node }) => node.aircraft.id === id);
    setOrder(only.length === 1 ? (only[0]?.node.id ?? '') : '');
    planning.reset();
  }

  function submit(event: FormEvent) {
    event.preventDefault();
    planning.mutate();
  }

  return (
    <form className={styles.form} onSubmit={submit} hidden={hidden} aria-labelledby="plan-a-stay">
      <h2 id="plan-a-stay">Plan a stay</h2>
      <Select
        label="Aircraft"
        required
        value={aircraftId}
        onChange={(event) => choose(event.currentTarget.value)}
        options={[
          { value: '', words: 'Choose an aircraft' },
          ...aircraft.map(({ id, registration, model }) => ({
            value: id,
            words: `${registration}, ${model.name}`,
          })),
        ]}
      />
      <Select
        label="Stand"
        required
        value={standId}
        wrong={wrong('standId') ?? noRoom ?? undefined}
        onChange={(event) => {
          setStand(event.currentTarget.value);
          planning.reset();
        }}
        options={[
          { value: '', words: 'Choose a stand' },
          ...floor.stands.map((each) => ({
            value: each.id,
            words: `${standName(each.name)}${fitWords(chosen && whyNot(chosen, each, floor))}`,
          })),
        ]}
      />
      <Select
        label="For"
        value={orderId}
        disabled={orders.length === 0}
        wrong={wrong('orderId')}
        onChange={(event) => setOrder(event.currentTarget.value)}
        options={[
          { value: '', words: 'no order: it only stands here' },
          ...orders.map(({ id, number, title }) => ({ value: id, words: `${number} ${title}` })),
        ]}
      />
      <div className={styles.pair}>
        <Field
          label="From"
          type="datetime-local"
          required
          value={from}
          wrong={wrong('startsAt')}
          onChange={(event) => setFrom(event.currentTarget.value)}
        />
        <Field
          label="To"
          type="datetime-local"
          required
          value={to}
          wrong={wrong('endsAt')}
          onChange={(event) => setTo(event.currentTarget.value)}
        />
      </div>
      {general ? <ErrorNote head="Not planned">{general}</ErrorNote> : null}
      {planning.error ? <ErrorNote head="Not planned">{planning.error.message}</ErrorNote> : null}
      <div className={styles.done} role="status">
        {planned === null
          ? null
          : `${planned.aircraft.registration} is planned on ${standName(planned.stand.name)} from ${dayAndTimeText(planned.startsAt, timeZone)}.`}
      </div>
      <Button
        kind="primary"
        type="submit"
        busy={planning.isPending ? 'Planning' : undefined}
        disabled={aircraftId === '' || standId === '' || noRoom !== null}
      >
        Plan it
      </Button>
    </form>
  );
}

function fitWords(why: string | null | undefined): string {
  if (why === undefined) return '';
  return why === null ? ', it fits' : ', too small';
}
