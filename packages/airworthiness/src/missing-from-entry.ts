import { isCivilDate } from './civil-date.ts';
import type { EntryDraft, InspectionDone, MaintenanceDone } from './entry-draft.ts';
import { missingFromParts } from './entry-parts.ts';
import type { MissingElement } from './missing-element.ts';
import { missingByShopRule } from './shop-rules.ts';

/**
 * What is missing from a record entry: everything that keeps it from being signed.
 *
 * Source: 14 CFR 43.9(a)(1) to (4) where maintenance was done; 43.11(a)(1) to (6) and (b) where an
 * inspection was; for parts on and off see `missingFromParts`. One element for each paragraph that is not met, each with what to do. Then the shop's
 * own rules: see `missingByShopRule`. An empty answer says that nothing required is missing, not that
 * the aircraft is airworthy.
 *
 * @param draft the entry as far as it is known.
 * @returns the missing elements in the order of the paragraphs; none when it is complete.
 * @example missingFromEntry({ items: [], findings: [] })[0].paragraph // → '14 CFR 43.5'
 */
export function missingFromEntry(draft: EntryDraft): MissingElement[] {
  return [...missingByRegulation(draft), ...missingByShopRule(draft)];
}

/** The part of `missingFromEntry` that the regulation asks for. */
export function missingByRegulation(draft: EntryDraft): MissingElement[] {
  const { maintenance, inspection } = draft;
  if (maintenance === undefined && inspection === undefined) {
    return [
      {
        paragraph: '14 CFR 43.5',
        what: 'anything to enter: neither work nor an inspection is recorded',
        remedy: 'Describe the work done or the inspection made.',
      },
    ];
  }
  return [
    ...(maintenance === undefined ? [] : missingFromMaintenance(draft, maintenance)),
    ...(maintenance?.parts === undefined ? [] : missingFromParts(maintenance.parts)),
    ...(inspection === undefined ? [] : missingFromInspection(draft, inspection)),
  ];
}

type Check = readonly [missing: boolean, paragraph: string, what: string, remedy: string];

function failed(checks: readonly Check[]): MissingElement[] {
  return checks
    .filter(([missing]) => missing)
    .map(([, paragraph, what, remedy]) => ({ paragraph: `14 CFR ${paragraph}`, what, remedy }));
}

function missingFromMaintenance(draft: EntryDraft, work: MaintenanceDone): MissingElement[] {
  return failed([
    [
      !hasText(work.description) && !hasText(work.references),
      '43.9(a)(1)',
      'a description of the work, or a reference to the data it followed',
      'Write what was done, or name the manual or directive with its revision.',
    ],
    [
      !hasDay(draft.completedOn),
      '43.9(a)(2)',
      'the date the work was completed',
      'Enter the day as year, month, day.',
    ],
    [
      !hasText(work.performedBy),
      '43.9(a)(3)',
      'the name of the person who did the work',
      'Name who did it, also where it was the signer.',
    ],
    [
      lacksSignature(draft),
      '43.9(a)(4)',
      'the signature with certificate number and kind of certificate',
      'A person entitled to approve this work signs; check the number and kind on their certificate.',
    ],
  ]);
}

function missingFromInspection(draft: EntryDraft, inspection: InspectionDone): MissingElement[] {
  const { extent, outcome, type, progressive } = inspection;
  return failed([
    [
      extent.trim() === '',
      '43.11(a)(1)',
      'a brief description of how far the inspection went',
      'Say what was inspected and by which checklist.',
    ],
    [
      !hasDay(draft.completedOn),
      '43.11(a)(2)',
      'the date of the inspection',
      'Enter the day as year, month, day.',
    ],
    [
      draft.totalTimeInService === undefined,
      '43.11(a)(2)',
      "the aircraft's total time in service",
      'Read the meter and enter it.',
    ],
    [
      lacksSignature(draft),
      '43.11(a)(3)',
      'the signature with certificate number and kind of certificate',
      'A person entitled to this inspection signs; check the number and kind on their certificate.',
    ],
    [
      outcome === undefined && type !== 'progressive',
      '43.11(a)(4)',
      'the statement that the aircraft was found airworthy, or by 43.11(a)(5) that a list was given',
      'The inspector chooses the outcome.',
    ],
    [
      outcome === 'not_airworthy_list_given' && type !== 'progressive' && lacksList(inspection),
      '43.11(a)(5)',
      'the dated list of discrepancies and unairworthy items that the statement speaks of',
      'Make the list, date it and give it to the owner or operator.',
    ],
    [
      type === 'progressive' && (outcome === undefined || lacksProgressive(progressive)),
      '43.11(a)(6)',
      'what had a routine and what a detailed inspection, and whether it is approved or disapproved',
      'Name both and choose the outcome.',
    ],
    [
      type === 'progressive' && outcome === 'not_airworthy_list_given' && lacksList(inspection),
      '43.11(a)(6)',
      'the dated list of discrepancies and unairworthy items that the statement speaks of',
      'Make the list, date it and give it to the owner or operator.',
    ],
    ...listChecks(draft, inspection),
  ]);
}

/** 43.11(b): the signed list is complete, and what stays inoperative is placarded and on it. */
function listChecks(
  draft: EntryDraft,
  { list, outcome, inoperative = [] }: InspectionDone,
): Check[] {
  const listed = new Set(list?.items ?? []);
  const owed = [
    ...draft.findings
      .filter(({ state }) => state !== 'corrected' && outcome === 'not_airworthy_list_given')
      .filter((finding) => finding.class !== 'observation'),
    ...inoperative,
  ].map(({ title }) => title);
  const unlisted = owed.filter((title) => !listed.has(title));
  const unplacarded = inoperative.filter(({ placarded }) => !placarded).map(({ title }) => title);
  const listNeeded = owed.length > 0 || outcome === 'not_airworthy_list_given';
  return [
    [
      listNeeded && (list === undefined || !list.signed || list.givenTo.trim() === ''),
      '43.11(b)',
      'the signature on the list, or the name of the owner or lessee it was given to',
      'Sign the list and note who received it.',
    ],
    [
      unlisted.length > 0,
      '43.11(b)',
      `on the list: ${unlisted.join(', ')}`,
      'Add it to the list, or correct it and record the correction.',
    ],
    [
      unplacarded.length > 0,
      '43.11(b)',
      `a placard "Inoperative" on ${unplacarded.join(', ')} and at its control in the cockpit`,
      'Place the placard and record it.',
    ],
  ];
}

function hasText(lines: readonly string[]): boolean {
  return lines.some((line) => line.trim() !== '');
}

function hasDay(day: string | undefined): boolean {
  return day !== undefined && isCivilDate(day);
}

function lacksSignature({ signature }: EntryDraft): boolean {
  return (
    signature === undefined ||
    [signature.name, signature.certificateNumber, signature.certificateKind].some(
      (part) => part.trim() === '',
    )
  );
}

function lacksList({ list }: InspectionDone): boolean {
  return list === undefined || !hasDay(list.dated) || !hasText(list.items);
}

function lacksProgressive(progressive: InspectionDone['progressive']): boolean {
  return (
    progressive === undefined ||
    progressive.routineOf.trim() === '' ||
    progressive.detailedOf.trim() === ''
  );
}
