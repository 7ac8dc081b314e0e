import type {
  AppointLookInput,
  CountToolsInput,
  InitialLineInput,
  JudgeNoteInput,
  LearnNoteInput,
  LeaveHandOverInput,
  MarkOpenLineInput,
  MarkPhotoInput,
  NoteOpenLineInput,
  RecordCompressionInput,
  RecordLeakCheckInput,
  RecordTorqueInput,
  TakeOverInput,
} from '../../graphql/generated/graphql.ts';
import type { TypedDocument } from '../../graphql/request.ts';
import { JudgeNoteDocument, LearnNoteDocument } from '../work/learned-documents.ts';
import { MarkPhotoDocument } from '../work/mark-documents.ts';
import {
  InitialLineDocument,
  RecordCompressionDocument,
  RecordTorqueDocument,
} from './item-documents.ts';
import {
  AppointLookDocument,
  CountToolsDocument,
  LeaveHandOverDocument,
  MarkOpenLineDocument,
  NoteOpenLineDocument,
  RecordLeakCheckDocument,
  TakeOverDocument,
} from './order-documents.ts';

/** Without what every fact has: its time, and the id that its device gave it. */
type Said<Input> = Omit<Input, 'at' | 'clientEventId'>;

/** What may be said of how safe an aircraft stands, and for whoever does the work next: each is one fact, which the shop counts once. */
export interface FactInputs {
  initial: Said<InitialLineInput>;
  takeOver: Said<TakeOverInput>;
  leave: Said<LeaveHandOverInput>;
  noteOpen: Said<NoteOpenLineInput>;
  markOpen: Said<MarkOpenLineInput>;
  count: Said<CountToolsInput>;
  torque: Said<RecordTorqueInput>;
  compression: Said<RecordCompressionInput>;
  appoint: Said<AppointLookInput>;
  look: Said<RecordLeakCheckInput>;
  learn: Said<LearnNoteInput>;
  judge: Said<JudgeNoteInput>;
  mark: Said<MarkPhotoInput>;
}
export type FactKind = keyof FactInputs;
export type Fact<Kind extends FactKind = FactKind> = {
  [Each in Kind]: { does: Each; input: FactInputs[Each] };
}[Kind];

/** @param at when it was, ISO 8601 by the shop's clock; left out: now */
interface Given {
  clientEventId: string;
  at?: string;
}
type Ask = <Answer, Variables>(
  document: TypedDocument<Answer, Variables>,
  variables: Variables,
) => Promise<Answer>;

export interface FactAnswer {
  __typename: string;
  code?: string;
  message?: string;
}

/** Tells the shop a fact. */
export async function sayFact(fact: Fact, given: Given, ask: Ask): Promise<FactAnswer> {
  switch (fact.does) {
    case 'initial':
      return (await ask(InitialLineDocument, { input: { ...fact.input, ...given } })).answer;
    case 'takeOver':
      return (await ask(TakeOverDocument, { input: { ...fact.input, ...given } })).answer;
    case 'leave':
      return (await ask(LeaveHandOverDocument, { input: { ...fact.input, ...given } })).answer;
    case 'noteOpen':
      return (await ask(NoteOpenLineDocument, { input: { ...fact.input, ...given } })).answer;
    case 'markOpen':
      return (await ask(MarkOpenLineDocument, { input: { ...fact.input, ...given } })).answer;
    case 'count':
      return (await ask(CountToolsDocument, { input: { ...fact.input, ...given } })).answer;
    case 'torque':
      return (await ask(RecordTorqueDocument, { input: { ...fact.input, ...given } })).answer;
    case 'compression':
      return (await ask(RecordCompressionDocument, { input: { ...fact.input, ...given } })).answer;
    case 'appoint':
      return (await ask(AppointLookDocument, { input: { ...fact.input, ...given } })).answer;
    case 'look':
      return (await ask(RecordLeakCheckDocument, { input: { ...fact.input, ...given } })).answer;
    case 'learn':
      return (await ask(LearnNoteDocument, { input: { ...fact.input, ...given } })).result;
    case 'judge':
      return (await ask(JudgeNoteDocument, { input: { ...fact.input, ...given } })).result;
    case 'mark':
      return (await ask(MarkPhotoDocument, { input: { ...fact.input, ...given } })).answer;
  }
}
