'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Choices, Tick } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, LongField, Select } from '../../components/Field.tsx';
import { More } from '../../components/More.tsx';
import type { InoperativeMethod, LeaveInoperativeInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import type { FindingData } from './finding-on-sheet.ts';
import styles from './finding-part.module.css';
import {
  InoperativeQuestionsDocument,
  LeaveInoperativeDocument,
  WithdrawInoperativeDocument,
} from './inoperative-documents.ts';
import { useDoing } from './use-answer.ts';

/** That equipment stays inoperative: who found it, by what, and where the placard is. */
export function InoperativeWords({
  finding,
  timeZone,
}: {
  finding: FindingData;
  timeZone: string;
}) {
  const newest = finding.inoperative[0];
  if (newest?.kind !== 'left' || finding.state === 'corrected') return null;
  return (
    <div className={styles.meaning}>
      <p>
        <b>Left inoperative</b> (14 CFR 91.213(d)): {newest.equipment},{' '}
        {newest.method === 'removed' ? 'removed' : 'deactivated'}, placarded “Inoperative”:{' '}
        {newest.placardAt}.
      </p>
      <ul>
        {newest.answers.map((answer) => (
          <li key={answer}>{answer}</li>
        ))}
      </ul>
      <p className={styles.who}>
        {newest.by.name}, {newest.capacity}, {dayAndTimeText(newest.at, timeZone)}
      </p>
    </div>
  );
}

/** A qualified person finds that it may stay so, question by question; or takes it back. */
export function InoperativePart({ finding }: { finding: FindingData }) {
  if (finding.inoperative[0]?.kind === 'left')
    return (
      <More words="It may not stay inoperative after all">
        <WithdrawForm findingId={finding.id} />
      </More>
    );
  if (finding.class === 'unairworthy') return null;
  return (
    <More words="It is equipment that stays inoperative">
      <LeaveForm finding={finding} />
    </More>
  );
}

function LeaveForm({ finding }: { finding: FindingData }) {
  const asked = useQuery({
    queryKey: ['inoperativeQuestions'],
    queryFn: async () => (await request(InoperativeQuestionsDocument, {})).inoperativeQuestions,
  });
  const [equipment, setEquipment] = useState('');
  const [placardAt, setPlacardAt] = useState('');
  const [method, setMethod] = useState<InoperativeMethod>('deactivated');
  const [itemId, setItemId] = useState('');
  const [ownList, setOwnList] = useState(false);
  const [answers, setAnswers] = useState<Record<string, string>>({});
  const leave = useDoing(
    async (input: LeaveInoperativeInput) =>
      (await request(LeaveInoperativeDocument, { input })).leaveInoperative,
  );
  if (asked.error) return <ErrorNote head="Not fetched">{asked.error.message}</ErrorNote>;
  const questions = asked.data ?? [];
  const answered = (key: string) => (answers[key] ?? '').trim();
  const complete =
    equipment.trim().length > 1 &&
    placardAt.trim().length > 2 &&
    questions.length > 0 &&
    questions.every(({ key }) => answered(key).length > 2) &&
    (method === 'deactivated' || itemId !== '');
  return (
    <div className={styles.form}>
      {finding.inoperativeCautions.map((caution) => (
        <p key={caution} className={styles.who}>
          {caution}
        </p>
      ))}
      <Field
        label="Which equipment"
        required
        maxLength={120}
        value={equipment}
        onChange={(event) => setEquipment(event.currentTarget.value)}
      />
      {questions.map(({ key, paragraph, asks }) => (
        <LongField
          key={key}
          label={`It is ${asks}`}
          hint={`14 CFR ${paragraph}: by which page, note or number you found that`}
          rows={2}
          required
          maxLength={300}
          value={answers[key] ?? ''}
          onChange={(event) => {
            const { value } = event.currentTarget;
            setAnswers((before) => ({ ...before, [key]: value }));
          }}
        />
      ))}
      <Choices
        legend="How it is kept from being used, 91.213(d)(3)"
        name={`method-${finding.id}`}
        value={method}
        onChoose={(value) => setMethod(value as InoperativeMethod)}
        options={[
          { value: 'deactivated', words: 'Deactivated, and placarded' },
          {
            value: 'removed',
            words: 'Removed, its cockpit control placarded',
            note: 'maintenance, entered by 43.9; mind weight, balance and the equipment list',
          },
        ]}
      />
      <Select
        label="The work by which it was removed or deactivated"
        hint={
          method === 'removed'
            ? 'Needed: to remove it is maintenance'
            : 'Left empty: switched off without maintenance'
        }
        options={[
          { value: '', words: 'none' },
          ...finding.order.items.map(({ id, position, title }) => ({
            value: id,
            words: `${position} ${title}`,
          })),
        ]}
        value={itemId}
        onChange={(event) => setItemId(event.currentTarget.value)}
      />
      <Field
        label="Where the placard “Inoperative” is"
        required
        maxLength={200}
        value={placardAt}
        onChange={(event) => setPlacardAt(event.currentTarget.value)}
      />
      <Tick
        name={`own-list-${finding.id}`}
        words="The aircraft flies by an approved minimum equipment list of its own"
        note="Then that list governs (91.213(a)), and nothing is left inoperative here."
        ticked={ownList}
        onTick={setOwnList}
      />
      {leave.error === null ? null : (
        <ErrorNote head="Not recorded">{leave.error.message}</ErrorNote>
      )}
      <div>
        <Button
          kind="primary"
          disabled={!complete}
          busy={leave.isPending ? 'Recording' : undefined}
          onClick={() =>
            leave.mutate({
              ...{ findingId: finding.id, equipment, method, placardAt, ownList },
              ...{ notTypeBasis: answered('notTypeBasis'), notListed: answered('notListed') },
              ...{ notRuled: answered('notRuled'), notDirected: answered('notDirected') },
              noHazard: answered('noHazard'),
              ...(itemId === '' ? {} : { itemId }),
            })
          }
        >
          I found that it may stay inoperative
        </Button>
      </div>
    </div>
  );
}

function WithdrawForm({ findingId }: { findingId: string }) {
  const [words, setWords] = useState('');
  const withdraw = useDoing(
    async () =>
      (await request(WithdrawInoperativeDocument, { findingId, words })).withdrawInoperative,
  );
  return (
    <div className={styles.form}>
      <Field
        label="Why not"
        maxLength={500}
        value={words}
        onChange={(event) => setWords(event.currentTarget.value)}
      />
      {withdraw.error === null ? null : (
        <ErrorNote head="Not recorded">{withdraw.error.message}</ErrorNote>
      )}
      <div>
        <Button
          disabled={words.trim().length < 3}
          busy={withdraw.isPending ? 'Recording' : undefined}
          onClick={() => withdraw.mutate(undefined)}
        >
          Take it back
        </Button>
      </div>
    </div>
  );
}
