'use client';

import { useMutation } from '@tanstack/react-query';
import { type FormEvent, useEffect, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Choices } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import type { FloorChoicesQuery } from '../../graphql/generated/graphql.ts';
import { OpenOnAircraft } from '../books/open-on-aircraft.tsx';
import styles from './carry.module.css';
import { whyNot } from './fit-words.ts';
import type { Floor } from './floor-documents.ts';
import { standName } from './floor-words.ts';
import { OFF, type Outcome, savePlace, type Wish } from './save-place.ts';

/**
 * Asks whether it is meant: an aircraft, where it goes, now or on a day to come. The same form whether it was dragged,
 * put by keys or chosen here. What was chosen stays when it is refused.
 */
export function PlaceForm({
  floor,
  choices,
  start,
  plans,
  timeZone,
  onDone,
  onMoved,
  onClose,
}: {
  floor: Floor;
  choices: FloorChoicesQuery;
  start: Wish;
  /** Whether this person plans; a mechanic says what has been done. */
  plans: boolean;
  timeZone: string;
  onDone: (saved: Extract<Outcome, { kind: 'saved' }>) => void;
  /** Somebody was faster. Answers when the floor is drawn anew, with the aircraft's version in it. */
  onMoved: (aircraftId: string) => Promise<string | null>;
  onClose: () => void;
}) {
  const [wish, setWish] = useState(start);
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    // The heading, not a button: a key that is still held down must press nothing.
    head.current?.focus({ preventScroll: true });
    head.current?.parentElement?.scrollIntoView({ block: 'nearest' });
  }, []);
  const saving = useMutation({
    mutationFn: () => savePlace(wish, timeZone),
    onSuccess: async (outcome) => {
      if (outcome.kind === 'saved') onDone(outcome);
      if (outcome.kind !== 'moved') return;
      const seenVersion = await onMoved(wish.aircraftId);
      // Pressed again, it is meant in knowledge of what the other one did.
      if (seenVersion !== null) setWish((now) => ({ ...now, seenVersion, plan: null }));
    },
  });
  const change = (part: Partial<Wish>) => {
    setWish((now) => ({ ...now, ...part }));
    saving.reset();
  };

  const aircraft = choices.aircraft.edges.map(({ node }) => node);
  const chosen = aircraft.find(({ id }) => id === wish.aircraftId);
  const here = floor.stands.find(({ stay }) => stay?.aircraft.id === wish.aircraftId);
  const goal = floor.stands.find(({ id }) => id === wish.to);
  const inside = here !== undefined;
  const noRoom = chosen && goal ? whyNot(chosen, goal, floor, { inside }) : null;
  const taken =
    wish.when === 'now' && goal?.stay && goal.stay.aircraft.id !== wish.aircraftId
      ? `${goal.stay.aircraft.registration} stands there: move that one first, or plan for a later day.`
      : null;
  const orders = choices.orders.edges
    .map(({ node }) => node)
    .filter((order) => order.aircraft.id === wish.aircraftId);
  const answer = saving.data;
  const refused = answer?.kind === 'refused' ? answer : null;
  const wrong = (field: string) => (refused?.field === field ? refused.message : undefined);
  const shown = ['standId', 'startsAt', 'endsAt', 'at', 'orderId'].includes(refused?.field ?? '');
  const drops = wish.to === OFF && wish.plan !== null;
  const planned = plans && wish.when === 'planned';
  const registration = chosen?.registration ?? 'An aircraft';

  function submit(event: FormEvent) {
    event.preventDefault();
    saving.mutate();
  }
  function chooseAircraft(id: string) {
    const only = choices.orders.edges.filter(({ node }) => node.aircraft.id === id);
    const orderId = only.length === 1 ? (only[0]?.node.id ?? '') : '';
    const seenVersion = aircraft.find((each) => each.id === id)?.floorVersion ?? '';
    change({ aircraftId: id, orderId, seenVersion, plan: null });
  }

  return (
    <form className={styles.form} onSubmit={submit} aria-labelledby="place-an-aircraft">
      <h2 id="place-an-aircraft" ref={head} tabIndex={-1}>
        {planned ? 'Plan a stay' : 'An aircraft was moved'}
      </h2>
      <div className={styles.pair}>
        <Select
          label="Aircraft"
          required
          value={wish.aircraftId}
          onChange={(event) => chooseAircraft(event.currentTarget.value)}
          options={[
            { value: '', words: 'Choose an aircraft' },
            ...aircraft.map(({ id, registration: name, model }) => ({
              value: id,
              words: `${name}, ${model.name}${placeWords(floor, id)}`,
            })),
          ]}
        />
        <Select
          label="Goes to"
          required
          value={wish.to}
          wrong={wrong('standId') ?? noRoom ?? taken ?? undefined}
          hint={
            wish.to === OFF && !drops
              ? 'This says where it is, not that it may be flown: what is not released stays so outside.'
              : undefined
          }
          onChange={(event) => change({ to: event.currentTarget.value })}
          options={[
            { value: '', words: 'Choose a place' },
            ...(inside || wish.plan !== null
              ? [{ value: OFF, words: wish.plan ? 'nowhere: it does not come' : 'out of the door' }]
              : []),
            ...floor.stands.map((each) => ({
              value: each.id,
              words: `${standName(each.name)}${fitWords(chosen && whyNot(chosen, each, floor, { inside }))}`,
            })),
          ]}
        />
      </div>
      {wish.to === OFF && !drops && wish.aircraftId !== '' ? (
        <OpenOnAircraft aircraftId={wish.aircraftId} />
      ) : null}
      {plans && !drops ? (
        <Choices
          legend="When"
          name="when"
          value={wish.when}
          onChoose={(when) => change({ when: when === 'now' ? 'now' : 'planned' })}
          options={[
            { value: 'now', words: 'Now: it has just been done' },
            { value: 'planned', words: 'On a day to come' },
          ]}
        />
      ) : null}
      {planned && !drops ? (
        <div className={styles.pair}>
          <Field
            label={wish.to === OFF ? 'Leaves' : 'From'}
            type="datetime-local"
            required
            value={wish.from}
            wrong={wrong('startsAt') ?? wrong('at')}
            onChange={(event) => change({ from: event.currentTarget.value })}
          />
          {wish.to === OFF ? null : (
            <Field
              label="To"
              type="datetime-local"
              required
              value={wish.until}
              wrong={wrong('endsAt')}
              onChange={(event) => change({ until: event.currentTarget.value })}
            />
          )}
        </div>
      ) : null}
      {planned && wish.to !== OFF && wish.plan === null && orders.length > 0 ? (
        <Select
          label="For"
          value={wish.orderId}
          wrong={wrong('orderId')}
          onChange={(event) => change({ orderId: event.currentTarget.value })}
          options={[
            { value: '', words: 'no order: it only stands here' },
            ...orders.map(({ id, number, title }) => ({ value: id, words: `${number} ${title}` })),
          ]}
        />
      ) : null}
      {answer?.kind === 'moved' ? (
        <ErrorNote head="Somebody was faster">
          {answer.message} The drawing shows it as it is now; press again if yours still holds.
        </ErrorNote>
      ) : null}
      {refused && !shown ? <ErrorNote head="Not saved">{refused.message}</ErrorNote> : null}
      {saving.error ? <ErrorNote head="Not saved">{saving.error.message}</ErrorNote> : null}
      <div className={styles.presses}>
        <Button
          kind="primary"
          type="submit"
          busy={saving.isPending ? 'Saving' : undefined}
          disabled={wish.aircraftId === '' || wish.to === '' || noRoom !== null || taken !== null}
        >
          {drops ? `${registration} does not come` : planned ? 'Plan it' : 'Move it on the drawing'}
        </Button>
        <Button onClick={onClose}>Leave it as it is</Button>
      </div>
    </form>
  );
}

function placeWords({ stands }: Floor, aircraftId: string): string {
  const stand = stands.find(({ stay }) => stay?.aircraft.id === aircraftId);
  return stand === undefined ? '' : `, ${standName(stand.name)}`;
}

function fitWords(why: string | null | undefined): string {
  if (why === undefined) return '';
  return why === null ? ', it fits' : ', too small';
}
