'use client';

import { useMutation } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Field } from '../../components/Field.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { auth } from '../../lib/auth.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import styles from './people.module.css';

/** Somebody chooses the six digits with which they change on a shared device. */
export function PinSheet() {
  const viewer = useViewer();
  const [pin, setPin] = useState('');
  const setting = useMutation({
    mutationFn: async () => {
      const said = await auth('/auth/pin', { pin });
      if ('sentence' in said) throw new Error(said.sentence);
    },
    onSuccess: () => setPin(''),
  });
  const set = (event: FormEvent) => {
    event.preventDefault();
    setting.mutate();
  };
  return (
    <Sheet
      here="bench"
      reading="bench"
      viewer={viewer.data ? viewer.data.person : null}
      title="Your PIN"
      titleBlock={{
        what: 'A PIN for the hangar’s shared device',
        cells: [{ label: 'Who', value: viewer.data?.person.name ?? '' }],
      }}
    >
      <form className={styles.ask} onSubmit={set} aria-label="Your PIN">
        <p>
          With six digits you change on the hangar’s shared device. It opens nothing elsewhere, and
          signs nothing.
        </p>
        <Field
          label="Six digits"
          type="password"
          inputMode="numeric"
          autoComplete="new-password"
          pattern="\d{6}"
          maxLength={6}
          required
          figures
          value={pin}
          wrong={setting.error?.message}
          onChange={(event) => setPin(event.currentTarget.value)}
        />
        <div className={styles.ways}>
          <Button
            type="submit"
            kind="primary"
            size="bench"
            busy={setting.isPending ? 'Setting' : undefined}
          >
            Set it
          </Button>
        </div>
        {setting.isSuccess ? <p role="status">Set. It counts from now on.</p> : null}
      </form>
    </Sheet>
  );
}
