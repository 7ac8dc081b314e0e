'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Choices } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field, LongField, Select } from '../../components/Field.tsx';
import type { Channel, Choice, RecordDecisionInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { amountText, minorFrom } from './amount-field.ts';
import { contactOptions } from './contact-options.ts';
import type { QuoteSheetData, RevisionData } from './quote-documents.ts';
import { RecordDecisionDocument } from './quote-mutations.ts';
import styles from './quote-sheet.module.css';
import { deskChannels } from './quote-words.ts';
import { useDoing } from './use-answer.ts';
import { wordsToRead } from './words-to-read.ts';

const choices = [
  { value: 'go_ahead', words: 'Go ahead', note: 'opens the work, up to the ceiling below' },
  { value: 'not_now', words: 'Not now', note: 'closes this offer' },
  { value: 'talk_first', words: 'Talk to me first', note: 'the offer stays open' },
];
/** Of what asks for more on work that is there. */
const choicesOfMore = choices.map((each) =>
  each.value === 'go_ahead'
    ? { ...each, note: 'raises what is agreed, by the amount below' }
    : each,
);

const doneWords: Record<Choice, string> = {
  go_ahead: 'Record the yes',
  not_now: 'Record the no',
  talk_first: 'Record that they want to talk',
};

/** Records what the owner answered: who, by which way, what was read out, and how far a yes goes. */
export function RecordAnswer({ quote, newest }: { quote: QuoteSheetData; newest: RevisionData }) {
  const { currency } = newest;
  const [choice, setChoice] = useState<Choice | ''>('');
  const [contactId, setContactId] = useState(quote.contact.id);
  const [channel, setChannel] = useState<Channel>(newest.sentBy ?? 'telephone');
  const [wordsShown, setWords] = useState(() => wordsToRead(quote, newest));
  const [ceiling, setCeiling] = useState(() => amountText(BigInt(newest.high), currency));
  const [note, setNote] = useState('');
  const record = useDoing(
    async (input: RecordDecisionInput) =>
      (await request(RecordDecisionDocument, { input })).recordDecision,
  );
  const amount = minorFrom(ceiling, currency);
  const wrong =
    amount === null
      ? `Needed is an amount of 0 or more, such as ${amountText(190000n, currency)}`
      : undefined;
  const ready =
    choice !== '' && wordsShown.trim() !== '' && (choice !== 'go_ahead' || amount !== null);

  function send() {
    if (choice === '') return;
    record.mutate({
      quoteId: quote.id,
      revision: newest.revision,
      contactId,
      choice,
      channel,
      wordsShown,
      note,
      ...(choice === 'go_ahead' && amount !== null ? { ceiling: amount.toString() } : {}),
    });
  }

  return (
    <>
      <h2>The owner’s answer</h2>
      <div className={styles.pair}>
        <Select
          label="Who answers"
          value={contactId}
          onChange={(event) => setContactId(event.currentTarget.value)}
          options={contactOptions(quote.aircraft.contacts, currency)}
        />
        <Select
          label="By which way"
          value={channel}
          onChange={(event) => setChannel(event.currentTarget.value as Channel)}
          options={deskChannels}
        />
      </div>
      <LongField
        label="What was read out"
        hint="Kept word for word with the answer"
        rows={3}
        maxLength={4000}
        value={wordsShown}
        onChange={(event) => setWords(event.currentTarget.value)}
      />
      <Choices
        legend="They said"
        name="choice"
        value={choice}
        onChoose={(value) => setChoice(value as Choice)}
        options={quote.more ? choicesOfMore : choices}
      />
      <div className={styles.pair}>
        {choice === 'go_ahead' ? (
          <Field
            label="Up to, net"
            figures
            unit={currency}
            inputMode="decimal"
            hint="Work past this waits for another yes"
            wrong={wrong}
            value={ceiling}
            onChange={(event) => setCeiling(event.currentTarget.value)}
          />
        ) : null}
        <Field
          label="What else was said"
          maxLength={2000}
          value={note}
          onChange={(event) => setNote(event.currentTarget.value)}
        />
      </div>
      {record.error === null ? null : (
        <ErrorNote head="Not recorded">{record.error.message}</ErrorNote>
      )}
      <div>
        <Button
          kind="primary"
          disabled={!ready}
          busy={record.isPending ? 'Recording' : undefined}
          onClick={send}
        >
          {choice === '' ? 'Record the answer' : doneWords[choice]}
        </Button>
      </div>
    </>
  );
}
