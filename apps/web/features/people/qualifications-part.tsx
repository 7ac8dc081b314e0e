'use client';

import { useQuery, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, Select } from '../../components/Field.tsx';
import { More } from '../../components/More.tsx';
import type { QualificationKind } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { calendarDateText } from '../../lib/figures/dates.ts';
import styles from './people.module.css';
import {
  type Qualification,
  QualificationsDocument,
  StateQualificationDocument,
  WithdrawQualificationDocument,
} from './qualification-documents.ts';
import type { ShopSheet } from './shop-documents.ts';
import { useSetting } from './use-setting.ts';

export const qualificationWords: Record<QualificationKind, string> = {
  work_done: 'did such work satisfactorily before (65.81(a))',
  work_shown: 'showed it under direct supervision (65.81(a))',
  served: 'served as a mechanic, or supervised (65.83(b))',
  found_able: 'found able by the authority (65.83(a))',
  inspection_activity: 'activity for the inspection authorization (65.93(a))',
  release_authorised: 'signs releases for the station (145.161(a)(3))',
  station_rating: 'the station’s own rating (145.59)',
};
const ratings = ['airframe', 'powerplant', 'propeller', 'radio', 'instrument'];
const ofWork = (kind: QualificationKind) => kind === 'work_done' || kind === 'work_shown';
const ofRating = (kind: QualificationKind) =>
  kind === 'release_authorised' || kind === 'station_rating';

/** What signatures rest on besides certificates: who did such work before, who served lately, the station's ratings. */
export function QualificationsPart({ sheet }: { sheet: ShopSheet }) {
  const asked = useQuery({
    queryKey: ['qualifications'],
    queryFn: () => request(QualificationsDocument, {}),
  });
  const answer = asked.data?.qualifications;
  const list = answer?.__typename === 'QueryQualificationsSuccess' ? answer.data : [];
  const problem =
    asked.error?.message ?? (answer?.__typename === 'Refusal' ? answer.message : null);
  const groups = new Map<string, Qualification[]>();
  for (const one of list) {
    const name = one.person?.name ?? 'The shop';
    groups.set(name, [...(groups.get(name) ?? []), one]);
  }
  return (
    <section className={styles.part} aria-labelledby="qualifications">
      <h2 id="qualifications">What signatures rest on</h2>
      <p>
        Besides a certificate a mechanic needs to have done such work before (14 CFR 65.81(a)) and
        to have served lately (65.83); an inspection authorization asks for its activities (65.93),
        a repair station for its ratings and its roster (145.59, 145.161). What the shop’s own
        records show counts by itself; the rest is entered here with its paper. Whether somebody may
        sign stays theirs to know.
      </p>
      {problem === null ? null : <ErrorNote head="Not fetched">{problem}</ErrorNote>}
      {[...groups].map(([name, ones]) => (
        <More key={name} words={`${name}: ${ones.filter((one) => one.withdrawn == null).length}`}>
          <ul className={styles.certificates}>
            {ones.map((one) => (
              <Stated key={one.id} one={one} />
            ))}
          </ul>
        </More>
      ))}
      <More words="Enter one">
        <StateForm sheet={sheet} works={asked.data?.kindsOfWorkToApprove ?? []} />
      </More>
    </section>
  );
}

function Stated({ one }: { one: Qualification }) {
  const { id, kind, about, validFrom, validUntil, paper, withdrawn, by } = one;
  const [words, setWords] = useState('');
  const client = useQueryClient();
  const withdrawing = useSetting(
    async () => (await request(WithdrawQualificationDocument, { id, words })).withdrawQualification,
    () => void client.invalidateQueries({ queryKey: ['qualifications'] }),
  );
  return (
    <li data-over={withdrawn == null ? undefined : ''}>
      <span>
        {qualificationWords[kind]}
        {about === '' ? '' : `: ${about}`}, from {calendarDateText(validFrom)}
        {validUntil == null ? '' : ` to ${calendarDateText(validUntil)}`}. {paper}. Entered by{' '}
        {by.name}.{withdrawn == null ? '' : ` Does not hold: ${withdrawn}.`}
      </span>
      {withdrawn == null ? (
        <More words="It does not hold">
          <div className={styles.ask}>
            <Field
              label="Why"
              maxLength={300}
              value={words}
              onChange={(event) => setWords(event.currentTarget.value)}
            />
            {withdrawing.sentence === undefined ? null : (
              <ErrorNote head="Not recorded">{withdrawing.sentence}</ErrorNote>
            )}
            <Button
              disabled={words.trim().length < 3}
              busy={withdrawing.busy ? 'Recording' : undefined}
              onClick={() => withdrawing.go(undefined)}
            >
              Record it
            </Button>
          </div>
        </More>
      ) : null}
    </li>
  );
}

const empty = { personId: '', subject: '', validFrom: '', validUntil: '', paper: '' };

function StateForm({
  sheet,
  works,
}: {
  sheet: ShopSheet;
  works: readonly { key: string; title: string }[];
}) {
  const [kind, setKind] = useState<QualificationKind>('work_done');
  const [typed, setTyped] = useState(empty);
  const client = useQueryClient();
  const stating = useSetting(
    async () => {
      const { personId, subject, validFrom, validUntil, paper } = typed;
      const input = {
        ...{ kind, validFrom, paper, validUntil: validUntil || null },
        personId: kind === 'station_rating' ? null : personId,
        subject: ofWork(kind) || ofRating(kind) ? subject : '',
      };
      return (await request(StateQualificationDocument, { input })).stateQualification;
    },
    () => {
      setTyped(empty);
      void client.invalidateQueries({ queryKey: ['qualifications'] });
    },
  );
  const text = (key: keyof typeof empty) => ({
    value: typed[key],
    wrong: stating.about(key),
    onChange: (event: { currentTarget: { value: string } }) => {
      const { value } = event.currentTarget;
      setTyped((before) => ({ ...before, [key]: value }));
    },
  });
  const subjects = ofWork(kind)
    ? works.map(({ key, title }) => ({ value: key, words: title }))
    : ratings.map((rating) => ({ value: rating, words: rating }));
  const complete =
    typed.validFrom !== '' &&
    typed.paper.trim().length > 2 &&
    (kind === 'station_rating' || typed.personId !== '') &&
    (!(ofWork(kind) || ofRating(kind)) || typed.subject !== '');
  const submit = (event: FormEvent) => {
    event.preventDefault();
    stating.go(undefined);
  };
  return (
    <form className={styles.ask} onSubmit={submit} aria-label="What a signature rests on">
      <div className={styles.fields}>
        <div className={styles.whole}>
          <Select
            label="What"
            value={kind}
            onChange={(event) => {
              setKind(event.currentTarget.value as QualificationKind);
              setTyped((before) => ({ ...before, subject: '' }));
            }}
            options={Object.entries(qualificationWords).map(([value, words]) => ({ value, words }))}
          />
        </div>
        {kind === 'station_rating' ? null : (
          <Select
            label="Whose"
            {...text('personId')}
            options={[
              { value: '', words: 'choose' },
              ...sheet.people
                .filter(({ person }) => person.active)
                .map(({ person }) => ({ value: person.id, words: person.name })),
            ]}
          />
        )}
        {ofWork(kind) || ofRating(kind) ? (
          <Select
            label={ofWork(kind) ? 'Which work' : 'Which rating'}
            {...text('subject')}
            options={[{ value: '', words: 'choose' }, ...subjects]}
          />
        ) : null}
        <Field label="From" type="date" required {...text('validFrom')} />
        <Field label="Through" type="date" hint="Empty: it goes on" {...text('validUntil')} />
        <Field
          label="Where it stands"
          hint="The paper and its page; who supervised"
          required
          maxLength={300}
          {...text('paper')}
        />
      </div>
      {stating.sentence === undefined ? null : (
        <ErrorNote head="Not entered">{stating.sentence}</ErrorNote>
      )}
      <div className={styles.ways}>
        <Button type="submit" disabled={!complete} busy={stating.busy ? 'Entering' : undefined}>
          Enter it
        </Button>
      </div>
    </form>
  );
}
