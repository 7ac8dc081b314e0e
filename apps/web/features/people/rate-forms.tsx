'use client';

import { type FormEvent, type ReactNode, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import type { AddTaxRateInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import styles from './people.module.css';
import type { ShopSheet } from './shop-documents.ts';
import { AddLabourRateDocument, AddTaxRateDocument } from './shop-mutations.ts';
import { useSetting } from './use-setting.ts';

/** A new hourly rate, from a day on. */
export function LabourRateForm({ sheet }: { sheet: ShopSheet }) {
  const [typed, setTyped] = useState({ kind: 'mechanic', rate: '', validFrom: sheet.today });
  const same = sheet.labourRates.find(
    ({ rate }) => rate.kind === typed.kind.trim() && rate.validFrom === typed.validFrom,
  );
  const adding = useSetting(
    async () => {
      const rate = typed.rate.trim().replace(',', '.');
      const input = { ...typed, rate, replacesId: same?.rate.id ?? null };
      return (await request(AddLabourRateDocument, { input })).addLabourRate;
    },
    () => setTyped({ ...typed, rate: '' }),
  );
  return (
    <RateForm
      name="New hourly rate"
      adding={adding}
      replaces={same ? `${same.rate.rate} ${sheet.shop.currency}` : null}
    >
      <Field
        label="Whose hour"
        required
        maxLength={40}
        hint="“mechanic” for all work without a kind; a kind of work by its name; “cost” is what an hour costs you, for the margin."
        value={typed.kind}
        wrong={adding.about('kind')}
        onChange={(event) => setTyped({ ...typed, kind: event.currentTarget.value })}
      />
      <Field
        label="Rate"
        figures
        required
        inputMode="decimal"
        unit={sheet.shop.currency}
        value={typed.rate}
        wrong={adding.about('rate')}
        onChange={(event) => setTyped({ ...typed, rate: event.currentTarget.value })}
      />
      <Field
        label="From"
        type="date"
        required
        value={typed.validFrom}
        wrong={adding.about('validFrom')}
        onChange={(event) => setTyped({ ...typed, validFrom: event.currentTarget.value })}
      />
    </RateForm>
  );
}

/** A new line of the tax table, from a day on. */
export function TaxRateForm({ sheet }: { sheet: ShopSheet }) {
  const [typed, setTyped] = useState({
    category: 'parts' as AddTaxRateInput['category'],
    code: 'S',
    rate: '',
    validFrom: sheet.today,
  });
  const same = sheet.taxRates.find(
    ({ rate }) => rate.category === typed.category && rate.validFrom === typed.validFrom,
  );
  const adding = useSetting(
    async () => {
      const rate = typed.rate.trim().replace(',', '.');
      const input = { ...typed, rate, replacesId: same?.rate.id ?? null };
      return (await request(AddTaxRateDocument, { input })).addTaxRate;
    },
    () => setTyped({ ...typed, rate: '' }),
  );
  return (
    <RateForm name="New tax rate" adding={adding} replaces={same ? `${same.rate.rate} %` : null}>
      <Select
        label="On"
        value={typed.category}
        onChange={(event) =>
          setTyped({
            ...typed,
            category: event.currentTarget.value as AddTaxRateInput['category'],
          })
        }
        options={['labour', 'parts', 'supplies'].map((value) => ({ value, words: value }))}
      />
      <Select
        label="Category (EN 16931)"
        value={typed.code}
        wrong={adding.about('code')}
        onChange={(event) => setTyped({ ...typed, code: event.currentTarget.value })}
        options={[
          { value: 'S', words: 'S, at its rate' },
          { value: 'Z', words: 'Z, zero rated' },
          { value: 'E', words: 'E, exempt' },
          { value: 'O', words: 'O, outside of the tax' },
        ]}
      />
      <Field
        label="Rate"
        figures
        required
        inputMode="decimal"
        unit="%"
        value={typed.rate}
        wrong={adding.about('rate')}
        onChange={(event) => setTyped({ ...typed, rate: event.currentTarget.value })}
      />
      <Field
        label="From"
        type="date"
        required
        value={typed.validFrom}
        wrong={adding.about('validFrom')}
        onChange={(event) => setTyped({ ...typed, validFrom: event.currentTarget.value })}
      />
    </RateForm>
  );
}

function RateForm({
  name,
  adding,
  replaces,
  children,
}: {
  name: string;
  adding: { go: (input: undefined) => void; busy: boolean; sentence: string | undefined };
  /** The rate of the same day, where there is one. */
  replaces: string | null;
  children: ReactNode;
}) {
  function submit(event: FormEvent) {
    event.preventDefault();
    adding.go(undefined);
  }
  return (
    <form className={styles.rate} onSubmit={submit} aria-label={name}>
      <h3>{name}</h3>
      <div className={styles.fields}>{children}</div>
      {replaces === null ? null : (
        <p className={styles.consequence}>
          From that day there is {replaces} already: yours puts it right. Quotes already sent keep
          theirs.
        </p>
      )}
      {adding.sentence === undefined ? null : (
        <ErrorNote head="Not added">{adding.sentence}</ErrorNote>
      )}
      <div className={styles.ways}>
        <Button type="submit" busy={adding.busy ? 'Adding' : undefined}>
          {replaces === null ? 'Add the rate' : 'Put the rate right'}
        </Button>
      </div>
    </form>
  );
}
