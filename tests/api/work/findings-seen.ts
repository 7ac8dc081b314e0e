import { randomUUID } from 'node:crypto';
import type { Role } from '@fairlead/database';
import type { TestShop } from '../../support/shop.ts';
import { expectDone, mutate, type Outcome } from './orders.ts';

export interface Suggested {
  symptom: string;
  symptomWords: string;
  standing: string;
  says: string;
  restsOn: string;
  leak: string | null;
  cautions: string[];
  seen: { question: string; answer: string; words: string; fromOrders: boolean }[];
  doneBefore: { title: string; work: string }[];
  causes: {
    cause: string;
    kind: string;
    probability: number;
    workJasc: string | null;
    tasks: { title: string }[];
    reasons: { question: string; bits: number; speaks: string; sentence: string }[];
  }[];
  next: { question: string; kind: string; minutes: number; bits: number; cautions: string[] }[];
}

const asked = `id suggestion { symptom symptomWords standing says restsOn leak cautions seen { question answer words fromOrders }
  doneBefore { title work } causes(first: 60) { cause kind probability workJasc tasks { title } reasons { question bits speaks sentence } }
  next { question kind minutes bits cautions } } symptom turnedOut { symptom kind cause says by { name } }`;

export type SeenFinding = Outcome & {
  id: string;
  suggestion: Suggested | null;
  symptom: string | null;
  turnedOut: {
    symptom: string;
    kind: string;
    cause: string;
    says: string;
    by: { name: string };
  } | null;
};

export const sighting = (symptom: string, answers: Record<string, string | null> = {}) => ({
  symptom,
  answers: Object.entries(answers).map(([question, answer]) => ({ question, answer })),
});

export const noteSeen = (
  shop: TestShop,
  orderId: string,
  over: Record<string, unknown> = {},
): Promise<Outcome> =>
  mutate(
    shop,
    'mechanic',
    'noteFinding',
    {
      orderId,
      title: 'Something wet',
      words: '',
      zone: 'engine',
      class: 'discrepancy',
      photoIds: [],
      foundAt: new Date().toISOString(),
      clientEventId: randomUUID(),
      ...over,
    },
    asked,
  );

/** A finding with what is seen of it, noted and read back. */
export const noted = async (
  shop: TestShop,
  orderId: string,
  over: Record<string, unknown> = {},
): Promise<SeenFinding> => expectDone(await noteSeen(shop, orderId, over)) as SeenFinding;

export const see = (
  shop: TestShop,
  findingId: string,
  given: ReturnType<typeof sighting>,
  { role = 'mechanic', ...over }: { role?: Role; clientEventId?: string } = {},
): Promise<Outcome> =>
  mutate(
    shop,
    role,
    'seeFinding',
    {
      findingId,
      sighting: given,
      seenAt: new Date().toISOString(),
      clientEventId: randomUUID(),
      ...over,
    },
    asked,
  );

export const turnOut = (
  shop: TestShop,
  findingId: string,
  input: { symptom?: string; kind: string; cause?: string; words?: string },
  role: Role = 'mechanic',
): Promise<Outcome> =>
  mutate(shop, role, 'sayOutcome', { findingId, symptom: 'fluid', ...input }, asked);

/** The probability of a cause in a suggestion. */
export const chanceOf = ({ suggestion }: SeenFinding, cause: string): number =>
  suggestion?.causes.find((one) => one.cause === cause)?.probability ?? Number.NaN;
