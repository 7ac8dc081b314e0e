import type { Counter } from './due/due-item.ts';
import { formatHours, type TimeInService } from './hours.ts';
import type { MissingElement } from './missing-element.ts';

/** What becomes of a life-limited part that comes off: the methods of 14 CFR 43.10(c), and 43.10(b), in our own words. */
export const partDispositions = {
  goes_back: {
    paragraph: '43.10(b)',
    words: 'off for the work alone, back onto the same aircraft before it flies',
  },
  record_keeping: {
    paragraph: '43.10(c)(1)',
    words:
      'kept by a record of its number, serial number and life status, brought up to date at each removal',
  },
  tag: { paragraph: '43.10(c)(2)', words: 'kept with a tag or record of these attached to it' },
  non_permanent_marking: {
    paragraph: '43.10(c)(3)',
    words: 'its life status marked on it, legibly and not for good',
  },
  permanent_marking: {
    paragraph: '43.10(c)(4)',
    words: 'its life status marked on it for good',
  },
  segregation: {
    paragraph: '43.10(c)(5)',
    words: 'kept apart from what may be fitted, with a record of these',
  },
  mutilation: {
    paragraph: '43.10(c)(6)',
    words: 'made useless, beyond repair and beyond looking fit',
  },
  other: { paragraph: '43.10(c)(7)', words: 'by another method that the authority accepts' },
} as const;

export type PartDisposition = keyof typeof partDispositions;

/** A limit of a part by what is counted, and its own count; undefined: nobody can tell it. */
export interface CountedLife {
  readonly counter: Counter;
  readonly life: number;
  readonly sinceNew: number | undefined;
}

/** A part that went on or came off, as an entry says it. */
export interface EntryPart {
  readonly title: string;
  readonly partNumber: string;
  /** Of a serialised part; else `lot`. */
  readonly serial?: string | undefined;
  readonly lot?: string | undefined;
  /** "2 ea" of what comes by the piece. */
  readonly quantity?: string | undefined;
  readonly position?: string | undefined;
  /** What it came with: a release certificate's tracking number, or that there is none and who answers for it. */
  readonly trace?: string | undefined;
  /** A mandatory replacement limit is known: 14 CFR 43.10(a). */
  readonly lifeLimited: boolean;
  readonly life?: TimeInService | undefined;
  /** Limits by cycles, landings or starts: life status is accumulated cycles too (14 CFR 43.10(a)). */
  readonly counted?: readonly CountedLife[] | undefined;
  /** Its overhaul is asked for on a time basis: 14 CFR 91.417(a)(2)(iii). */
  readonly overhauled: boolean;
  readonly sinceNew?: TimeInService | undefined;
  readonly sinceOverhaul?: TimeInService | undefined;
  /** The aircraft's time in service then. */
  readonly aircraftAt?: TimeInService | undefined;
  /** Of what came off. */
  readonly disposition?: { readonly method: PartDisposition; readonly words: string } | undefined;
  /** Of what came off for the work alone: it is back, at the same time in service. */
  readonly back?: boolean | undefined;
}

export interface EntryParts {
  readonly on: readonly EntryPart[];
  readonly off: readonly EntryPart[];
}

const hours = (time: TimeInService) => `${formatHours(time)} h`;

/** "Magneto, part M-1, serial 22". */
const nameOf = ({ title, partNumber, serial, lot }: EntryPart) =>
  [
    title,
    `part ${partNumber}`,
    ...(serial ? [`serial ${serial}`] : []),
    ...(lot ? [`lot ${lot}`] : []),
  ].join(', ');

function statusOf({
  sinceNew,
  sinceOverhaul,
  life,
  lifeLimited,
  counted = [],
}: EntryPart): string[] {
  return [
    ...(sinceNew === undefined ? [] : [`${hours(sinceNew)} since new`]),
    ...(sinceOverhaul === undefined ? [] : [`${hours(sinceOverhaul)} since overhaul`]),
    ...(life === undefined || sinceNew === undefined
      ? lifeLimited
        ? ['life-limited']
        : []
      : [
          `life ${hours(life)}, ${life < sinceNew ? 'none' : hours((life - sinceNew) as TimeInService)} left`,
        ]),
    ...counted.map((by) =>
      by.sinceNew === undefined
        ? `life ${by.life} ${by.counter}`
        : `${by.sinceNew} ${by.counter} since new, life ${by.life}, ${Math.max(0, by.life - by.sinceNew)} left`,
    ),
  ];
}

/**
 * The lines of an entry that say which parts went on and came off, each with its numbers and, where it has a time of its
 * own, its life status (14 CFR 43.10(c), 91.417(a)(2)(ii) and (iii)); the description itself is 43.9(a)(1).
 *
 * @example partLines({ on: [{ title: 'Gasket', partNumber: 'G-1', lot: '7', quantity: '1 ea', lifeLimited: false, overhauled: false }], off: [] }) // → ['Part on: 1 ea Gasket, part G-1, lot 7.']
 */
export function partLines({ on, off }: EntryParts): string[] {
  const line = (side: 'on' | 'off', part: EntryPart) => {
    const { quantity, position, aircraftAt, trace, disposition } = part;
    const facts = [
      ...(aircraftAt === undefined ? [] : [`at ${hours(aircraftAt)} of the aircraft`]),
      ...statusOf(part),
      ...(trace ? [trace] : []),
      ...(disposition
        ? [
            `${partDispositions[disposition.method].words} (14 CFR ${partDispositions[disposition.method].paragraph})${disposition.words === '' ? '' : `: ${disposition.words}`}`,
          ]
        : []),
    ];
    const head = `Part ${side}: ${quantity ? `${quantity} ` : ''}${nameOf(part)}${position ? ` (${position})` : ''}`;
    return `${[head, ...facts].join('; ').replace(/\.$/, '')}.`;
  };
  return [...off.map((part) => line('off', part)), ...on.map((part) => line('on', part))];
}

/**
 * What is missing from the parts of an entry.
 *
 * Source: 14 CFR 43.10(b) and (c) for what came off, 91.417(a)(2)(ii) and (iii) for what went on; that a part past its life
 * may not be fitted is 91.403(c) with 43.16, from memory.
 *
 * @example missingFromParts({ on: [], off: [{ title: 'Disk', partNumber: 'D-1', serial: '4', lifeLimited: true, overhauled: false }] }).map(({ paragraph }) => paragraph) // → ['14 CFR 43.10(c)', '14 CFR 43.10(c)']
 */
export function missingFromParts({ on, off }: EntryParts): MissingElement[] {
  return [...off.flatMap(missingFromOff), ...on.flatMap(missingFromOn)];
}

function missingFromOff(part: EntryPart): MissingElement[] {
  const { lifeLimited, sinceNew, disposition, back, counted = [] } = part;
  const name = nameOf(part);
  const ask = (paragraph: string, what: string, remedy: string): MissingElement => ({
    paragraph: `14 CFR ${paragraph}`,
    what,
    remedy,
  });
  return [
    ...unnumbered(part, '43.10(c)'),
    ...(lifeLimited && sinceNew === undefined
      ? [
          ask(
            '43.10(c)',
            `the life status of ${name} when it came off`,
            'Enter the times that its own time follows from: when it was fitted, and every removal.',
          ),
        ]
      : []),
    ...counted
      .filter((by) => by.sinceNew === undefined)
      .map(({ counter }) =>
        ask(
          '43.10(c)',
          `the ${counter} of ${name} when it came off`,
          'Enter the counts that its own follows from: when it was fitted, and every removal.',
        ),
      ),
    ...(lifeLimited && disposition === undefined
      ? [
          ask(
            '43.10(c)',
            `what becomes of ${name}: how it is kept from being fitted past its life`,
            'Say it on the sheet of the part: record, tag, marking, kept apart, or made useless.',
          ),
        ]
      : []),
    ...(disposition?.method === 'goes_back' && back !== true
      ? [
          ask(
            '43.10(b)',
            `${name} back on the aircraft at the same time in service, as was said when it came off`,
            'Fit it, or say what becomes of it.',
          ),
        ]
      : []),
  ];
}

function missingFromOn(part: EntryPart): MissingElement[] {
  const { lifeLimited, overhauled, sinceNew, sinceOverhaul, life, counted = [] } = part;
  const name = nameOf(part);
  const lacksLife = lifeLimited && sinceNew === undefined;
  return [
    ...unnumbered(part, '91.417(a)(2)(ii)'),
    ...(lacksLife
      ? [
          {
            paragraph: '14 CFR 91.417(a)(2)(ii)',
            what: `the life status of ${name} when it was fitted`,
            remedy: 'Enter the times that its own time follows from.',
          },
        ]
      : []),
    ...counted.flatMap(({ counter, life: most, sinceNew: own }) =>
      own === undefined
        ? [
            {
              paragraph: '14 CFR 91.417(a)(2)(ii)',
              what: `the ${counter} of ${name} when it was fitted`,
              remedy: 'Enter the counts that its own follows from.',
            },
          ]
        : own >= most
          ? [noLifeLeft(name, `${own} of ${most} ${counter}`)]
          : [],
    ),
    ...(overhauled && !lacksLife && sinceNew === undefined && sinceOverhaul === undefined
      ? [
          {
            paragraph: '14 CFR 91.417(a)(2)(iii)',
            what: `the time since overhaul of ${name} when it was fitted`,
            remedy: 'Enter it from its papers.',
          },
        ]
      : []),
    ...(life !== undefined && sinceNew !== undefined && sinceNew >= life
      ? [noLifeLeft(name, `${hours(sinceNew)} of ${hours(life)}`)]
      : []),
  ];
}

const noLifeLeft = (name: string, had: string): MissingElement => ({
  paragraph: '14 CFR 91.403(c)',
  what: `a life left to ${name}: it had ${had} when it was fitted`,
  remedy:
    'Take it off and fit one within its life; or correct the limit, if that was entered wrong.',
});

/** A life-limited part is named by its part number and its serial number. */
function unnumbered(part: EntryPart, paragraph: string): MissingElement[] {
  const lacks = [
    ...(part.partNumber.trim() === '' ? ['part number'] : []),
    ...((part.serial ?? '').trim() === '' ? ['serial number'] : []),
  ];
  return part.lifeLimited && lacks.length > 0
    ? [
        {
          paragraph: `14 CFR ${paragraph}`,
          what: `the ${lacks.join(' and ')} of ${part.title}`,
          remedy: 'Read it off the part, and enter it.',
        },
      ]
    : [];
}
