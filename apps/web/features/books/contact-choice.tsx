'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import { SaidNo } from '../quoting/use-answer.ts';
import styles from './books.module.css';
import { AddContactDocument, ContactsDocument } from './payer-documents.ts';

const NEW = 'new';

/** Somebody outside the shop: one whom the shop knows, or somebody new, who is added first. */
export function ContactChoice({
  label,
  value,
  without = [],
  onChoose,
}: {
  label: string;
  value: string;
  /** Contacts that make no sense here. */
  without?: readonly string[];
  onChoose: (contactId: string) => void;
}) {
  const [name, setName] = useState('');
  const [email, setEmail] = useState('');
  const [adding, setAdding] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const asked = useQuery({
    queryKey: ['contacts'],
    queryFn: async () => (await request(ContactsDocument)).contacts,
  });
  async function add() {
    setAdding(true);
    setProblem(null);
    try {
      const { result } = await request(AddContactDocument, {
        input: { name, email: email || null },
      });
      if (result.__typename === 'Refusal') throw new SaidNo(result.message);
      await asked.refetch();
      onChoose(result.id);
    } catch (error) {
      setProblem(error instanceof Error ? error.message : 'It was not answered.');
    } finally {
      setAdding(false);
    }
  }
  return (
    <>
      <Select
        label={label}
        value={value}
        onChange={(event) => onChoose(event.currentTarget.value)}
        options={[
          { value: '', words: asked.isPending ? 'fetching' : 'choose who' },
          ...(asked.data ?? [])
            .filter(({ id }) => !without.includes(id))
            .map((each) => ({
              value: each.id,
              words: each.email === null ? each.name : `${each.name}, ${each.email}`,
            })),
          { value: NEW, words: 'somebody new' },
        ]}
      />
      {value === NEW ? (
        <>
          <Field
            label="Their name"
            maxLength={120}
            value={name}
            onChange={(event) => setName(event.currentTarget.value)}
          />
          <Field
            label="Their e-mail"
            type="email"
            autoComplete="off"
            value={email}
            onChange={(event) => setEmail(event.currentTarget.value)}
          />
          <div className={styles.ways}>
            <Button
              disabled={name.trim() === ''}
              busy={adding ? 'Adding' : undefined}
              onClick={() => void add()}
            >
              Add them
            </Button>
          </div>
        </>
      ) : null}
      {asked.error === null ? null : (
        <ErrorNote head="No contacts to show">{asked.error.message}</ErrorNote>
      )}
      {problem === null ? null : <ErrorNote head="Not added">{problem}</ErrorNote>}
    </>
  );
}

/** Whether somebody was chosen who is known already. */
export const isChosen = (contactId: string): boolean => contactId !== '' && contactId !== NEW;
