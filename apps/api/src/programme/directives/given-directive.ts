import { counters, readSerials } from '@fairlead/airworthiness';
import type { DueKind } from '@fairlead/database';
import { Refused } from '../../errors.ts';
import { givenText, sayDay } from '../../given.ts';
import { type CountsUnder, countsFrom, refuseCounts } from '../counts.ts';
import { type GivenTerms, refuseTerms } from '../given-terms.ts';
import { MOST_HUNDREDTHS } from '../most-hours.ts';

export interface GivenReach {
  modelId: string | null;
  partNumber: string;
  serials: string;
}

export interface AddDirectiveInput extends GivenTerms, CountsUnder<'within'> {
  kind: DueKind;
  authority: string;
  number: string;
  revision: string;
  revisedOn: Date;
  effectiveOn: Date;
  subject: string;
  method: string;
  withinHundredths: number | null;
  withinDays: number | null;
  terminating: string;
  taskId: string | null;
  supersedesId: string | null;
  reaches: readonly GivenReach[];
}

const MOST_REACHES = 50;

/** The texts of a directive as they are kept. */
export function givenWords(input: AddDirectiveInput) {
  return {
    authority: givenText(input.authority, 'authority', { least: 2, most: 120 }),
    number: givenText(input.number, 'number', { least: 1, most: 100 }),
    revision: givenText(input.revision, 'revision', { most: 100 }),
    subject: givenText(input.subject, 'subject', { least: 2, most: 200 }),
    method: givenText(input.method, 'method', { least: 2, most: 2000 }),
    terminating: givenText(input.terminating, 'terminating', { most: 500 }),
  };
}

/** To what it applies, each line held to what a serial number can be. */
export function givenReaches({ reaches }: AddDirectiveInput): GivenReach[] {
  if (reaches.length === 0 || reaches.length > MOST_REACHES)
    throw new Refused(
      'BAD_INPUT',
      `It was given ${reaches.length} lines of what it applies to: needed are 1 to ${MOST_REACHES}.`,
      'reaches',
    );
  return reaches.map(({ modelId, ...reach }, index) => {
    const partNumber = givenText(reach.partNumber, 'reaches.partNumber', { most: 100 });
    const serials = givenText(reach.serials, 'reaches.serials', { most: 4000 });
    if (modelId === null && partNumber === '')
      throw new Refused(
        'BAD_INPUT',
        `Line ${index + 1} of what it applies to names neither a model nor a part number: needed is one of them.`,
        'reaches',
      );
    try {
      readSerials(serials);
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      throw new Refused('BAD_INPUT', `${error.message}.`, 'reaches.serials');
    }
    return { modelId, partNumber, serials };
  });
}

const rules = { once: true, recurring: true, life_limit: true } as Record<string, true | undefined>;

/** Refuses terms that no directive has, that it lacks, or that contradict each other. */
export function refuseDirectiveTerms(input: AddDirectiveInput, today: Date): void {
  const { kind, rule, withinHundredths, withinDays, limitDate, effectiveOn, revisedOn } = input;
  const refuse = (message: string, field: string) => {
    throw new Refused('BAD_INPUT', message, field);
  };
  if (kind === 'inspection' || kind === 'overhaul')
    refuse(`kind is ${kind}: needed is directive, bulletin or limit.`, 'kind');
  if (!rules[rule] || (rule === 'life_limit' && kind !== 'limit'))
    refuse(
      `The rule ${rule} was given for a ${kind}: needed is once or recurring${kind === 'limit' ? ', or life_limit' : ''}.`,
      'rule',
    );
  for (const [field, value, most] of [
    ['withinHundredths', withinHundredths, MOST_HUNDREDTHS],
    ['withinDays', withinDays, 36_600],
  ] as const)
    if (value !== null && (value < 1 || value > most))
      refuse(`${field} is ${value}: needed is 1 to ${most}.`, field);
  const counts = countsFrom('within', input);
  refuseCounts(counts, 1, 'within');
  const within =
    withinHundredths !== null ||
    withinDays !== null ||
    Object.values(counts).some((value) => value !== null);
  if (rule === 'life_limit' && within)
    refuse('A life runs from when the part was new: leave out within how long.', 'rule');
  refuseTerms({
    ...input,
    // Within so long after it takes effect is a limit like another.
    limitHundredths: input.limitHundredths ?? (rule === 'once' ? withinHundredths : null),
    ...(rule === 'once' && {
      limitCycles: input.limitCycles ?? counts.cycles,
      limitLandings: input.limitLandings ?? counts.landings,
      limitStarts: input.limitStarts ?? counts.starts,
    }),
    limitDate: limitDate ?? (rule === 'once' && withinDays !== null ? effectiveOn : null),
    whicheverLast: false,
  });
  if (input.whicheverLast && termsOf(input) < 2)
    refuse('whicheverLast needs two terms that can come one after the other.', 'whicheverLast');
  if (revisedOn > today)
    refuse(
      `The revision is of ${sayDay(revisedOn)}: today is ${sayDay(today)}, and what is not issued yet cannot be entered.`,
      'revisedOn',
    );
  if (limitDate && limitDate < effectiveOn)
    refuse(
      `The limits contradict each other: it takes effect on ${sayDay(effectiveOn)}, after ${sayDay(limitDate)}, the last day that it gives.`,
      'limitDate',
    );
  if (input.terminating.trim() !== '' && rule !== 'recurring')
    refuse(
      'What ends the repeat was given for something that is not repeated: leave it out, or say how often.',
      'terminating',
    );
}

function termsOf(input: AddDirectiveInput): number {
  const { everyHundredths, everyMonths, everyCalendarMonths, everyDays } = input;
  const every = [
    ...[everyHundredths, everyMonths, everyCalendarMonths, everyDays],
    ...Object.values(countsFrom('every', input)),
  ];
  const [within, limit] = [countsFrom('within', input), countsFrom('limit', input)];
  const first = [
    input.withinHundredths ?? input.limitHundredths,
    input.withinDays ?? input.limitDate,
    ...counters.map((counter) => within[counter] ?? limit[counter]),
  ];
  return (input.rule === 'recurring' ? every : first).filter((term) => term !== null).length;
}
