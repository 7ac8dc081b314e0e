'use client';

import { useState } from 'react';
import { Field } from '../../components/Field.tsx';
import { request } from '../../graphql/request.ts';
import { clientId } from '../../lib/client-id.ts';
import { useDoing } from '../quoting/use-answer.ts';
import { CoreCameBackDocument, CoreSentBackDocument } from './cores-documents.ts';
import { MoveFrame } from './move-frame.tsx';
import { typedQuantity } from './shelves.ts';
import styles from './stores.module.css';

/** An old part that is handed over: by an aircraft's work to the shop, or by the shop to its supplier. */
export interface CoreInHand {
  lotId: string;
  /** Left out: it goes to the supplier. */
  itemId?: string;
  part: string;
  /** From whom it comes, or to whom it goes. */
  whom: string;
  unit: string;
  quantity: string;
}

/** One opening of this form is one handing over. */
export function CoreForm({
  core,
  onDone,
  onLeave,
}: {
  core: CoreInHand;
  onDone: (said: string) => void;
  onLeave: () => void;
}) {
  const [key] = useState(clientId);
  const [typed, setTyped] = useState(core.quantity);
  const [words, setWords] = useState('');
  const { lotId, itemId, part, whom, unit } = core;
  const quantity = typedQuantity(typed);
  const tooMany = quantity !== null && Number(quantity) > Number(core.quantity);
  const hand = useDoing(
    async (given: string) => {
      const input = { lotId, quantity: given, words, clientEventId: key };
      return itemId === undefined
        ? (await request(CoreSentBackDocument, { input })).coreSentBack
        : (await request(CoreCameBackDocument, { input: { ...input, itemId } })).coreCameBack;
    },
    () =>
      onDone(
        `${quantity} ${unit} of ${part} ${itemId === undefined ? 'sent back to' : 'came back from'} ${whom}.`,
      ),
  );
  return (
    <MoveFrame
      name={itemId === undefined ? `Send the old one to ${whom}` : `The old one came from ${whom}`}
      says={`${part}. Its charge is not owed any more.`}
      yes={itemId === undefined ? 'It was sent' : 'It is here'}
      ready={quantity !== null && !tooMany}
      busy={hand.isPending ? 'Recording' : undefined}
      problem={hand.error}
      onNo={onLeave}
      onYes={() => {
        if (quantity !== null) hand.mutate(quantity);
      }}
    >
      <div className={styles.fields}>
        <Field
          label="How many"
          figures
          inputMode="decimal"
          autoComplete="off"
          unit={unit}
          hint={`${core.quantity} ${unit} are owed`}
          wrong={
            quantity === null
              ? `“${typed}” is no quantity: needed is more than 0, with at most 3 decimals.`
              : tooMany
                ? `${quantity} were given: ${core.quantity} are owed.`
                : undefined
          }
          value={typed}
          onChange={(event) => setTyped(event.currentTarget.value)}
        />
        <Field
          label="In which condition"
          hint="Such as: housing cracked, tag attached"
          maxLength={300}
          value={words}
          onChange={(event) => setWords(event.currentTarget.value)}
        />
      </div>
    </MoveFrame>
  );
}
