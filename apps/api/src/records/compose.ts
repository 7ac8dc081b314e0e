import {
  composeEntry,
  discrepancyList,
  type EntryDraft,
  hundredths,
  type MissingElement,
  missingFromEntry,
} from '@fairlead/airworthiness';
import type { FindingClass, RecordBookKind, ReleaseOutcome } from '@fairlead/database';
import { civilDay } from '../civil-day.ts';
import { sayDay } from '../given.ts';
import { unclosed } from '../safety/queries.ts';
import { itemState } from '../states.ts';
import { goesInto } from './book-of.ts';
import { byOf, describe, extentOf, findingsFor, lastDay, performers } from './entry-words.ts';
import type { LeftInoperative } from './inoperative/left-inoperative.ts';
import { type ItemToSign, type OrderToSign, type SignedEntry, standing } from './order-to-sign.ts';
import { partsOf, unnamedParts } from './parts-of-entry.ts';
import type { Signer } from './signer.ts';

const DAY_MS = 24 * 3600 * 1000;

export interface EntryWanted {
  book: { id: string; kind: RecordBookKind; title: string };
  outcome: ReleaseOutcome | null;
  /** How far the inspection went; null: as the package says. */
  extent: string | null;
  /** Items of this kind of book that belong in another of the same kind: the other engine's. */
  leaveOut: readonly string[];
  /** The entry that this one corrects, and why. */
  corrects: { entry: SignedEntry; reason: string } | null;
  /** What stays inoperative on the aircraft, found on this order or an earlier one. */
  left: readonly LeftInoperative[];
}

export interface ListedFinding {
  findingId: string;
  class: FindingClass;
  words: string;
  inoperative: boolean;
}

/** An entry as it would be signed now, with everything that keeps it from being signed. */
export interface PreparedEntry {
  rule: 'maintenance' | 'inspection';
  /** The items whose work it describes. */
  items: ItemToSign[];
  listed: ListedFinding[];
  completedOn: Date | null;
  tisHundredths: number | null;
  missing: MissingElement[];
  /** What it would describe, also while something is missing. */
  described: string[];
  /** The whole text; null while anything that the regulation asks for is missing. */
  text: string | null;
}

export const finished = (item: ItemToSign) => ['done', 'inspected'].includes(itemState(item));

/** Items of a book that are done and stand in no entry yet, or that stand in the entry being corrected. */
export function itemsFor(
  order: OrderToSign,
  { book, leaveOut, corrects }: Pick<EntryWanted, 'book' | 'leaveOut' | 'corrects'>,
): ItemToSign[] {
  const entered = new Set(
    standing(order, book.id).flatMap(({ id, items }) =>
      id === corrects?.entry.id ? [] : items.map(({ itemId }) => itemId),
    ),
  );
  return order.items.filter(
    (item) =>
      goesInto(item.jasc, book.kind, order.aircraft.books) &&
      !leaveOut.includes(item.id) &&
      !entered.has(item.id),
  );
}

/** The inspection is entered once in each book; later entries of the visit are for work alone. */
export const inspectionFor = (
  order: OrderToSign,
  { book, corrects }: Pick<EntryWanted, 'book' | 'corrects'>,
) =>
  order.inspection &&
  standing(order, book.id).every(
    ({ id, rule }) => rule !== 'inspection' || id === corrects?.entry.id,
  )
    ? order.inspection
    : null;

/**
 * Composes the entry of an order for one book from what was done, by 14 CFR 43.9 and, with an inspection, 43.11.
 *
 * @param today the day of signing: of the list, and for the states of findings
 */
export function prepareEntry(
  order: OrderToSign,
  wanted: EntryWanted,
  signer: Signer,
  { today, timeZone }: { today: Date; timeZone: string },
): PreparedEntry {
  const { book, outcome, corrects } = wanted;
  const items = itemsFor(order, wanted);
  const done = items.filter(finished);
  const inspection = inspectionFor(order, wanted);
  const wholeAircraft = inspection !== null && book.kind === 'airframe';
  const looked = wholeAircraft ? order.items : items;
  const findings = findingsFor(order, book.kind, inspection !== null, today);
  const completedOn = lastDay(looked.filter(finished), timeZone);
  const givenTo = order.aircraft.contacts[0]?.contact.name ?? '';
  const left = wanted.left.filter(
    ({ findingId }) => wholeAircraft || findings.some(({ id }) => id === findingId),
  );
  const onList = inspection ? listOf(order, findings, left, outcome) : [];
  const signature = {
    name: signer.name,
    certificateKind: signer.certificateName,
    certificateNumber: signer.certificateNumber,
  };
  const reading = order.readings[0] ?? null;

  const draft: EntryDraft = {
    completedOn: completedOn?.toISOString().slice(0, 10),
    totalTimeInService: reading ? hundredths(reading.tisHundredths) : undefined,
    signature: signer.may ? signature : undefined,
    ...((done.length > 0 || !inspection) && {
      maintenance: {
        description: done.map((item) => describe(item, order)),
        references: [...new Set(done.map(({ reference }) => reference.trim()))],
        performedBy: [...new Set(done.flatMap(performers))],
        parts: partsOf(order, done),
      },
    }),
    ...(book.kind === 'airframe' &&
      order.flightChecks[0]?.kind === 'asked' && { flightCheck: order.flightChecks[0].words }),
    inoperative: left.map(({ line }) => line),
    ...(inspection && {
      inspection: {
        type: inspection,
        extent: wanted.extent ?? extentOf(order, book.kind),
        outcome: outcome ?? undefined,
        inoperative: left.map((one) => ({ title: titleOf(order, one), placarded: true })),
        ...((outcome === 'not_airworthy_list_given' || onList.length > 0) && {
          list: {
            dated: today.toISOString().slice(0, 10),
            givenTo,
            signed: signer.may,
            items: onList.map(({ title }) => title),
          },
        }),
      },
    }),
    items: looked.map((item) => ({
      title: `${item.position} ${item.title}`,
      state: itemState(item),
      performedBy: performers(item),
      critical: item.critical,
      initialledBy: byOf(item, 'initialled'),
      secondInspectionBy: byOf(item, 'second_inspected'),
    })),
    findings: findings.map(({ title, class: kind, state }) => ({ title, class: kind, state })),
  };
  const missing = [
    ...missingFromEntry(draft),
    ...unnamedParts(order),
    ...runningClocks(looked),
    ...leftOpen(order),
    ...onTheWay(order, today, timeZone),
  ];
  return {
    rule: inspection ? 'inspection' : 'maintenance',
    items: done,
    listed: onList.map(({ id, class: kind, words, title, inoperative }) => ({
      findingId: id,
      class: kind,
      words: words === '' ? title : `${title}: ${words}`,
      inoperative,
    })),
    completedOn,
    tisHundredths: reading?.tisHundredths ?? null,
    missing,
    described: [
      ...(draft.maintenance?.description ?? []),
      ...(draft.inspection ? [draft.inspection.extent] : []),
    ],
    text: missing.some(({ paragraph }) => paragraph !== 'shop rule')
      ? null
      : [
          composeEntry(draft, { registration: order.aircraft.registration, book: book.kind }).text,
          ...(onList.length > 0
            ? [
                discrepancyList({
                  registration: order.aircraft.registration,
                  dated: today.toISOString().slice(0, 10),
                  givenTo,
                  items: onList.map(({ title, words, class: kind, inoperative }) => ({
                    title,
                    kind: inoperative
                      ? 'inoperative'
                      : kind === 'unairworthy'
                        ? 'unairworthy'
                        : 'discrepancy',
                    detail: words,
                  })),
                  signature,
                }).text,
              ]
            : []),
          ...(corrects
            ? [
                `This corrects the entry signed by ${corrects.entry.signedBy.name} on ${sayDay(civilDay(corrects.entry.signedAt, timeZone))}: ${corrects.reason}`,
              ]
            : []),
        ].join('\n\n'),
  };
}

/** "Clock stopped (finding 3)", or of an earlier visit "Clock stopped (finding 3 of order 1004)". */
const titleOf = (order: OrderToSign, { title, number, orderId, orderNumber }: LeftInoperative) =>
  `${title} (finding ${number}${orderId === order.id ? '' : ` of order ${orderNumber}`})`;

/** What goes on the list of 14 CFR 43.11(b): what was left uncorrected, and what stays inoperative, also where it is airworthy. */
function listOf(
  order: OrderToSign,
  findings: ReturnType<typeof findingsFor>,
  left: readonly LeftInoperative[],
  outcome: ReleaseOutcome | null,
) {
  const open = findings.filter(
    ({ id, state, class: kind }) =>
      outcome === 'not_airworthy_list_given' &&
      state !== 'corrected' &&
      kind !== 'observation' &&
      !left.some(({ findingId }) => findingId === id),
  );
  return [
    ...open.map((finding) => ({ ...finding, inoperative: false })),
    ...left.map((one) => ({
      ...{ id: one.findingId, title: titleOf(order, one), class: one.class, words: one.line },
      inoperative: true,
    })),
  ];
}

/** Nobody signs for work that somebody is still at. */
const runningClocks = (items: readonly ItemToSign[]): MissingElement[] =>
  items.flatMap(({ position, title, stretches }) =>
    stretches
      .filter(({ endedAt }) => !endedAt)
      .map(({ person }) => ({
        paragraph: 'shop rule',
        what: `an end to the clock of ${person.name} on ${position} ${title}`,
        remedy: 'They stop or switch their clock.',
      })),
  );

/** Nobody signs while a panel is open, a part is off or a tool is missing, whichever book the work goes into. */
const leftOpen = (order: OrderToSign): MissingElement[] =>
  unclosed(order).map(({ lacks, remedy }) => ({ paragraph: 'shop rule', what: lacks, remedy }));

/**
 * An entry names its photos by their digests, so it waits for those that are still on their way. A device that is lost
 * keeps nobody from signing: two days later the preview is the photo, and its file stays.
 */
const onTheWay = ({ findings }: OrderToSign, today: Date, timeZone: string): MissingElement[] =>
  findings.flatMap(({ number, photos }) =>
    photos
      .filter(
        ({ photo }) => today.getTime() - civilDay(photo.addedAt, timeZone).getTime() <= DAY_MS,
      )
      .map(() => ({
        paragraph: 'shop rule',
        what: `the whole of a photo of finding ${number}: it is still on its way, a preview is here`,
        remedy:
          'Whoever took it opens the bench on that device where there is signal. If it has not come two days later, the preview counts as the photo.',
      })),
  );

const chapterOf: Record<RecordBookKind, string> = {
  airframe: '5300',
  engine: '7200',
  propeller: '6100',
  rotor: '6200',
};

/** JASC codes of what an entry approves: its book's own chapter, and those of its items. They decide who may sign. */
export const jascsOf = (items: readonly ItemToSign[], kind: RecordBookKind): string[] => [
  chapterOf[kind],
  ...items.map(({ jasc }) => jasc),
];
