import type { LeftInoperative } from '../records/queries.ts';
import { countsInWords, type GivenCounts } from './counts.ts';
import type { DirectiveLine } from './directives/directives-of.ts';
import type { DueLine } from './due-line.ts';
import type { DueList } from './due-list.ts';
import type { DueRow } from './due-terms.ts';
import type { PartTime } from './fitted-parts.ts';
import {
  dueRow,
  endedRow,
  type FormOwed,
  formRow,
  hours,
  inoperativeRow,
  joined,
  type StatusFacts,
  type StatusRow,
  undueRow,
} from './status-rows.ts';

export interface StatusSection {
  /** 14 CFR 91.417(a)(2)(i) to (vi). */
  paragraph: string;
  title: string;
  rows: StatusRow[];
  /** What is said where nothing is kept, or beside what is. */
  note: string;
}

export interface StatusOf {
  list: DueList;
  parts: readonly PartTime[];
  /** What falls due no more. */
  over: readonly DueRow[];
  directives: readonly DirectiveLine[];
  /** Forms of major repairs and alterations that were noted on its orders. */
  forms: readonly FormOwed[];
  /** Equipment that stays inoperative. */
  left: readonly LeftInoperative[];
}

type Kind = DueLine['row']['kind'];

/**
 * The status of an aircraft's records, item by item of 14 CFR 91.417(a)(2): total time, life-limited parts, time since
 * overhaul, inspections, directives, and what is kept elsewhere. What is not kept here is said to be so.
 */
export function statusSheet({
  list,
  parts,
  over,
  directives,
  forms,
  left,
}: StatusOf): StatusSection[] {
  const { tisHundredths, lines } = list;
  const facts: StatusFacts = {
    tis: tisHundredths,
    parts: new Map(parts.map((part) => [part.id, part])),
    directives: new Map(directives.map(({ directive }) => [directive.id, directive])),
  };
  const due = (kind: Kind) =>
    lines.filter(({ row }) => row.kind === kind).map((line) => dueRow(line, facts));
  // Of what is published, also what was done for good, what was found not to apply, and what nobody decided on.
  const published = (kind: Kind) => [
    ...due(kind),
    ...over.filter((row) => row.kind === kind).map((row) => endedRow(row, facts)),
    ...directives
      .filter(({ directive, decision }) => directive.kind === kind && !decision?.binds)
      .map(undueRow),
  ];
  const bulletins = published('bulletin');
  return [
    section('i', 'Total time in service', total(list, parts), {
      note: 'the airframe, each engine, each propeller and each rotor.',
    }),
    section('ii', 'Life-limited parts', [...due('limit'), ...lives(lines, parts)], {
      note: 'see the lists of the type certificate and of the maker for which parts have a limit.',
    }),
    section('iii', 'Time since overhaul', [...due('overhaul'), ...overhauled(lines, parts)], {
      note: 'of items that are required to be overhauled on a time basis.',
    }),
    section('iv', 'Inspections', due('inspection'), {
      note: 'with the time since the last of the programme under which the aircraft is maintained.',
    }),
    section('v', 'Airworthiness directives', published('directive'), {
      note: 'for each its number and revision, how it was complied with, and when it is due again. Which directives apply is for the owner and the inspector to find: look them up at the authority. This list is what the shop entered; the authority’s own publication counts.',
    }),
    {
      paragraph: '14 CFR 91.417(a)(2)(vi)',
      title: 'Forms of major alterations',
      rows: forms.map(formRow),
      note: 'Kept with the paper records: copies of the forms of 43.9(d) are not kept here.',
    },
    ...(left.length === 0
      ? []
      : [
          {
            paragraph: 'Beside 14 CFR 91.417(a)(2)',
            title: 'Inoperative equipment, placarded (91.213(d))',
            rows: left.map(inoperativeRow),
            note: 'Found by the person named, for the flights to be made then; the pilot in command decides before each flight.',
          },
        ]),
    ...(bulletins.length === 0
      ? []
      : [
          {
            paragraph: 'Beside 14 CFR 91.417(a)(2)',
            title: 'Makers’ bulletins',
            rows: bulletins,
            note: 'Which of them bind is what the aircraft’s own programme says.',
          },
        ]),
  ];
}

function section(
  item: string,
  title: string,
  rows: StatusRow[],
  { note }: { note: string },
): StatusSection {
  return {
    paragraph: `14 CFR 91.417(a)(2)(${item})`,
    title,
    rows,
    note: rows.length === 0 ? `None is entered here: ${note}` : note,
  };
}

const main = new Set<PartTime['kind']>(['engine', 'propeller', 'rotor']);
const partName = ({ title, partNumber, serial }: PartTime) =>
  joined(title, `part ${partNumber}`, `serial ${serial}`);

const withCounts = (time: string | null, counts: GivenCounts) =>
  time === null ? null : joined(time, ...countsInWords(counts));

const total = (
  { registration, tisHundredths, counted }: DueList,
  parts: readonly PartTime[],
): StatusRow[] => [
  {
    what: `Airframe, ${registration}`,
    status: withCounts(hours(tisHundredths), counted.counts) ?? 'no meter was read',
    ...{ last: '', next: '' },
  },
  ...parts
    .filter(({ kind }) => main.has(kind))
    .map((part) => ({
      what: partName(part),
      status: withCounts(hours(part.tisHundredths), part.counts) ?? part.problem ?? '',
      ...{ last: '', next: '' },
    })),
];

const has = (lines: readonly DueLine[], kind: Kind, { id }: PartTime) =>
  lines.some(({ row }) => row.kind === kind && row.component?.id === id);

/** Parts with a life of which nothing falls due here: how much of it is used. */
const lives = (lines: readonly DueLine[], parts: readonly PartTime[]): StatusRow[] =>
  parts
    .filter((part) => part.lifeLimitHundredths !== null && !has(lines, 'limit', part))
    .map((part) => ({
      what: partName(part),
      status: `${hours(part.tisHundredths) ?? part.problem} of a life of ${hours(part.lifeLimitHundredths)}`,
      ...{ last: '', next: 'not entered as falling due' },
    }));

/** Parts whose overhaul is known and does not fall due by anything entered here. */
const overhauled = (lines: readonly DueLine[], parts: readonly PartTime[]): StatusRow[] =>
  parts
    .filter((part) => part.sinceOverhaulHundredths !== null && !has(lines, 'overhaul', part))
    .map((part) => ({
      what: partName(part),
      status: `${hours(part.sinceOverhaulHundredths)} since overhaul`,
      ...{ last: '', next: 'not entered as falling due' },
    }));
