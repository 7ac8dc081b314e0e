'use client';

import type { FormEvent } from 'react';
import { AddressFields, givenAddress, typedAddress } from '../../components/AddressFields.tsx';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, LongField, Select } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import { amountText, minorFrom } from '../quoting/amount-field.ts';
import { ClearanceDrawing } from './clearance-drawing.tsx';
import styles from './people.module.css';
import { standingWords } from './people-words.ts';
import type { ShopSheet } from './shop-documents.ts';
import { ChangeShopDocument } from './shop-mutations.ts';
import { useSetting } from './use-setting.ts';
import { useTyped } from './use-typed.ts';

/** The shop as the title block of its own sheet, cell by cell, with the clearance drawn as it is typed. */
export function StandingPart({ sheet }: { sheet: ShopSheet }) {
  const { shop } = sheet;
  const {
    typed,
    type: set,
    forget,
    meanwhile,
  } = useTyped({
    name: shop.name,
    place: shop.place,
    ...typedAddress(shop.postalAddress),
    email: shop.email ?? '',
    vatNumber: shop.vatNumber ?? '',
    taxNumber: shop.taxNumber ?? '',
    registrationNumber: shop.registrationNumber ?? '',
    exemptionReason: shop.exemptionReason ?? '',
    timeZone: shop.timeZone,
    currency: shop.currency,
    standing: shop.standing,
    certificateNumber: shop.certificateNumber ?? '',
    clearance: String(shop.clearanceMm / 1000),
    billingStep: String(shop.billingStep),
    billingRounding: shop.billingRounding,
    billingMinimum: shop.billingMinimum ?? '',
    overrunSum:
      shop.overrunMinor == null ? '' : amountText(BigInt(shop.overrunMinor), shop.currency),
    overrunPercent: shop.overrunPercent ?? '',
    timeInServiceBasis: shop.timeInServiceBasis,
  });
  const metres = Number(typed.clearance.replace(',', '.'));
  const known = Number.isFinite(metres) && typed.clearance.trim() !== '' && metres >= 0;
  const saving = useSetting(async () => {
    const { clearance: _, overrunSum, line1, line2, city, postcode, country, ...rest } = typed;
    const sum = overrunSum.trim() === '' ? null : minorFrom(overrunSum, typed.currency);
    const input = {
      ...rest,
      postalAddress: givenAddress({ line1, line2, city, postcode, country }),
      expectedVersion: shop.version,
      clearanceMm: Math.round(metres * 1000),
      billingStep: typed.billingStep.trim().replace(',', '.'),
      billingMinimum:
        typed.billingMinimum.trim() === '' ? null : typed.billingMinimum.trim().replace(',', '.'),
      // What cannot be read as a sum is sent as 0, which the shop refuses with its sentence.
      overrunMinor: overrunSum.trim() === '' ? null : `${sum ?? 0n}`,
      overrunPercent:
        typed.overrunPercent.trim() === '' ? null : typed.overrunPercent.trim().replace(',', '.'),
    };
    return (await request(ChangeShopDocument, { input })).changeShop;
  }, forget);
  const inspectors = sheet.people.filter(
    ({ person, certificates }) =>
      person.active &&
      certificates.some(({ certificate }) => certificate.kind === 'repair_station_inspector'),
  ).length;
  function submit(event: FormEvent) {
    event.preventDefault();
    if (known) saving.go(undefined);
  }
  const text = (name: 'name' | 'timeZone', label: string) => (
    <Field
      label={label}
      required
      value={typed[name]}
      hint={meanwhile(name)}
      wrong={saving.about(name)}
      onChange={(event) => set({ [name]: event.currentTarget.value })}
    />
  );
  const registered = (
    name: 'vatNumber' | 'taxNumber' | 'registrationNumber' | 'exemptionReason',
    label: string,
    hint: string,
  ) => (
    <Field
      label={label}
      figures={name !== 'exemptionReason'}
      value={typed[name]}
      hint={meanwhile(name) ?? hint}
      wrong={saving.about(name)}
      onChange={(event) => set({ [name]: event.currentTarget.value })}
    />
  );
  const longText = (name: 'place' | 'timeInServiceBasis', label: string) => (
    <LongField
      label={label}
      required
      rows={2}
      value={typed[name]}
      hint={meanwhile(name)}
      wrong={saving.about(name)}
      onChange={(event) => set({ [name]: event.currentTarget.value })}
    />
  );
  return (
    <form className={styles.standing} onSubmit={submit} aria-label="The shop" data-on-paper="">
      <div className={styles.block}>
        {text('name', 'Name')}
        {text('timeZone', 'Time zone')}
        <div className={styles.whole}>{longText('place', 'Place')}</div>
        <AddressFields typed={typed} onType={set} wrong={saving.about} hint={meanwhile} />
        <Field
          label="E-mail of the front desk"
          type="email"
          autoComplete="off"
          value={typed.email}
          hint={
            meanwhile('email') ??
            'Answers to the shop’s mail go there, and news of owners’ answers.'
          }
          wrong={saving.about('email')}
          onChange={(event) => set({ email: event.currentTarget.value })}
        />
        {registered('registrationNumber', 'Legal registration', 'An e-invoice needs this or VAT.')}
        {registered('vatNumber', 'VAT number', 'With its country’s two letters before it.')}
        {registered('taxNumber', 'Other tax registration', 'Where there is no VAT number.')}
        <div className={styles.whole}>
          {registered(
            'exemptionReason',
            'Why tax category E is not taxed',
            'For invoices that have it.',
          )}
        </div>
        <Select
          label="Signs on"
          value={typed.standing}
          onChange={(event) =>
            set({ standing: event.currentTarget.value as typeof typed.standing })
          }
          hint={
            meanwhile('standing', (now) => standingWords[now as typeof typed.standing]) ??
            (typed.standing === shop.standing
              ? undefined
              : typed.standing === 'repair_station'
                ? `From then on entries name the station, and ${inspectors === 0 ? 'nobody is' : `${inspectors} are`} on its roster of inspectors.`
                : 'From then on each signs on a certificate of their own; annuals need an inspection authorization.')
          }
          options={[
            { value: 'mechanics', words: 'Mechanics’ own certificates' },
            { value: 'repair_station', words: 'Repair station (part 145)' },
          ]}
        />
        <Field
          label="Certificate number of the station"
          figures
          value={typed.certificateNumber}
          disabled={typed.standing === 'mechanics'}
          hint={meanwhile('certificateNumber')}
          wrong={saving.about('certificateNumber')}
          onChange={(event) => set({ certificateNumber: event.currentTarget.value })}
        />
        <Field
          label="Currency"
          figures
          value={typed.currency}
          disabled={sheet.currencyStays !== null}
          hint={
            meanwhile('currency') ??
            sheet.currencyStays ??
            'Until something is quoted it may change.'
          }
          wrong={saving.about('currency')}
          onChange={(event) => set({ currency: event.currentTarget.value.toUpperCase() })}
        />
        <Field
          label="Clocked time is billed in steps of"
          figures
          unit="h"
          inputMode="decimal"
          required
          value={typed.billingStep}
          hint={meanwhile('billingStep')}
          wrong={saving.about('billingStep')}
          onChange={(event) => set({ billingStep: event.currentTarget.value })}
        />
        <Select
          label="Rounded"
          value={typed.billingRounding}
          hint={meanwhile('billingRounding')}
          onChange={(event) =>
            set({ billingRounding: event.currentTarget.value as typeof typed.billingRounding })
          }
          options={[
            { value: 'up', words: 'up to the next step' },
            { value: 'nearest', words: 'to the nearest step' },
          ]}
        />
        <Field
          label="At least billed of an item"
          figures
          unit="h"
          inputMode="decimal"
          value={typed.billingMinimum}
          hint={meanwhile('billingMinimum') ?? 'Once its clock ran. Empty: no minimum.'}
          wrong={saving.about('billingMinimum')}
          onChange={(event) => set({ billingMinimum: event.currentTarget.value })}
        />
        <Field
          label="Past the owner’s yes without asking: sum"
          figures
          unit={typed.currency}
          inputMode="decimal"
          value={typed.overrunSum}
          hint={meanwhile('overrunSum') ?? 'Net. Empty here and beside it: nothing.'}
          wrong={saving.about('overrunMinor')}
          onChange={(event) => set({ overrunSum: event.currentTarget.value })}
        />
        <Field
          label="Past the owner’s yes without asking: share"
          figures
          unit="%"
          inputMode="decimal"
          value={typed.overrunPercent}
          hint={meanwhile('overrunPercent') ?? 'Of what was agreed. With both, the smaller.'}
          wrong={saving.about('overrunPercent')}
          onChange={(event) => set({ overrunPercent: event.currentTarget.value })}
        />
        <div className={styles.whole}>
          {longText('timeInServiceBasis', 'Time in service is derived from (14 CFR 1.1)')}
        </div>
      </div>
      <div className={styles.clearance}>
        <ClearanceDrawing metres={known ? metres : 0} />
        <Field
          label="Clearance around a parked aircraft"
          figures
          unit="m"
          inputMode="decimal"
          required
          value={typed.clearance}
          hint={
            meanwhile('clearance') ??
            'Stands too small for it are marked on the floor, and refused to new stays.'
          }
          wrong={
            known
              ? saving.about('clearanceMm')
              : `"${typed.clearance}" is no length: needed are metres, such as 1.5.`
          }
          onChange={(event) => set({ clearance: event.currentTarget.value })}
        />
      </div>
      <div className={styles.save}>
        {saving.sentence === undefined ? null : (
          <ErrorNote head="Not saved">{saving.sentence}</ErrorNote>
        )}
        <Button kind="primary" type="submit" busy={saving.busy ? 'Saving' : undefined}>
          Save the shop
        </Button>
      </div>
    </form>
  );
}
