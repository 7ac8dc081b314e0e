import {
  type EntryDraft,
  type EntrySignature,
  type InspectionDone,
  inspectionNames,
  type MaintenanceDone,
} from './entry-draft.ts';
import { partLines } from './entry-parts.ts';
import { formatHours } from './hours.ts';
import { missingByRegulation } from './missing-from-entry.ts';

export type RecordBook = 'airframe' | 'engine' | 'propeller' | 'rotor';

/** Which record the entry goes into. */
export interface EntryPlace {
  readonly registration: string;
  readonly book: RecordBook;
}

/** A record entry in words: what is shown before signing, signed and printed. */
export interface ComposedEntry {
  readonly title: string;
  readonly lines: readonly string[];
  /** Title and lines, each on its own line. */
  readonly text: string;
}

/**
 * The text of a record entry, from what was actually done.
 *
 * It carries what 14 CFR 43.9(a) and 43.11(a) ask for; the statements are in our own words, which the
 * rule allows ("or a similarly worded statement"). Times keep both decimals, dates are written year
 * first, so that nobody has to guess.
 *
 * @throws RangeError while anything the regulation asks for is missing, naming it.
 * @example composeEntry({ completedOn: '2026-03-14', maintenance: { description: ['Oil changed.'], references: [], performedBy: ['Ada'] }, signature: { name: 'Ada', certificateKind: 'mechanic', certificateNumber: '3001' }, items: [], findings: [] }, { registration: 'QQ-117', book: 'engine' }).title // → 'QQ-117 · engine record · 2026-03-14'
 */
export function composeEntry(draft: EntryDraft, place: EntryPlace): ComposedEntry {
  const missing = missingByRegulation(draft);
  const { signature } = draft;
  if (missing.length > 0 || signature === undefined) {
    const named = missing.map(({ paragraph, what }) => `${what} (${paragraph})`);
    throw new RangeError(
      `Cannot compose the entry for ${place.registration}: it lacks ${named.join('; ')}`,
    );
  }
  const title = [
    place.registration,
    `${place.book} record`,
    draft.completedOn,
    ...(draft.totalTimeInService === undefined
      ? []
      : [`total time in service ${formatHours(draft.totalTimeInService)} h`]),
  ].join(' · ');
  const lines = [
    ...(draft.maintenance === undefined ? [] : maintenanceLines(draft.maintenance, signature)),
    ...(draft.inoperative ?? []).map((sentence) => `Left inoperative: ${sentence}`),
    ...(draft.inspection === undefined ? [] : inspectionLines(draft.inspection)),
    ...(draft.flightCheck === undefined ? [] : [flightCheckLine(draft.flightCheck)]),
    signatureLine(signature),
  ];
  return { title, lines, text: [title, ...lines].join('\n') };
}

/** In our own words after 14 CFR 91.407(b): what is still to be done before anybody but the crew is carried. */
const flightCheckLine = (why: string) =>
  `To be flown before anybody but its crew is carried, since the work may have changed how it flies or works in flight (14 CFR 91.407(b)): ${why.replace(/\.$/, '')}. An appropriately rated pilot with at least a private certificate flies it, checks the work in operation, and logs the flight in these records.`;

/** How a signature reads: name, kind of certificate, number. */
export function signatureLine({
  name,
  certificateKind,
  certificateNumber,
}: EntrySignature): string {
  return `Signed: ${name}, ${certificateKind}, number ${certificateNumber}`;
}

function maintenanceLines(work: MaintenanceDone, signature: EntrySignature): string[] {
  const others = work.performedBy.filter((name) => name.trim() !== '' && name !== signature.name);
  const references = work.references.filter((reference) => reference.trim() !== '');
  return [
    ...work.description.filter((line) => line.trim() !== ''),
    ...(work.parts === undefined ? [] : partLines(work.parts)),
    ...(references.length === 0 ? [] : [`Work followed: ${references.join('; ')}.`]),
    ...(others.length === 0 ? [] : [`Work done by: ${others.join(', ')}.`]),
    'The work described here was done satisfactorily; the signature approves return to service for this work and for nothing else.',
  ];
}

function inspectionLines(inspection: InspectionDone): string[] {
  const { type, extent, list, inoperative = [] } = inspection;
  const placards = inoperative.map(({ title }) => title);
  return [
    `${capitalised(inspectionNames[type])} inspection. Extent: ${extent}.`,
    ...(placards.length === 0
      ? []
      : [`Placarded inoperative and listed for the owner or operator: ${placards.join(', ')}.`]),
    statement(inspection, list?.dated ?? ''),
  ];
}

function statement({ type, outcome, progressive }: InspectionDone, dated: string): string {
  const airworthy = outcome === 'airworthy';
  const given = `a list, dated ${dated}, of the discrepancies and unairworthy items was given to the owner or operator`;
  if (type === 'progressive') {
    const done = `I certify that under a progressive inspection programme a routine inspection of ${progressive?.routineOf ?? ''} and a detailed inspection of ${progressive?.detailedOf ?? ''} were carried out`;
    return airworthy
      ? `${done}, and that they are approved for return to service.`
      : `${done}, that they are disapproved for return to service, and that ${given}.`;
  }
  const kind = inspectionNames[type];
  const done = `I certify that I inspected this aircraft as ${/^[aeiou]/.test(kind) ? 'an' : 'a'} ${kind} inspection requires`;
  return airworthy
    ? `${done} and found it to be in an airworthy condition; it is approved for return to service.`
    : `${done}, that it is not approved for return to service, and that ${given}.`;
}

function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
