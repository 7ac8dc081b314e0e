import type { AircraftKind as Kind } from '@fairlead/database';
import {
  type AircraftKind,
  learn,
  type Seen,
  type Suggestion,
  type Symptom,
  suggest,
  symptomOf,
  tables,
} from '@fairlead/diagnosis';
import { allow, type Context } from '../../context.ts';
import { closedCases } from './closed-cases.ts';
import { type DoneBefore, doneBefore, knownBefore } from './known-before.ts';
import { seenOf, sightingFacts } from './seen-of.ts';

export interface SuggestedCauses {
  symptom: Symptom;
  modelId: string;
  /** What people answered, and what the orders say where nobody did. */
  said: Seen;
  known: Seen;
  doneBefore: readonly DoneBefore[];
  suggestion: Suggestion;
}

export const flies = (kind: Kind): AircraftKind =>
  kind.startsWith('helicopter') ? 'helicopter' : 'airplane';

/** What a finding may be, from what was seen of it, what was done before it, and what the shop closed. Null: nothing was seen. */
export async function suggestCauses(
  context: Context,
  findingId: string,
): Promise<SuggestedCauses | null> {
  await allow(context, 'mechanic', 'inspector', 'manager', 'front_desk');
  // load
  const { read } = context;
  const finding = await read.finding.findUnique({
    where: { id: findingId },
    select: {
      ...sightingFacts,
      foundAt: true,
      itemId: true,
      order: {
        select: {
          id: true,
          aircraftId: true,
          aircraft: { select: { modelId: true, model: { select: { kind: true } } } },
        },
      },
    },
  });
  const saw = finding && seenOf(finding);
  if (!finding || !saw) return null;
  const symptom = symptomOf(tables, saw.symptom);
  const done = await doneBefore(read, finding);
  const known = await knownBefore(read, symptom, saw.seen, finding, done);
  const cases = await closedCases(read, symptom.id, context.now(), findingId);
  // decide
  const suggestion = suggest(learn(tables, cases), {
    symptom: symptom.id,
    seen: { ...known, ...saw.seen },
    aircraft: flies(finding.order.aircraft.model.kind),
  });
  const { modelId } = finding.order.aircraft;
  return { symptom, modelId, said: saw.seen, known, doneBefore: done, suggestion };
}
