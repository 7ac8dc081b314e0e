'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import { More } from '../../components/More.tsx';
import type { ItemReasonInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { PutOffItemDocument } from '../work/item-documents.ts';
import type { OrderData } from './order-documents.ts';
import styles from './order-sheet.module.css';
import { useDoing } from './use-answer.ts';

/** Takes an item off this visit, with the reason and after what follows from it. */
export function PutOffAnItem({ items }: { items: OrderData['items'] }) {
  const [itemId, setItemId] = useState('');
  const [reason, setReason] = useState('');
  const putOff = useDoing(
    async (input: ItemReasonInput) => (await request(PutOffItemDocument, { input })).result,
    () => {
      setItemId('');
      setReason('');
    },
  );
  return (
    <div data-screen-only="">
      <More words="Put an item off">
        <div className={styles.stack}>
          <div className={styles.pair}>
            <Select
              label="Which item"
              value={itemId}
              onChange={(event) => setItemId(event.currentTarget.value)}
              options={[
                { value: '', words: 'choose the item' },
                ...items.map(({ id, position, title }) => ({
                  value: id,
                  words: `${position} · ${title}`,
                })),
              ]}
            />
            <Field
              label="Why it is put off"
              maxLength={500}
              value={reason}
              onChange={(event) => setReason(event.currentTarget.value)}
            />
          </div>
          <p className={styles.quiet}>
            It leaves the bench, no entry says that it was done, and the release no longer waits for
            it. Hours and parts already on it stay on it. Until the release a mechanic can take it
            up again.
          </p>
          {putOff.error === null ? null : (
            <ErrorNote head="Not put off">{putOff.error.message}</ErrorNote>
          )}
          <div>
            <Button
              disabled={itemId === '' || reason.trim().length < 3}
              busy={putOff.isPending ? 'Recording' : undefined}
              onClick={() => putOff.mutate({ itemId, reason })}
            >
              Put the item off
            </Button>
          </div>
        </div>
      </More>
    </div>
  );
}
