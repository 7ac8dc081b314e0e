'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Tick } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import { Figure } from '../../components/Figure.tsx';
import { More } from '../../components/More.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import type { QuoteForecastInput, QuoteForecastQuery } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { chargeWords } from './charge-words.ts';
import { WhatIfPeopleDocument } from './forecast-documents.ts';
import styles from './quote-form.module.css';
import { useForecast } from './use-forecast.ts';
import { linesAsked, type Wanted } from './use-wanted.ts';
import { rowsOfWhatIf } from './what-if-rows.ts';

type Answer = QuoteForecastQuery['quoteForecast'];

/** Another mechanic, another day, without this or that: what it would change, and nothing is kept of it. */
export function WhatIf({
  asked,
  answer,
  wanted,
  currency,
  onLeaveOut,
}: {
  asked: QuoteForecastInput;
  /** What was asked for without any supposition. */
  answer: Answer | undefined;
  wanted: Wanted;
  currency: string;
  onLeaveOut: (ids: readonly string[]) => void;
}) {
  const [mechanicId, setMechanicId] = useState('');
  const [beginsOn, setBeginsOn] = useState('');
  const [without, setWithout] = useState<readonly string[]>([]);
  const people = useQuery({
    queryKey: ['whatIfPeople'],
    staleTime: 60_000,
    queryFn: async () => (await request(WhatIfPeopleDocument)).people,
  });
  const added = addedTo(wanted);
  const leftOut = without.filter((id) => added.some((each) => each.id === id));
  const stays = <Each extends { id: string }>(lines: readonly Each[]) =>
    lines.filter(({ id }) => !leftOut.includes(id));
  const supposes = mechanicId !== '' || beginsOn !== '' || leftOut.length > 0;
  const supposed = useForecast(
    supposes
      ? {
          ...asked,
          ...linesAsked(
            {
              tasks: stays(wanted.tasks),
              parts: stays(wanted.parts),
              charges: stays(wanted.charges),
            },
            currency,
          ),
          ...(mechanicId === '' ? {} : { mechanicId }),
          ...(beginsOn === '' ? {} : { beginsOn }),
        }
      : null,
  );

  return (
    <More words="What if: another mechanic, another day, without this or that">
      <section className={styles.whatIf} aria-label="What if">
        <div className={styles.who}>
          <Select
            label="Done by"
            value={mechanicId}
            onChange={(event) => setMechanicId(event.currentTarget.value)}
            options={[
              { value: '', words: 'whoever is free' },
              ...(people.data ?? [])
                .filter(({ active, roles }) => active && roles.some((role) => hands.has(role)))
                .map(({ id, name }) => ({ value: id, words: name })),
            ]}
          />
          <Field
            label="Begun on"
            type="date"
            hint="Empty: as planned, else today."
            value={beginsOn}
            onChange={(event) => setBeginsOn(event.currentTarget.value)}
          />
        </div>
        {added.length === 0 ? null : (
          <fieldset className={styles.without}>
            <legend>With</legend>
            {added.map(({ id, words }) => (
              <Tick
                key={id}
                name={id}
                words={words}
                ticked={!leftOut.includes(id)}
                onTick={(on) =>
                  setWithout(on ? leftOut.filter((each) => each !== id) : [...leftOut, id])
                }
              />
            ))}
          </fieldset>
        )}
        {supposes ? (
          <Difference
            from={answer}
            to={supposed.data}
            problem={supposed.error}
            mechanic={mechanicId !== ''}
          />
        ) : (
          <p className={styles.hint}>
            Change one of these: the price and the day beside it are worked out at once, and nothing
            of it is kept.
          </p>
        )}
        {leftOut.length === 0 ? null : (
          <Button kind="plain" onClick={() => onLeaveOut(leftOut)}>
            Leave it out of the quote
          </Button>
        )}
      </section>
    </More>
  );
}

const hands = new Set(['mechanic', 'inspector']);

const addedTo = ({ tasks, parts, charges }: Wanted) => [
  ...tasks.map(({ id, title }) => ({ id, words: title })),
  ...parts.map(({ id, title, quantity }) => ({ id, words: `${title}, ${quantity}` })),
  ...charges.map(({ id, kind, title }) => ({
    id,
    words: title === '' ? chargeWords[kind] : title,
  })),
];

/** As asked, as supposed, and the difference, in figures as they print. */
function Difference({
  from,
  to,
  problem,
  mechanic,
}: {
  from: Answer | undefined;
  to: Answer | undefined;
  problem: Error | null;
  mechanic: boolean;
}) {
  if (problem !== null) return <ErrorNote head="No answer">{problem.message}</ErrorNote>;
  if (to?.__typename === 'Refusal') return <ErrorNote head="No answer">{to.message}</ErrorNote>;
  if (to === undefined || from?.__typename !== 'QuoteForecast')
    return <p className={styles.hint}>Working it out</p>;
  return (
    <div aria-live="polite">
      <PartsList
        caption="What it would change"
        columns={[
          { key: 'what', head: 'Net of tax' },
          { key: 'from', head: 'As asked', kind: 'figure' },
          { key: 'to', head: 'So', kind: 'figure' },
          { key: 'change', head: 'Change', kind: 'figure' },
        ]}
        rows={rowsOfWhatIf(from, to).map(({ what, unit, ...figures }) => ({
          key: what,
          cells: {
            what,
            ...Object.fromEntries(
              Object.entries(figures).map(([key, text]) => [
                key,
                <Figure key={key} text={text} {...(unit !== '' && { unit })} />,
              ]),
            ),
          },
        }))}
      />
      {mechanic && from.hours.p50 === to.hours.p50 ? (
        <p className={styles.hint}>
          The hours stay as they are: too few of that person’s times are known to say more.
        </p>
      ) : null}
    </div>
  );
}
