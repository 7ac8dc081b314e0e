'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { AheadStrip } from './ahead-strip.tsx';
import { ExceptionsPart } from './exceptions-part.tsx';
import styles from './people.module.css';
import type { ShopSheet } from './shop-documents.ts';
import { WeekForm } from './week-form.tsx';
import {
  hoursOfDayText,
  type Piece,
  stripReach,
  type Whose,
  weekdays,
  weekdaysInFull,
} from './week-words.ts';

/** The week as a ruled strip, a line for the shop and one for each who works on aircraft. */
export function WeekPart({ sheet }: { sheet: ShopSheet }) {
  const [setting, setSetting] = useState<string | null>(null);
  const reach = stripReach(sheet.week);
  const lines: Whose[] = [
    { personId: null, version: sheet.shop.version, name: 'The shop is open' },
    ...sheet.people
      .filter(
        ({ person }) =>
          person.active && person.roles.some((role) => role === 'mechanic' || role === 'inspector'),
      )
      .map(({ person: { id, version, name } }) => ({ personId: id, version, name })),
  ];
  const keyOf = ({ personId }: Whose) => personId ?? 'shop';
  const piecesOf = ({ personId }: Whose) =>
    sheet.week.filter((piece) => piece.personId === personId);
  return (
    <section className={styles.part} aria-labelledby="week">
      <h2 id="week">The week</h2>
      <table className={styles.week}>
        <caption className="spoken">Hours by the week</caption>
        <thead>
          <tr className={styles.weekHead}>
            <th scope="col">Who</th>
            {weekdays.map((day, index) => (
              <th key={day} scope="col" aria-label={weekdaysInFull[index]}>
                {day}
              </th>
            ))}
            <th scope="col">
              <span className="spoken">Set</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {lines.map((whose) => (
            <WeekLine
              key={keyOf(whose)}
              whose={whose}
              pieces={piecesOf(whose)}
              shops={sheet.week.filter(({ personId }) => personId === null)}
              reach={reach}
              open={setting === keyOf(whose)}
              onOpen={(open) => setSetting(open ? keyOf(whose) : null)}
            />
          ))}
        </tbody>
      </table>
      {lines
        .filter((whose) => keyOf(whose) === setting)
        .map((whose) => (
          <WeekForm
            key={keyOf(whose)}
            whose={whose}
            pieces={piecesOf(whose)}
            onDone={() => setSetting(null)}
          />
        ))}
      <AheadStrip ahead={sheet.ahead} />
      <ExceptionsPart sheet={sheet} lines={lines} />
    </section>
  );
}

function WeekLine({
  whose,
  pieces,
  shops,
  reach: { from, to },
  open,
  onOpen,
}: {
  whose: Whose;
  pieces: readonly (Piece & { id: string; weekday: number })[];
  /** When the shop is open: drawn lightly for whoever has no week of their own. */
  shops: readonly (Piece & { id: string; weekday: number })[];
  reach: { from: number; to: number };
  open: boolean;
  onOpen: (open: boolean) => void;
}) {
  const part = (minutes: number) => `${(minutes / (to - from)) * 100}%`;
  return (
    <tr className={styles.weekLine} data-as-shop={pieces.length === 0 ? '' : undefined}>
      <th scope="row">
        {whose.name}
        {pieces.length > 0 ? null : (
          <small>{whose.personId === null ? 'hours not said yet' : 'as the shop is open'}</small>
        )}
      </th>
      {weekdays.map((day, index) => {
        const ofDay = (pieces.length > 0 ? pieces : shops).filter(
          ({ weekday }) => weekday === index + 1,
        );
        return (
          <td key={day} data-day={day} data-none={ofDay.length === 0 ? '' : undefined}>
            <span className={styles.ruled} aria-hidden="true">
              {ofDay.map(({ id, fromMinute, toMinute }) => (
                <i
                  key={id}
                  style={{ left: part(fromMinute - from), width: part(toMinute - fromMinute) }}
                />
              ))}
            </span>
            <span className={styles.number}>{ofDay.length > 0 ? hoursOfDayText(ofDay) : '–'}</span>
          </td>
        );
      })}
      <td>
        <Button
          kind="plain"
          aria-expanded={open}
          aria-label={`Set the week: ${whose.name}`}
          onClick={() => onOpen(!open)}
        >
          Set
        </Button>
      </td>
    </tr>
  );
}
