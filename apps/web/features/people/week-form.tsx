'use client';

import { type FormEvent, useEffect, useRef } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import styles from './people.module.css';
import { SetWeekDocument } from './shop-mutations.ts';
import { useSetting } from './use-setting.ts';
import { useTyped } from './use-typed.ts';
import type { Whose } from './week-words.ts';
import { hoursOfDayText, type Piece, readHoursOfDay, weekdaysInFull } from './week-words.ts';

/** A week, written a day a field as one would say it: "7:30–12, 13–17". */
export function WeekForm({
  whose,
  pieces,
  onDone,
}: {
  whose: Whose;
  pieces: readonly (Piece & { weekday: number })[];
  onDone: () => void;
}) {
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => form.current?.querySelector('input')?.focus(), []);
  const kept: Record<string, string> = Object.fromEntries(
    weekdaysInFull.map((day, index) => [
      day,
      hoursOfDayText(pieces.filter(({ weekday }) => weekday === index + 1)),
    ]),
  );
  const { typed, type, meanwhile } = useTyped(kept);
  const read = weekdaysInFull.map((day) => readHoursOfDay(typed[day] ?? ''));
  const wrong = read.includes(null);
  const setting = useSetting(async () => {
    const hours = read.flatMap((day, index) =>
      (day ?? []).map((piece) => ({ ...piece, weekday: index + 1 })),
    );
    const input = { personId: whose.personId, expectedVersion: whose.version, hours };
    return (await request(SetWeekDocument, { input })).setWeek;
  }, onDone);
  function submit(event: FormEvent) {
    event.preventDefault();
    if (!wrong) setting.go(undefined);
  }
  return (
    <form
      ref={form}
      className={styles.form}
      onSubmit={submit}
      onKeyDown={(event) => {
        if (event.key === 'Escape' && !setting.busy) onDone();
      }}
      aria-label={`Set the week: ${whose.name}`}
    >
      <h3>{whose.name}</h3>
      <div className={styles.days}>
        {weekdaysInFull.map((day, index) => (
          <Field
            key={day}
            label={day}
            placeholder="not here"
            autoComplete="off"
            value={typed[day] ?? ''}
            hint={meanwhile(day)}
            wrong={read[index] === null ? 'Needed are hours such as 7:30–12, 13–17.' : undefined}
            onChange={(event) => type({ [day]: event.currentTarget.value })}
          />
        ))}
      </div>
      {setting.sentence === undefined ? null : (
        <ErrorNote head="Not set">{setting.sentence}</ErrorNote>
      )}
      <div className={styles.ways}>
        <Button type="submit" disabled={wrong} busy={setting.busy ? 'Setting' : undefined}>
          Set this week
        </Button>
        <Button
          disabled={setting.busy}
          onClick={() =>
            type(
              Object.fromEntries(
                weekdaysInFull.map((day, index) => [
                  day,
                  index < 5 ? (typed[weekdaysInFull[0] ?? ''] ?? '') : '',
                ]),
              ),
            )
          }
        >
          Monday’s hours until Friday
        </Button>
        <Button disabled={setting.busy} onClick={onDone}>
          Not now
        </Button>
      </div>
    </form>
  );
}
