'use client';

import { Choices, Tick } from '../../components/Choice.tsx';
import { Field } from '../../components/Field.tsx';
import { More } from '../../components/More.tsx';
import type { AddDirectiveInput } from '../../graphql/generated/graphql.ts';
import { CountFields, countsTyped, emptyCounts, type TypedCounts } from './count-fields.tsx';
import styles from './programme.module.css';
import { countOf, hundredthsOf } from './typed-hours.ts';

export const emptyTerms = {
  rule: 'once',
  ...{ within: '', days: '', by: '', on: '', every: '', months: '', calendar: '', everyDays: '' },
  terminating: '',
  last: false,
  ...{ withinCounts: emptyCounts, limitCounts: emptyCounts, everyCounts: emptyCounts },
};
type Terms = typeof emptyTerms;

/** The terms as the shop takes them: what stays empty is not said. */
export function givenTerms(
  terms: Terms,
): Pick<AddDirectiveInput, 'rule' | 'whicheverLast'> & Partial<AddDirectiveInput> {
  const repeats = terms.rule === 'recurring';
  const hours = (key: keyof AddDirectiveInput, typed: string) =>
    typed.trim() === '' ? {} : { [key]: hundredthsOf(typed) };
  const count = (key: keyof AddDirectiveInput, typed: string) =>
    typed.trim() === '' ? {} : { [key]: countOf(typed) };
  const counts = (key: 'withinCounts' | 'limitCounts' | 'everyCounts') => {
    const typed = countsTyped(terms[key]);
    return typed ? { [key]: typed } : {};
  };
  return {
    ...counts('withinCounts'),
    ...counts('limitCounts'),
    rule: terms.rule as AddDirectiveInput['rule'],
    whicheverLast: terms.last,
    ...hours('withinHundredths', terms.within),
    ...count('withinDays', terms.days),
    ...hours('limitHundredths', terms.by),
    ...(terms.on === '' ? {} : { limitDate: terms.on }),
    ...(repeats
      ? {
          ...hours('everyHundredths', terms.every),
          ...count('everyMonths', terms.months),
          ...count('everyCalendarMonths', terms.calendar),
          ...count('everyDays', terms.everyDays),
          ...counts('everyCounts'),
          ...(terms.terminating.trim() === '' ? {} : { terminating: terms.terminating }),
        }
      : {}),
  };
}

/** By when it is due first, how often then, and what ends the repeat. */
export function DirectiveTerms({
  terms,
  onTerms,
  lives,
}: {
  terms: Terms;
  onTerms: (terms: Terms) => void;
  /** A maker's limit may be a life. */
  lives: boolean;
}) {
  const counted = (
    key: 'withinCounts' | 'limitCounts' | 'everyCounts',
    label: (counter: string) => string,
  ) => (
    <CountFields
      typed={terms[key]}
      onTyped={(typed: TypedCounts) => onTerms({ ...terms, [key]: typed })}
      label={label}
    />
  );
  const text = (key: Exclude<keyof Terms, 'last' | `${string}Counts`>) => ({
    value: terms[key],
    onChange: (event: { currentTarget: { value: string } }) =>
      onTerms({ ...terms, [key]: event.currentTarget.value }),
  });
  const life = terms.rule === 'life_limit';
  return (
    <>
      <Choices
        legend="How often"
        name="directive-rule"
        value={terms.rule}
        options={[
          { value: 'once', words: 'once' },
          { value: 'recurring', words: 'again and again' },
          ...(lives ? [{ value: 'life_limit', words: 'a life, from new' }] : []),
        ]}
        onChoose={(rule) => onTerms({ ...terms, rule })}
      />
      <div className={styles.pair}>
        {life ? null : (
          <>
            <Field
              label="First within hours after that day"
              inputMode="decimal"
              {...text('within')}
            />
            <Field label="First within days after that day" inputMode="numeric" {...text('days')} />
          </>
        )}
        <Field
          label={life ? 'Life in hours' : 'First by time in service'}
          inputMode="decimal"
          {...text('by')}
        />
        <Field label={life ? 'Life until' : 'First by day'} type="date" {...text('on')} />
      </div>
      {terms.rule === 'recurring' ? (
        <div className={styles.pair}>
          <Field label="Then every so many hours" inputMode="decimal" {...text('every')} />
          <Field label="Then every so many months" inputMode="numeric" {...text('months')} />
          <Field
            label="Then every so many calendar months"
            inputMode="numeric"
            {...text('calendar')}
          />
          <Field label="Then every so many days" inputMode="numeric" {...text('everyDays')} />
          <Field
            label="What ends the repeat"
            hint="Its terminating action, with the paragraph"
            maxLength={500}
            {...text('terminating')}
          />
        </div>
      ) : null}
      <More words="By cycles, landings or starts">
        <div className={styles.pair}>
          {life
            ? null
            : counted('withinCounts', (counter) => `First within ${counter} after that day`)}
          {counted('limitCounts', (counter) =>
            life ? `Life in ${counter}` : `First by ${counter} in all`,
          )}
          {terms.rule === 'recurring'
            ? counted('everyCounts', (counter) => `Then every so many ${counter}`)
            : null}
        </div>
      </More>
      <Tick
        name="whichever-last"
        words="Of several, the one that comes last counts"
        note="Left out: whichever comes first."
        ticked={terms.last}
        onTick={(last) => onTerms({ ...terms, last })}
      />
    </>
  );
}
