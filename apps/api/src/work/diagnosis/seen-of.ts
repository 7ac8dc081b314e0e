import type { Prisma } from '@fairlead/database';
import { type Seen, stillKnown, tables } from '@fairlead/diagnosis';

/** What a finding's sightings are read from. */
export const sightingFacts = {
  sightings: {
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
    select: { symptom: true, answers: true },
  },
} satisfies Prisma.FindingSelect;

export interface SightingFacts {
  sightings: readonly { symptom: string; answers: Prisma.JsonValue }[];
}

/**
 * What is seen of a finding by now: the symptom that was named last, and the last answer to each of its questions.
 * Null where nobody said anything that today's tables know.
 */
export function seenOf({ sightings }: SightingFacts): { symptom: string; seen: Seen } | null {
  const symptom = tables.symptoms.find(({ id }) => id === sightings.at(-1)?.symptom);
  if (!symptom) return null;
  const seen: Record<string, string> = {};
  for (const { symptom: of, answers } of sightings) {
    if (of !== symptom.id || typeof answers !== 'object' || answers === null) continue;
    for (const [question, answer] of Object.entries(answers))
      if (typeof answer === 'string') seen[question] = answer;
      else delete seen[question];
  }
  return { symptom: symptom.id, seen: stillKnown(symptom, seen) };
}
