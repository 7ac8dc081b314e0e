'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Choices } from '../../components/Choice.tsx';
import { AskFirst } from './AskFirst.tsx';

const NOBODY = 'nobody';

/** Under whose supervision somebody works today: asked before the first clock of the day. */
export function SupervisorFirst({
  supervisors,
  chosen,
  words,
  onChosen,
  onLeave,
}: {
  supervisors: readonly { id: string; name: string }[];
  /** Who it was until now; null: nobody; undefined: not said. */
  chosen: string | null | undefined;
  /** What the button does. */
  words: string;
  onChosen: (byId: string | null) => void;
  onLeave: () => void;
}) {
  const [value, setValue] = useState(chosen === null ? NOBODY : (chosen ?? ''));
  return (
    <AskFirst head="Under whose supervision?" onLeave={onLeave}>
      <p>
        Whoever supervises sees to it personally that it is done properly, and is at hand (14 CFR
        43.3(d)). The same hours stand with both of you and are billed once.
      </p>
      <Choices
        legend="Today"
        name="supervisor"
        options={[
          ...supervisors.map(({ id, name }) => ({ value: id, words: name })),
          { value: NOBODY, words: 'Nobody: this is no work on an aircraft' },
        ]}
        value={value}
        onChoose={setValue}
      />
      <Button
        kind="primary"
        size="bench"
        disabled={value === ''}
        onClick={() => onChosen(value === NOBODY ? null : value)}
      >
        {words}
      </Button>
    </AskFirst>
  );
}
