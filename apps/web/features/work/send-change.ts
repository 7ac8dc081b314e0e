import type { NotedInput } from '../../graphql/generated/graphql.ts';
import { requestFor } from '../../graphql/request.ts';
import { SayOutcomeDocument } from '../diagnosis/documents.ts';
import { sayFact } from '../safety/facts.ts';
import {
  AnswerForgottenClockDocument,
  CorrectClockDocument,
  FinishItemDocument,
  PutOffItemDocument,
  ReopenItemDocument,
  ResumeItemDocument,
  SecondLookDocument,
  WaitItemDocument,
} from './item-documents.ts';
import type { Pending } from './pending.ts';

/** Sends what was said of an item, of what is left at it, or of a clock that looked forgotten, or a better time for a clock event. */
export function sendChange(
  entry: Extract<Pending, { kind: 'change' | 'care' | 'correction' | 'answer' }>,
  noted: NotedInput,
) {
  const { personId } = entry;
  if (entry.kind === 'correction')
    return requestFor(personId, CorrectClockDocument, { input: entry.input });
  if (entry.kind === 'answer')
    return requestFor(personId, AnswerForgottenClockDocument, { input: entry.input });
  if (entry.kind === 'care') return sendCare(entry, noted);
  switch (entry.does) {
    case 'wait':
      return requestFor(personId, WaitItemDocument, { input: { ...entry.input, noted } });
    case 'resume':
      return requestFor(personId, ResumeItemDocument, { input: { ...entry.input, noted } });
    case 'finish':
      return finish(entry, noted);
    case 'reopen':
      return requestFor(personId, ReopenItemDocument, { input: { ...entry.input, noted } });
    case 'putOff':
      return requestFor(personId, PutOffItemDocument, { input: { ...entry.input, noted } });
    case 'secondLook':
      return requestFor(personId, SecondLookDocument, {
        input: { ...entry.input, second: true, noted },
      });
  }
}

/** Facts have the shop's time, as far as this device knows it. */
async function sendCare(
  entry: Extract<Pending, { kind: 'care' }>,
  { at, clientEventId, device }: NotedInput,
) {
  const when = new Date(Date.parse(String(at)) + (device?.clockOffsetMs ?? 0)).toISOString();
  const result = await sayFact(entry, { at: when, clientEventId }, (document, variables) =>
    requestFor(entry.personId, document, variables),
  );
  return { result };
}

/** The correction first, then what it turned out to be: sent again, both say the same. */
async function finish(
  { personId, input, outcome }: Extract<Pending, { kind: 'change'; does: 'finish' }>,
  noted: NotedInput,
) {
  const answer = await requestFor(personId, FinishItemDocument, { input: { ...input, noted } });
  if (answer.result.__typename === 'Refusal' || outcome == null) return answer;
  return requestFor(personId, SayOutcomeDocument, { input: outcome });
}
