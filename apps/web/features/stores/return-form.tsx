'use client';

import { useState } from 'react';
import { Field } from '../../components/Field.tsx';
import type { ReturnPartInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { clientId } from '../../lib/client-id.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { MoveFrame } from './move-frame.tsx';
import type { PartOut } from './out-list.tsx';
import { typedQuantity } from './shelves.ts';
import styles from './stores.module.css';
import { ReturnPartDocument } from './stores-documents.ts';

/** Puts back into its lot what an item did not need. */
export function ReturnForm({
  out,
  onDone,
  onLeave,
}: {
  out: PartOut;
  onDone: (said: string) => void;
  onLeave: () => void;
}) {
  const [key] = useState(clientId);
  const [typed, setTyped] = useState(out.quantity);
  const quantity = typedQuantity(typed);
  const tooMany = quantity !== null && Number(quantity) > Number(out.quantity);
  const bring = useDoing(
    async (input: ReturnPartInput) => (await request(ReturnPartDocument, { input })).returnPart,
    () => onDone(`${quantity} ${out.unit} of ${out.part} came back from ${out.item}.`),
  );
  return (
    <MoveFrame
      name={`Return ${out.part}`}
      says={`From ${out.item}. What comes back is not billed, and can be issued again.`}
      yes="Return it"
      ready={quantity !== null && !tooMany}
      busy={bring.isPending ? 'Recording' : undefined}
      problem={bring.error}
      onNo={onLeave}
      onYes={() => {
        if (quantity !== null)
          bring.mutate({ lotId: out.lotId, itemId: out.itemId, quantity, clientEventId: key });
      }}
    >
      <div className={styles.fields}>
        <Field
          label="How many"
          figures
          inputMode="decimal"
          autoComplete="off"
          unit={out.unit}
          hint={`${out.quantity} ${out.unit} are out`}
          wrong={
            quantity === null
              ? `“${typed}” is no quantity: needed is more than 0, with at most 3 decimals.`
              : tooMany
                ? `${quantity} were given: ${out.quantity} are out.`
                : undefined
          }
          value={typed}
          onChange={(event) => setTyped(event.currentTarget.value)}
        />
      </div>
    </MoveFrame>
  );
}
