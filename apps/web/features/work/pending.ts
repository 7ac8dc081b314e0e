import type {
  AnswerForgottenClockInput,
  ClockInput,
  CorrectClockInput,
  FinishItemInput,
  NoteFindingInput,
  PhotoMarkInput,
  SayOutcomeInput,
  WaitItemInput,
} from '../../graphql/generated/graphql.ts';
import type { NotedAt } from '../../lib/clock-offset.ts';
import type { Fact } from '../safety/facts.ts';

interface Common {
  /** The client's id: the server records it once, however often it is sent. */
  id: string;
  /** Whose it is: a shared device sends it only while this person is signed in. */
  personId: string;
  /** This device's clock when it was noted, milliseconds since 1970. */
  madeAt: number;
  /** What it is, for the line that says what is not sent. */
  words: string;
  /** What was known of the shop's clock then. Left out by pages of before: nothing. */
  clock?: Pick<NotedAt, 'offsetMs' | 'heard'>;
  /** Its place in the order in which this device noted things, whatever its clock said; missing until it has one. */
  seq?: number;
  /** The server's sentence, when it said no. */
  refused?: string;
  /** The server's sentence, when it took it and there is something to know. */
  told?: string;
  /** Taken; here until the page has what followed from it. Not kept. */
  taken?: true;
}

/** Marks over a photo, and this device's clock when they were drawn. */
export interface MarkedPhoto {
  id: string;
  madeAt: number;
  clock: Pick<NotedAt, 'offsetMs' | 'heard'>;
  marks: PhotoMarkInput[];
}

/** A photo of a finding, on its own: the finding does not wait for it. */
export type PendingPhoto = Common & {
  kind: 'photo';
  /** The id that this device gave to the finding. */
  finding: string;
  photo: Blob;
  /** The photo of the same finding that shows the same before the correction, by the shop's id. */
  before?: string;
  /** What was drawn over it while it waits, under an id of its own: it goes with the photo. */
  marked?: MarkedPhoto;
  /** Bytes that the shop has, as far as this page knows; not kept. */
  sent?: number;
  /** What became of the small picture that goes first; missing until that is settled on this page; not kept. */
  preview?: 'sent' | 'none';
};

export type PendingClock = Common & { kind: 'clock'; input: Omit<ClockInput, 'device'> };

/** What is said of an item besides its clock. */
export type ItemChange =
  | { does: 'wait'; input: Omit<WaitItemInput, 'noted'> }
  | { does: 'resume'; input: { itemId: string } }
  /** With what the finding that it corrects turned out to be; missing in what pages of before kept. */
  | { does: 'finish'; input: Omit<FinishItemInput, 'noted'>; outcome?: SayOutcomeInput | null }
  | { does: 'reopen'; input: { itemId: string; reason: string } }
  | { does: 'putOff'; input: { itemId: string; reason: string } }
  /** The second pair of eyes at a critical item, given after a first initial: by its ItemEvent. */
  | { does: 'secondLook'; input: { itemId: string; firstId: string } };

export type Pending =
  | PendingClock
  | (Common &
      (
        | { kind: 'cautions'; itemId: string }
        | { kind: 'finding'; input: Omit<NoteFindingInput, 'photoIds' | 'device'> }
        | ({ kind: 'change' } & ItemChange)
        | ({ kind: 'care' } & CareAct)
        | { kind: 'correction'; input: CorrectClockInput }
        /** How it was with a clock that looks forgotten; `of`: the stretch that it is about, as it was known. */
        | {
            kind: 'answer';
            input: AnswerForgottenClockInput;
            of: { itemId: string; startedAt: string };
          }
      ))
  | PendingPhoto;

/** A fact of how safe an aircraft stands, with who says it, for the page until the shop has it. */
export type CareAct = Fact & { name: string; initials: string };

/** Whether it still waits to be sent: neither taken nor refused. */
export const waits = ({ refused, told, taken }: Pending): boolean =>
  refused === undefined && told === undefined && taken === undefined;

/** Whether the page shows what follows from it: the server may have it, and the page has not read that yet. */
export const counts = ({ refused, told, taken }: Pending): boolean =>
  refused === undefined && (told === undefined || taken !== undefined);

/** When it was noted by the shop's clock, as it was known then, milliseconds since 1970. */
export const shopTimeOf = ({ madeAt, clock }: Pick<Pending, 'madeAt' | 'clock'>): number =>
  madeAt + (clock?.offsetMs ?? 0);
