'use client';

import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import styles from './people.module.css';
import type { ShopSheet } from './shop-documents.ts';
import { SetStorageRuleDocument } from './shop-mutations.ts';
import { useSetting } from './use-setting.ts';

/** What a day of storage costs once an aircraft is ready: the shop's own rule, off until it is set. */
export function StoragePart({ sheet: { shop } }: { sheet: ShopSheet }) {
  const rule = shop.storageRule;
  const [typed, setTyped] = useState({
    freeDays: String(rule?.freeDays ?? 7),
    dayPrice: rule?.dayPrice ?? '',
  });
  const freeDays = /^\d{1,4}$/.test(typed.freeDays.trim()) ? Number(typed.freeDays) : null;
  const dayPrice = typed.dayPrice.trim().replace(',', '.');
  const saving = useSetting(
    async () =>
      (
        await request(SetStorageRuleDocument, {
          input: { freeDays: freeDays ?? 0, dayPrice: dayPrice === '' ? null : dayPrice },
        })
      ).setStorageRule,
  );
  function submit(event: FormEvent) {
    event.preventDefault();
    if (freeDays !== null) saving.go(undefined);
  }
  return (
    <section className={styles.part} aria-labelledby="storage">
      <h2 id="storage">Storage after completion</h2>
      <p className={styles.second}>
        {rule?.dayPrice == null
          ? 'Off: nothing is proposed for an aircraft that stays after it is ready.'
          : `${rule.freeDays} days free after the owner was told, then ${rule.dayPrice} ${shop.currency} a day. It is proposed on the order and never charged by itself.`}
      </p>
      <form className={styles.form} onSubmit={submit} aria-label="Storage" data-screen-only="">
        <div className={styles.fields}>
          <Field
            label="Free days after telling"
            figures
            inputMode="numeric"
            value={typed.freeDays}
            wrong={
              saving.about('freeDays') ??
              (freeDays === null ? 'Needed are whole days, 0 or more.' : undefined)
            }
            onChange={(event) => setTyped({ ...typed, freeDays: event.currentTarget.value })}
          />
          <Field
            label="Price of a day, before tax"
            hint="Left out: storage costs nothing."
            figures
            inputMode="decimal"
            unit={shop.currency}
            value={typed.dayPrice}
            wrong={saving.about('dayPrice')}
            onChange={(event) => setTyped({ ...typed, dayPrice: event.currentTarget.value })}
          />
        </div>
        {saving.sentence === undefined || saving.about('freeDays', 'dayPrice') ? null : (
          <ErrorNote head="Not saved">{saving.sentence}</ErrorNote>
        )}
        <div>
          <Button
            type="submit"
            disabled={freeDays === null}
            busy={saving.busy ? 'Saving' : undefined}
          >
            Set the storage rule
          </Button>
        </div>
      </form>
    </section>
  );
}
