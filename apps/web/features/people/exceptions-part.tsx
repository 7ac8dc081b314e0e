'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import { calendarDateText } from '../../lib/figures/dates.ts';
import styles from './people.module.css';
import type { ShopSheet } from './shop-documents.ts';
import { AddExceptionDocument, RemoveExceptionDocument } from './shop-mutations.ts';
import { useSetting } from './use-setting.ts';
import type { Whose } from './week-words.ts';
import { hoursOfDayText, readHoursOfDay } from './week-words.ts';

/** Days that are not as the week says, and the form for more of them. */
export function ExceptionsPart({ sheet, lines }: { sheet: ShopSheet; lines: readonly Whose[] }) {
  const removing = useSetting(
    async (exceptionId: string) =>
      (await request(RemoveExceptionDocument, { input: { exceptionId } })).removeException,
  );
  const nameOf = (personId: string | null) =>
    personId === null
      ? 'The shop'
      : (sheet.people.find(({ person }) => person.id === personId)?.person.name ?? 'Somebody');
  return (
    <div className={styles.exceptions}>
      <h3>Not as the week says</h3>
      {sheet.exceptions.length === 0 ? (
        <p className={styles.second}>
          Nobody is away and the shop is not closed, as far as is said.
        </p>
      ) : (
        <ul className={styles.ruledList}>
          {sheet.exceptions.map((each) => {
            const { id, personId, firstDay, lastDay, fromMinute, toMinute, reason } = each;
            const days =
              firstDay === lastDay
                ? calendarDateText(firstDay)
                : `${calendarDateText(firstDay)} to ${calendarDateText(lastDay)}`;
            const hours =
              fromMinute === null || toMinute === null
                ? personId === null
                  ? 'closed'
                  : 'away'
                : hoursOfDayText([{ fromMinute, toMinute }]);
            return (
              <li key={id}>
                <span>
                  {nameOf(personId)}: {hours}, {days}. {reason}
                </span>
                <Button
                  kind="plain"
                  disabled={removing.busy}
                  aria-label={`Take back: ${nameOf(personId)}, ${reason}`}
                  onClick={() => removing.go(id)}
                >
                  Take it back
                </Button>
              </li>
            );
          })}
        </ul>
      )}
      {removing.sentence === undefined ? null : (
        <ErrorNote head="Not taken back">{removing.sentence}</ErrorNote>
      )}
      <ExceptionForm lines={lines} today={sheet.today} />
    </div>
  );
}

function ExceptionForm({ lines, today }: { lines: readonly Whose[]; today: string }) {
  const [typed, setTyped] = useState({
    who: '',
    firstDay: today,
    lastDay: today,
    hours: '',
    reason: '',
  });
  const set = (over: Partial<typeof typed>) => setTyped({ ...typed, ...over });
  const read = readHoursOfDay(typed.hours);
  const wrong = read === null || read.length > 1;
  const adding = useSetting(
    async () => {
      const { firstDay, lastDay, reason, who } = typed;
      const input = { personId: who || null, firstDay, lastDay, reason, ...read?.[0] };
      return (await request(AddExceptionDocument, { input })).addException;
    },
    () => set({ reason: '', hours: '' }),
  );
  function submit(event: FormEvent) {
    event.preventDefault();
    if (!wrong) adding.go(undefined);
  }
  return (
    <form className={styles.rate} onSubmit={submit} aria-label="Days that differ">
      <div className={styles.fields}>
        <Select
          label="Who"
          value={typed.who}
          onChange={(event) => set({ who: event.currentTarget.value })}
          options={lines.map(({ personId, name }) => ({
            value: personId ?? '',
            words: personId === null ? 'The whole shop' : name,
          }))}
        />
        <Field
          label="First day"
          type="date"
          required
          value={typed.firstDay}
          wrong={adding.about('firstDay')}
          onChange={(event) => {
            const firstDay = event.currentTarget.value;
            set({ firstDay, lastDay: typed.lastDay < firstDay ? firstDay : typed.lastDay });
          }}
        />
        <Field
          label="Last day"
          type="date"
          required
          value={typed.lastDay}
          wrong={adding.about('lastDay')}
          onChange={(event) => set({ lastDay: event.currentTarget.value })}
        />
        <Field
          label="Hours"
          placeholder={typed.who === '' ? 'closed' : 'away'}
          autoComplete="off"
          value={typed.hours}
          wrong={wrong ? 'Needed is one piece such as 8–12, or nothing.' : undefined}
          onChange={(event) => set({ hours: event.currentTarget.value })}
        />
        <Field
          label="Why"
          required
          maxLength={200}
          value={typed.reason}
          wrong={adding.about('reason')}
          onChange={(event) => set({ reason: event.currentTarget.value })}
        />
      </div>
      {adding.sentence === undefined ? null : (
        <ErrorNote head="Not added">{adding.sentence}</ErrorNote>
      )}
      <div className={styles.ways}>
        <Button type="submit" disabled={wrong} busy={adding.busy ? 'Adding' : undefined}>
          Add these days
        </Button>
      </div>
    </form>
  );
}
