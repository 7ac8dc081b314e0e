'use client';

import { useMutation } from '@tanstack/react-query';
import { type FormEvent, useEffect, useRef, useState } from 'react';
import { AddressFields, givenAddress, typedAddress } from '../../components/AddressFields.tsx';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { request } from '../../graphql/request.ts';
import styles from './books.module.css';
import { type Invoice, SetContactAddressDocument } from './invoice-documents.ts';

/** Where the payer's invoices go. Left empty, none is known any more. */
export function AddressForm({
  contact,
  onBack,
  onSaved,
}: {
  contact: Invoice['contact'];
  onBack: () => void;
  onSaved: () => Promise<unknown>;
}) {
  const form = useRef<HTMLFormElement>(null);
  const [typed, setTyped] = useState(() => typedAddress(contact.postalAddress));
  useEffect(() => form.current?.querySelector('input')?.focus(), []);
  const saving = useMutation({
    mutationFn: async () => {
      const input = { contactId: contact.id, postalAddress: givenAddress(typed) };
      return (await request(SetContactAddressDocument, { input })).setContactAddress;
    },
    onSuccess: async (saved) => {
      if (saved.__typename !== 'Refusal') await onSaved();
    },
  });
  const refused = saving.data?.__typename === 'Refusal' ? saving.data : null;
  const sentence = refused?.message ?? saving.error?.message;
  const about = (part: string) => (refused?.field === part ? refused.message : undefined);
  function submit(event: FormEvent) {
    event.preventDefault();
    saving.mutate();
  }
  return (
    <form
      ref={form}
      className={styles.ask}
      aria-label="The payer’s address"
      onSubmit={submit}
      onKeyDown={(event) => {
        if (event.key === 'Escape' && !saving.isPending) onBack();
      }}
    >
      <p>Where the invoices of {contact.name} go. What is issued from now on has it.</p>
      <div className={styles.fields}>
        <AddressFields
          typed={typed}
          onType={(part) => setTyped((before) => ({ ...before, ...part }))}
          wrong={about}
        />
      </div>
      {sentence === undefined || about(refused?.field ?? '') !== undefined ? null : (
        <ErrorNote head="Not saved">{sentence}</ErrorNote>
      )}
      <div className={styles.ways}>
        <Button kind="primary" type="submit" busy={saving.isPending ? 'Saving' : undefined}>
          Save the address
        </Button>
        <Button disabled={saving.isPending} onClick={onBack}>
          Not now
        </Button>
      </div>
    </form>
  );
}
