'use client';

import { useState } from 'react';
import { Field, Select } from '../../components/Field.tsx';
import type { IssuePartInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { clientId } from '../../lib/client-id.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { MoveFrame } from './move-frame.tsx';
import { typedQuantity } from './shelves.ts';
import styles from './stores.module.css';
import { IssuePartDocument, type Lot, type OrderWithParts } from './stores-documents.ts';

/** Takes parts out of a lot for an item of work. One opening of this form is one movement. */
export function IssueForm({
  lot,
  orders,
  onDone,
  onLeave,
}: {
  lot: Lot;
  orders: readonly OrderWithParts[];
  /** Told what happened, in a sentence. */
  onDone: (said: string) => void;
  onLeave: () => void;
}) {
  const [key] = useState(clientId);
  const [itemId, setItemId] = useState('');
  const [typed, setTyped] = useState('1');
  const options = orders.flatMap(({ aircraft, items }) =>
    items
      .filter(({ state }) => state !== 'put_off')
      .map(({ id, position, title }) => ({
        value: id,
        words: `${aircraft.registration}, ${position} ${title}`,
      })),
  );
  const quantity = typedQuantity(typed);
  const tooMany = quantity !== null && Number(quantity) > Number(lot.onHand);
  const { title, unit } = lot.part;
  const issue = useDoing(
    async (input: IssuePartInput) => (await request(IssuePartDocument, { input })).issuePart,
    () =>
      onDone(
        `${quantity} ${unit} of ${title} issued to ${options.find(({ value }) => value === itemId)?.words ?? 'the work'}.`,
      ),
  );
  return (
    <MoveFrame
      name={`Issue ${title}, batch ${lot.batch}`}
      says="It is billed with that work, and its batch is kept with it."
      yes="Issue it"
      ready={quantity !== null && !tooMany && itemId !== ''}
      busy={issue.isPending ? 'Recording' : undefined}
      problem={issue.error}
      onNo={onLeave}
      onYes={() => {
        if (quantity !== null)
          issue.mutate({ lotId: lot.id, itemId, quantity, clientEventId: key });
      }}
    >
      <div className={styles.fields}>
        <Select
          label="For which work"
          hint={options.length === 0 ? 'No aircraft is here: parts go to work' : undefined}
          value={itemId}
          onChange={(event) => setItemId(event.currentTarget.value)}
          options={[{ value: '', words: 'choose the work' }, ...options]}
        />
        <Field
          label="How many"
          figures
          inputMode="decimal"
          autoComplete="off"
          unit={unit}
          hint={`${lot.onHand} ${unit} are there`}
          wrong={
            quantity === null
              ? `“${typed}” is no quantity: needed is more than 0, with at most 3 decimals.`
              : tooMany
                ? `${quantity} were given: the lot holds ${lot.onHand}.`
                : undefined
          }
          value={typed}
          onChange={(event) => setTyped(event.currentTarget.value)}
        />
      </div>
    </MoveFrame>
  );
}
