'use client';

import { useQuery } from '@tanstack/react-query';
import { useRouter } from 'next/navigation';
import { type FormEvent, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import { Sheet } from '../../components/Sheet.tsx';
import { SheetLink } from '../../components/SheetLink.tsx';
import type { Meter } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { useViewer } from '../../lib/use-viewer.ts';
import { hundredthsOf } from '../programme/typed-hours.ts';
import { useDoing } from '../quoting/use-answer.ts';
import styles from './fleet.module.css';
import { AddAircraftDocument, ModelsOfShopDocument } from './fleet-documents.ts';
import { NewModel } from './new-model.tsx';

const NEW = 'new';
const meters: { value: Meter; words: string }[] = [
  { value: 'tachometer', words: 'tachometer' },
  { value: 'engine_on', words: 'engine-on meter' },
  { value: 'airborne', words: 'airborne meter' },
];
const notes = [
  'Time in service runs from leaving the surface to touching down (14 CFR 1.1). It is what the records of the aircraft say, not what a new meter shows.',
  'Everything that falls due is counted from what is said here; its own sheet asks for directives, limits and parts next.',
];

/** Takes an aircraft in that the shop has not had yet. */
export function NewAircraft() {
  const viewer = useViewer();
  const { data, error, refetch } = useQuery({
    queryKey: ['modelsOfShop'],
    queryFn: async () => (await request(ModelsOfShopDocument)).models,
  });
  const problem = viewer.error ?? error;
  return (
    <Sheet
      here="desk"
      viewer={viewer.data?.person ?? null}
      title="New aircraft"
      notes={notes}
      titleBlock={{
        what: 'An aircraft that the shop has not had yet',
        cells: [{ label: 'Shop', value: viewer.data?.shop.name ?? '', span: 'whole' }],
      }}
    >
      {data && viewer.data ? (
        <AircraftForm models={data} onModels={() => void refetch()} />
      ) : problem ? (
        <ErrorNote head="Cannot take an aircraft in">{problem.message}</ErrorNote>
      ) : (
        <Loading>Fetching the models that the shop knows</Loading>
      )}
      <p>
        <SheetLink href="/desk">Front desk</SheetLink>
      </p>
    </Sheet>
  );
}

function AircraftForm({
  models,
  onModels,
}: {
  models: readonly { id: string; maker: string; name: string }[];
  onModels: () => void;
}) {
  const router = useRouter();
  const made = useRef('');
  const [modelId, setModelId] = useState(models[0]?.id ?? NEW);
  const [given, setGiven] = useState({
    registration: '',
    serial: '',
    year: '',
    meter: 'tachometer',
    reading: '',
    tis: '',
  });
  const field = (name: keyof typeof given) => ({
    value: given[name],
    onChange: (event: { currentTarget: { value: string } }) => {
      const { value } = event.currentTarget;
      setGiven((before) => ({ ...before, [name]: value }));
    },
  });
  const unread = (typed: string) =>
    typed.trim() !== '' && hundredthsOf(typed) < 0 ? 'needed: hours, such as 2812.4' : undefined;
  const adding = useDoing(
    async () => {
      const { answer } = await request(AddAircraftDocument, {
        input: {
          modelId,
          registration: given.registration,
          serial: given.serial,
          year: /^\d{4}$/.test(given.year.trim())
            ? Number(given.year)
            : given.year === ''
              ? null
              : 0,
          meter: given.meter as Meter,
          readingHundredths: hundredthsOf(given.reading),
          tisHundredths: hundredthsOf(given.tis),
        },
      });
      if (answer.__typename === 'Aircraft') made.current = answer.id;
      return answer;
    },
    () => router.push(`/records/aircraft/${encodeURIComponent(made.current)}#answers`),
  );
  const submit = (event: FormEvent) => {
    event.preventDefault();
    adding.mutate(undefined);
  };
  return (
    <>
      <div className={styles.part}>
        <Select
          label="Model"
          options={[
            ...models.map(({ id, maker, name }) => ({ value: id, words: `${maker} ${name}` })),
            { value: NEW, words: 'one that the shop does not know yet' },
          ]}
          value={modelId}
          onChange={(event) => setModelId(event.currentTarget.value)}
        />
        {modelId === NEW ? (
          <NewModel
            onDone={(id) => {
              onModels();
              setModelId(id);
            }}
          />
        ) : null}
      </div>
      <form className={styles.form} onSubmit={submit} noValidate aria-label="The aircraft">
        <div className={styles.fields}>
          <Field
            label="Registration"
            hint="As it stands on the aircraft."
            maxLength={13}
            figures
            {...field('registration')}
          />
          <Field label="Serial number" maxLength={60} figures {...field('serial')} />
          <Field
            label="Year of manufacture"
            hint="Empty: not known."
            inputMode="numeric"
            maxLength={4}
            figures
            {...field('year')}
          />
          <Select label="Meter that is read" options={meters} {...field('meter')} />
          <Field
            label="It shows"
            inputMode="decimal"
            unit="h"
            figures
            wrong={unread(given.reading)}
            {...field('reading')}
          />
          <Field
            label="Time in service"
            hint="As its records say."
            wrong={unread(given.tis)}
            inputMode="decimal"
            unit="h"
            figures
            {...field('tis')}
          />
        </div>
        {adding.error ? <ErrorNote head="Not taken in">{adding.error.message}</ErrorNote> : null}
        <div className={styles.buttons}>
          <Button
            kind="primary"
            type="submit"
            disabled={modelId === NEW || given.reading.trim() === '' || given.tis.trim() === ''}
            busy={adding.isPending ? 'Taking it in' : undefined}
          >
            Take it in
          </Button>
          {modelId === NEW ? (
            <span className={styles.second}>Say what model it is first.</span>
          ) : null}
        </div>
      </form>
    </>
  );
}
