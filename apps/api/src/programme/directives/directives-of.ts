import { type Applicability, applicabilityOf, readSerials } from '@fairlead/airworthiness';
import type { Prisma, Tx } from '@fairlead/database';

export const directiveFacts = {
  ...{ id: true, kind: true, authority: true, number: true, revision: true, revisedOn: true },
  ...{ effectiveOn: true, subject: true, method: true, rule: true, whicheverLast: true },
  ...{ withinHundredths: true, withinDays: true, limitHundredths: true, limitDate: true },
  ...{ everyHundredths: true, everyMonths: true, everyCalendarMonths: true, everyDays: true },
  ...{ everyCycles: true, everyLandings: true, everyStarts: true },
  ...{ limitCycles: true, limitLandings: true, limitStarts: true },
  ...{ withinCycles: true, withinLandings: true, withinStarts: true },
  ...{ terminating: true, taskId: true, supersedesId: true, addedAt: true },
  supersededBy: { select: { id: true, number: true, revision: true } },
  reaches: {
    orderBy: { position: 'asc' },
    select: {
      ...{ partNumber: true, serials: true },
      model: { select: { id: true, maker: true, name: true } },
    },
  },
} satisfies Prisma.DirectiveSelect;
export type DirectiveRow = Prisma.DirectiveGetPayload<{ select: typeof directiveFacts }>;

const decisionFacts = {
  ...{ directiveId: true, componentId: true, binds: true, reason: true, found: true, at: true },
  by: { select: { name: true } },
  itemId: true,
} satisfies Prisma.DirectiveDecisionSelect;
export type DecisionRow = Prisma.DirectiveDecisionGetPayload<{ select: typeof decisionFacts }>;

/** A directive, and what it is to the aircraft or to one part that is fitted to it. */
export interface DirectiveLine extends Omit<Applicability, 'partId'> {
  aircraftId: string;
  directive: DirectiveRow;
  /** Null: of the aircraft itself. */
  part: { id: string; title: string; partNumber: string; serial: string } | null;
  /** The newest word of a person; null: nobody decided yet. */
  decision: DecisionRow | null;
}

const craftFacts = {
  ...{ id: true, registration: true, serial: true },
  model: { select: { id: true, maker: true, name: true } },
  fittings: {
    where: { removedAt: null },
    orderBy: [{ position: 'asc' }, { id: 'asc' }],
    select: {
      component: { select: { id: true, title: true, partNumber: true, serial: true } },
    },
  },
} satisfies Prisma.AircraftSelect;
type Craft = Prisma.AircraftGetPayload<{ select: typeof craftFacts }>;

const nameOf = ({ maker, name }: { maker: string; name: string }) => `${maker} ${name}`;

/** What one directive says of an aircraft as it is fitted. */
export function reachOf(directive: DirectiveRow, craft: Craft): readonly Applicability[] {
  return applicabilityOf(
    directive.reaches.map(({ model, partNumber, serials }) => ({
      model: model && { id: model.id, name: nameOf(model) },
      partNumber,
      serials: readSerials(serials),
    })),
    {
      ...{ registration: craft.registration, serial: craft.serial },
      model: { id: craft.model.id, name: nameOf(craft.model) },
      parts: craft.fittings.map(({ component }) => component),
    },
  );
}

/**
 * The directives that the shop entered, as they stand to each aircraft: those that reach it, those that cannot be told, and
 * those on which somebody decided. A superseded one is shown only where it was decided on. Three statements for however many.
 */
export async function directivesOf(
  read: Tx,
  aircraftIds: readonly string[],
  which: 'reaching' | 'every' = 'reaching',
): Promise<DirectiveLine[]> {
  const directives = await read.directive.findMany({
    orderBy: [{ kind: 'asc' }, { revisedOn: 'desc' }, { id: 'asc' }],
    select: directiveFacts,
  });
  if (directives.length === 0) return [];
  const aircraft = await read.aircraft.findMany({
    where: { id: { in: [...aircraftIds] } },
    orderBy: { registration: 'asc' },
    select: craftFacts,
  });
  // What was decided for a part goes with the part to whatever it is fitted to.
  const decisions = await read.directiveDecision.findMany({
    where: {
      OR: [
        { aircraftId: { in: [...aircraftIds] } },
        {
          component: {
            fittings: { some: { aircraftId: { in: [...aircraftIds] }, removedAt: null } },
          },
        },
      ],
    },
    orderBy: [{ at: 'asc' }, { id: 'asc' }],
    select: { ...decisionFacts, aircraftId: true },
  });
  const newest = new Map<string, DecisionRow>();
  for (const each of decisions)
    newest.set(keyOf(each.directiveId, each.componentId ?? each.aircraftId), each);
  return aircraft.flatMap((craft) =>
    directives.flatMap((directive) =>
      reachOf(directive, craft).flatMap(({ partId, found, because }): DirectiveLine[] => {
        const decision = newest.get(keyOf(directive.id, partId ?? craft.id)) ?? null;
        if (directive.supersededBy && !decision) return [];
        if (which === 'reaching' && found === 'does_not' && !decision) return [];
        const part = craft.fittings.find(({ component }) => component.id === partId);
        return [
          {
            ...{ aircraftId: craft.id, directive, found, because, decision },
            part: part?.component ?? null,
          },
        ];
      }),
    ),
  );
}

const keyOf = (directiveId: string, what: string) => `${directiveId} ${what}`;
