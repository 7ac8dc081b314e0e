'use client';

import { useMutation } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Select } from '../../components/Field.tsx';
import type { FloorChoicesQuery } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { whyNot } from './fit-words.ts';
import styles from './floor.module.css';
import { DepartAircraftDocument, type Floor, MoveAircraftDocument } from './floor-documents.ts';
import { standName } from './floor-words.ts';

const OFF = 'off';

/** Says where an aircraft has been put, now: on another stand, or off the floor. */
export function MoveForm({
  floor,
  choices,
  hidden,
  onMoved,
}: {
  floor: Floor;
  choices: FloorChoicesQuery;
  /** Closed; what was chosen in it is kept. */
  hidden: boolean;
  onMoved: () => void;
}) {
  const [aircraftId, setAircraft] = useState('');
  const [to, setTo] = useState('');
  const moving = useMutation({
    mutationFn: async () => {
      if (to === OFF) {
        return (await request(DepartAircraftDocument, { input: { aircraftId } })).departAircraft;
      }
      const input = { aircraftId, standId: to };
      return (await request(MoveAircraftDocument, { input })).moveAircraft;
    },
    onSuccess: (moved) => {
      if (moved.__typename === 'Refusal') return;
      setAircraft('');
      setTo('');
      onMoved();
    },
  });

  const aircraft = choices.aircraft.edges.map(({ node }) => node);
  const chosen = aircraft.find(({ id }) => id === aircraftId);
  const standOf = (id: string) => floor.stands.find(({ stay }) => stay?.aircraft.id === id);
  const here = standOf(aircraftId);
  const goal = floor.stands.find(({ id }) => id === to);
  const noRoom = chosen && goal ? whyNot(chosen, goal, floor) : null;
  const answer = moving.data;
  const refused = answer?.__typename === 'Refusal' ? answer.message : moving.error?.message;

  function submit(event: FormEvent) {
    event.preventDefault();
    moving.mutate();
  }

  return (
    <form className={styles.form} onSubmit={submit} hidden={hidden} aria-labelledby="moved-now">
      <h2 id="moved-now">An aircraft was moved</h2>
      <Select
        label="Aircraft"
        required
        value={aircraftId}
        onChange={(event) => {
          setAircraft(event.currentTarget.value);
          setTo('');
          moving.reset();
        }}
        options={[
          { value: '', words: 'Choose an aircraft' },
          ...aircraft.map(({ id, registration }) => {
            const stand = standOf(id);
            return {
              value: id,
              words: `${registration}, ${stand === undefined ? 'not on the floor' : standName(stand.name)}`,
            };
          }),
        ]}
      />
      <Select
        label="To"
        required
        value={to}
        wrong={noRoom ?? undefined}
        hint={
          to === OFF
            ? 'This says where it is, not that it may be flown: what is not released stays so outside.'
            : undefined
        }
        onChange={(event) => {
          setTo(event.currentTarget.value);
          moving.reset();
        }}
        options={[
          { value: '', words: 'Choose where it went' },
          ...(here === undefined ? [] : [{ value: OFF, words: 'off the floor' }]),
          ...floor.stands
            .filter(({ id }) => id !== here?.id)
            .map(({ id, name, stay }) => ({
              value: id,
              words: `${standName(name)}${stay === null ? ', free' : `, ${stay.aircraft.registration} stands there`}`,
            })),
        ]}
      />
      {refused === undefined ? null : <ErrorNote head="Not moved">{refused}</ErrorNote>}
      <div className={styles.done} role="status">
        {answer?.__typename === 'Stay'
          ? `${answer.aircraft.registration} is moved on the drawing.`
          : null}
      </div>
      <Button
        type="submit"
        busy={moving.isPending ? 'Moving' : undefined}
        disabled={aircraftId === '' || to === '' || noRoom !== null}
      >
        Move it on the drawing
      </Button>
    </form>
  );
}
