'use client';

import { useState } from 'react';
import { Field, Select } from '../../../components/Field.tsx';
import { request } from '../../../graphql/request.ts';
import { useDoing } from '../../quoting/use-answer.ts';
import { FormFrame } from './form-frame.tsx';
import { type OrderOutside, SendOutDocument } from './outside-documents.ts';

/** What goes to another shop, to whom, and for when it is promised. */
export function SendForm({ items, onBack }: { items: OrderOutside['items']; onBack: () => void }) {
  const [typed, setTyped] = useState({
    ...{ itemId: items.length === 1 ? (items[0]?.id ?? '') : '', vendor: '', what: '' },
    ...{ partNumber: '', serial: '', promisedOn: '' },
  });
  const sending = useDoing(
    async () =>
      (
        await request(SendOutDocument, {
          input: { ...typed, promisedOn: typed.promisedOn === '' ? null : typed.promisedOn },
        })
      ).result,
    onBack,
  );
  const field = (
    key: Exclude<keyof typeof typed, 'itemId'>,
    label: string,
    more: { hint?: string; maxLength?: number; type?: string } = {},
  ) => (
    <Field
      label={label}
      value={typed[key]}
      {...more}
      onChange={(event) => setTyped({ ...typed, [key]: event.currentTarget.value })}
    />
  );
  return (
    <FormFrame
      name="Send something out"
      yes="Sent"
      ready={
        typed.itemId !== '' && typed.vendor.trim().length >= 2 && typed.what.trim().length >= 3
      }
      doing={sending}
      onYes={() => sending.mutate(undefined)}
      onBack={onBack}
    >
      <Select
        label="For which work"
        value={typed.itemId}
        onChange={(event) => setTyped({ ...typed, itemId: event.currentTarget.value })}
        options={[
          { value: '', words: 'choose the item' },
          ...items.map(({ id, position, title }) => ({
            value: id,
            words: `${position} · ${title}`,
          })),
        ]}
      />
      {field('vendor', 'To whom', { maxLength: 120 })}
      {field('what', 'What, and what for', { maxLength: 200 })}
      {field('partNumber', 'Part number', { maxLength: 60 })}
      {field('serial', 'Serial number', { maxLength: 60 })}
      {field('promisedOn', 'Promised for', {
        type: 'date',
        hint: 'Left out: nobody can say; then no day is promised for the visit either.',
      })}
    </FormFrame>
  );
}
