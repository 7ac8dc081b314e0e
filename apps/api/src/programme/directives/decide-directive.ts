import { allow, type Context } from '../../context.ts';
import { notFound, Refused } from '../../errors.ts';
import { givenText } from '../../given.ts';
import { holdFor } from '../../hold.ts';
import { shopToday } from '../../today.ts';
import { countsFrom, countsUnder, type GivenCounts, refuseCounts } from '../counts.ts';
import { partHistoryFacts } from '../due-terms.ts';
import { MOST_HUNDREDTHS } from '../most-hours.ts';
import { directivesOf } from './directives-of.ts';
import { endSuperseded, endUndone } from './end-undone.ts';
import { limitsOf } from './first-limits.ts';
import { refuseUnlicensed } from './licensed.ts';

export interface DecideDirectiveInput {
  directiveId: string;
  aircraftId: string;
  componentId: string | null;
  /** It applies, or is chosen. */
  binds: boolean;
  reason: string;
  /** By when it is due the first time, where the directive's own words do not say it in hours or a day of this aircraft. */
  limitHundredths: number | null;
  limitDate: Date | null;
  limitCounts: GivenCounts;
}

/**
 * A person decides whether a directive binds an aircraft or a part, whatever the program found. What binds falls due from then
 * on; what binds no more, and what it supersedes, falls due no more.
 */
export async function decideDirective(
  context: Context,
  input: DecideDirectiveInput,
): Promise<string> {
  const { personId } = await allow(context, 'inspector', 'manager');
  const reason = givenText(input.reason, 'reason', { least: 3, most: 500 });
  const { directiveId, aircraftId, componentId, binds, limitHundredths } = input;
  if (limitHundredths !== null && (limitHundredths < 1 || limitHundredths > MOST_HUNDREDTHS))
    throw new Refused(
      'BAD_INPUT',
      `limitHundredths is ${limitHundredths}: needed is 1 to ${MOST_HUNDREDTHS}.`,
      'limitHundredths',
    );
  refuseCounts(input.limitCounts, 1, 'limit');
  const today = await shopToday(context);
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'aircraft', aircraftId);
    const aircraft = await tx.aircraft.findUnique({
      where: { id: aircraftId },
      select: { id: true, registration: true },
    });
    if (!aircraft) throw notFound('aircraft');
    const lines = await directivesOf(tx, [aircraftId], 'every');
    const ofDirective = lines.filter(({ directive }) => directive.id === directiveId);
    const line = ofDirective.find(({ part }) => (part?.id ?? null) === componentId);
    const [any] = ofDirective;
    if (!any) throw await noSuch(tx, directiveId);
    if (!line)
      throw new Refused(
        'AGAINST_RULE',
        componentId
          ? `That part is not fitted to ${aircraft.registration}, or ${any.directive.number} does not name it: decide where the part is.`
          : `${any.directive.number} is about parts: name the part of ${aircraft.registration}.`,
        'componentId',
      );
    const { directive, decision } = line;
    // decide
    if (directive.kind === 'directive') await refuseUnlicensed(tx, personId, today);
    if (directive.supersededBy)
      throw new Refused(
        'AGAINST_RULE',
        `${directive.number} is superseded by ${directive.supersededBy.number}: decide on that one.`,
        'directiveId',
      );
    if (decision && decision.binds === binds) return directiveId;
    // save
    const part = componentId
      ? await tx.component.findUniqueOrThrow({
          where: { id: componentId },
          select: partHistoryFacts,
        })
      : null;
    const end = { at: context.now(), today, personId };
    if (decision?.itemId && !binds) await endUndone(tx, decision.itemId, `Decided: ${reason}`, end);
    if (directive.supersedesId) await endSuperseded(tx, line, aircraftId, end);
    const limits = binds ? await limitsOf(tx, directive, aircraft, part, input) : null;
    const item = limits && {
      ...{ aircraftId, componentId, directiveId, taskId: directive.taskId },
      ...{ kind: directive.kind, title: directive.subject, number: directive.number },
      ...{ revision: directive.revision, rule: directive.rule, ...limits },
      source: `${directive.authority}: ${directive.method}`.slice(0, 300),
      ...{ everyHundredths: directive.everyHundredths, everyMonths: directive.everyMonths },
      everyCalendarMonths: directive.everyCalendarMonths,
      ...countsUnder('every', countsFrom('every', directive)),
      ...{ everyDays: directive.everyDays, whicheverLast: directive.whicheverLast },
      ...{ addedById: personId, addedAt: context.now() },
    };
    const made = item && (await tx.dueItem.create({ data: item, select: { id: true } }));
    await tx.directiveDecision.create({
      data: {
        ...{ directiveId, aircraftId, componentId, binds, reason, found: line.because },
        ...{ itemId: made?.id ?? null, at: context.now(), byId: personId },
      },
      select: { id: true },
    });
    return directiveId;
  });
}

async function noSuch(tx: Parameters<typeof directivesOf>[0], directiveId: string) {
  const superseded = await tx.directive.findUnique({
    where: { id: directiveId },
    select: { number: true, supersededBy: { select: { number: true } } },
  });
  return superseded?.supersededBy
    ? new Refused(
        'AGAINST_RULE',
        `${superseded.number} is superseded by ${superseded.supersededBy.number}: decide on that one.`,
        'directiveId',
      )
    : notFound('directive');
}
