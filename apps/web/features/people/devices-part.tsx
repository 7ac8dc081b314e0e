'use client';

import { useMutation, useQuery } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { auth, type Said } from '../../lib/auth.ts';
import { dayText } from '../../lib/figures/dates.ts';
import styles from './people.module.css';

interface Device {
  id: string;
  name: string;
  registeredAt: string;
}

function answerOf<Answer>(said: Said<Answer>): Answer {
  if ('sentence' in said) throw new Error(said.sentence);
  return said.answer;
}

/** The hangar's shared devices: on them people change by PIN or badge, and are mechanics and nothing more. */
export function DevicesPart({ timeZone }: { timeZone: string }) {
  const [name, setName] = useState('');
  const asked = useQuery({
    queryKey: ['devices'],
    queryFn: async () => answerOf(await auth<{ devices: Device[] }>('/auth/devices')).devices,
  });
  const registering = useMutation({
    mutationFn: async () => answerOf(await auth<{ name: string }>('/auth/device', { name })),
    onSuccess: () => {
      setName('');
      return asked.refetch();
    },
  });
  const ending = useMutation({
    mutationFn: async (id: string) => answerOf(await auth('/auth/device/end', { id })),
    onSuccess: () => asked.refetch(),
  });
  const register = (event: FormEvent) => {
    event.preventDefault();
    registering.mutate();
  };
  const devices = asked.data ?? [];
  return (
    <section aria-labelledby="devices" className={styles.part}>
      <h2 id="devices">Shared devices in the hangar</h2>
      <p>
        On a device that you register, people change by a PIN of six digits, which each chooses on
        the bench, or by a badge. There they work as mechanics; signing, prices and this sheet want
        a password.
      </p>
      <ul className={styles.devices}>
        {devices.map((device) => (
          <li key={device.id}>
            {device.name}, since {dayText(device.registeredAt, timeZone)}{' '}
            <Button
              kind="plain"
              aria-label={`End ${device.name}`}
              onClick={() => ending.mutate(device.id)}
            >
              End it, and sign out who is on it
            </Button>
          </li>
        ))}
        {devices.length === 0 && asked.isSuccess ? <li>None yet.</li> : null}
      </ul>
      <form className={styles.ask} onSubmit={register} aria-label="Register this device">
        <Field
          label="Name of the device you sit at"
          hint="It stays registered when you sign out. Do it on the tablet itself."
          maxLength={60}
          required
          value={name}
          wrong={registering.error?.message}
          onChange={(event) => setName(event.currentTarget.value)}
        />
        <div className={styles.ways}>
          <Button type="submit" busy={registering.isPending ? 'Registering' : undefined}>
            Register this device
          </Button>
        </div>
      </form>
      {(ending.error ?? asked.error) ? (
        <ErrorNote head="Not done">{(ending.error ?? asked.error)?.message}</ErrorNote>
      ) : null}
    </section>
  );
}
