'use client';

import { type FormEvent, type ReactNode, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, LongField } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import { typedAmount } from '../books/invoice-figures.ts';
import styles from './people.module.css';
import { AddMarkUpDocument, AddSuppliesRuleDocument, type PriceLists } from './price-documents.ts';
import type { ShopSheet } from './shop-documents.ts';
import { typedBands } from './typed-bands.ts';
import { useSetting } from './use-setting.ts';

/** A new list of mark-up bands, from a day on. */
export function MarkUpForm({
  sheet,
  lists,
}: {
  sheet: ShopSheet;
  lists: PriceLists['markUpLists'];
}) {
  const [text, setText] = useState('');
  const [validFrom, setValidFrom] = useState(sheet.today);
  const bands = typedBands(text);
  const same = lists.find((list) => list.validFrom === validFrom);
  const adding = useSetting(
    async () => {
      const input = { validFrom, bands: bands ?? [], replacesId: same?.id ?? null };
      return (await request(AddMarkUpDocument, { input })).addMarkUp;
    },
    () => setText(''),
  );
  return (
    <PriceForm
      name="New mark-up bands"
      adding={adding}
      ready={bands !== null}
      replaces={same && 'the bands'}
    >
      <LongField
        label="A band a line: from which cost, and the per cent put on it"
        hint="Such as “0 60”, and below it “25 40”; the first begins at 0"
        rows={4}
        required
        value={text}
        wrong={
          text.trim() !== '' && bands === null
            ? 'Needed are two numbers a line, such as 25 40.'
            : adding.about('bands')
        }
        onChange={(event) => setText(event.currentTarget.value)}
      />
      <From value={validFrom} wrong={adding.about('validFrom')} onChange={setValidFrom} />
    </PriceForm>
  );
}

/** A new rule for shop supplies, from a day on. */
export function SuppliesForm({
  sheet,
  rules,
}: {
  sheet: ShopSheet;
  rules: PriceLists['suppliesRules'];
}) {
  const { currency } = sheet.shop;
  const [typed, setTyped] = useState({ percent: '', cap: '', validFrom: sheet.today });
  const cap = typed.cap.trim() === '' ? '' : typedAmount(typed.cap, currency);
  const same = rules.find((rule) => rule.validFrom === typed.validFrom);
  const adding = useSetting(
    async () => {
      const percent = typed.percent.trim().replace(',', '.');
      const input = {
        ...{ percent, validFrom: typed.validFrom, replacesId: same?.id ?? null },
        ...(cap && { cap }),
      };
      return (await request(AddSuppliesRuleDocument, { input })).addSuppliesRule;
    },
    () => setTyped({ ...typed, percent: '', cap: '' }),
  );
  return (
    <PriceForm
      name="New rule for shop supplies"
      adding={adding}
      ready={cap !== null}
      replaces={same && 'the rule'}
    >
      <Field
        label="Of the likely labour"
        figures
        required
        inputMode="decimal"
        unit="%"
        value={typed.percent}
        wrong={adding.about('percent')}
        onChange={(event) => setTyped({ ...typed, percent: event.currentTarget.value })}
      />
      <Field
        label="At most"
        hint="Empty: no cap"
        figures
        inputMode="decimal"
        unit={currency}
        value={typed.cap}
        wrong={
          cap === null
            ? `“${typed.cap}” is no amount of ${currency}: needed are figures such as 45.00.`
            : adding.about('cap')
        }
        onChange={(event) => setTyped({ ...typed, cap: event.currentTarget.value })}
      />
      <From
        value={typed.validFrom}
        wrong={adding.about('validFrom')}
        onChange={(validFrom) => setTyped({ ...typed, validFrom })}
      />
    </PriceForm>
  );
}

function From({
  value,
  wrong,
  onChange,
}: {
  value: string;
  wrong: string | undefined;
  onChange: (day: string) => void;
}) {
  return (
    <Field
      label="From"
      type="date"
      required
      value={value}
      wrong={wrong}
      onChange={(event) => onChange(event.currentTarget.value)}
    />
  );
}

function PriceForm({
  name,
  adding,
  ready,
  replaces,
  children,
}: {
  name: string;
  adding: { go: (input: undefined) => void; busy: boolean; sentence: string | undefined };
  ready: boolean;
  /** What of the same day it puts right. */
  replaces: string | undefined;
  children: ReactNode;
}) {
  function submit(event: FormEvent) {
    event.preventDefault();
    if (ready) adding.go(undefined);
  }
  return (
    <form className={styles.rate} onSubmit={submit} aria-label={name}>
      <h3>{name}</h3>
      <div className={styles.fields}>{children}</div>
      {replaces === undefined ? null : (
        <p className={styles.second}>It replaces {replaces} of the same day.</p>
      )}
      {adding.sentence === undefined ? null : (
        <ErrorNote head="Not added">{adding.sentence}</ErrorNote>
      )}
      <div className={styles.ways}>
        <Button type="submit" busy={adding.busy ? 'Adding' : undefined}>
          Add it
        </Button>
      </div>
    </form>
  );
}
