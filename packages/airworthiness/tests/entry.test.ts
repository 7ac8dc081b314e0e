import { describe, expect, test } from 'vitest';
import {
  cautionsOn,
  composeEntry,
  discrepancyList,
  type EntryDraft,
  hazards,
  missingFromEntry,
  parseHours,
  standingCautions,
} from '../src/index.ts';

const signature = { name: 'Ida Ros', certificateNumber: '3001', certificateKind: 'mechanic' };
const item = {
  title: 'Exhaust collector',
  state: 'inspected',
  performedBy: ['Tam Lund'],
  initialledBy: 'TL',
  critical: true,
  secondInspectionBy: 'Ida Ros',
} as const;
const finding = { title: 'Cracked collector', class: 'unairworthy', state: 'corrected' } as const;
const complete: EntryDraft = {
  completedOn: '2026-03-14',
  totalTimeInService: parseHours('2463.05'),
  maintenance: {
    description: ['Exhaust collector replaced.'],
    references: ['maintenance manual 78-10, revision 12'],
    performedBy: ['Tam Lund', 'Ida Ros'],
  },
  inspection: {
    type: 'hundred_hour',
    extent: 'whole aircraft by checklist 4',
    outcome: 'airworthy',
  },
  signature,
  items: [item],
  findings: [finding],
};
const shopRules = (draft: EntryDraft) =>
  missingFromEntry(draft)
    .filter(({ paragraph }) => paragraph === 'shop rule')
    .map(({ what }) => what);

describe('the shop rules', () => {
  test('a complete entry misses nothing', () => {
    expect(missingFromEntry(complete)).toEqual([]);
  });

  test.each(['open', 'in_work', 'waiting'] as const)('an item %s keeps the entry open', (state) => {
    expect(shopRules({ ...complete, items: [{ ...item, state }] })).toEqual([
      'an end to the item still open: Exhaust collector',
    ]);
  });

  test('an item put off does not', () => {
    expect(shopRules({ ...complete, items: [{ ...item, state: 'put_off' }] })).toEqual([]);
  });

  test('every item is initialled', () => {
    expect(shopRules({ ...complete, items: [{ ...item, initialledBy: ' ' }] })).toEqual([
      'initials on the item: Exhaust collector',
    ]);
  });

  test('a critical item needs a second person, who is not the one who did it', () => {
    const lacks = ['a second, independent look at the critical item: Exhaust collector'];
    const alone = { ...item, secondInspectionBy: 'Tam Lund' };
    expect(shopRules({ ...complete, items: [alone] })).toEqual(lacks);
    expect(shopRules({ ...complete, items: [{ ...item, secondInspectionBy: undefined }] })).toEqual(
      lacks,
    );
    expect(shopRules({ ...complete, items: [{ ...alone, critical: false }] })).toEqual([]);
  });

  test('nothing found unairworthy stays uncorrected in an airworthy aircraft', () => {
    expect(shopRules({ ...complete, findings: [{ ...finding, state: 'declined' }] })).toEqual([
      'the correction of what was found unairworthy: Cracked collector',
    ]);
  });

  test('a finding nobody has assessed is not signed over', () => {
    expect(
      shopRules({ ...complete, findings: [{ ...finding, class: 'observation', state: 'noted' }] }),
    ).toEqual(['an assessment of the finding: Cracked collector']);
  });

  test('all that is missing comes at once, each with a remedy', () => {
    const missing = missingFromEntry({
      maintenance: { description: [], references: [], performedBy: [] },
      inspection: { type: 'annual', extent: '' },
      items: [{ ...item, state: 'open' }],
      findings: [],
    });
    expect(missing).toHaveLength(10);
    expect(missing.every(({ what, remedy }) => what !== '' && remedy.endsWith('.'))).toBe(true);
  });
});

describe('the text of an entry', () => {
  test('says what was done, by whom, to which data, and keeps the hundredths', () => {
    const { text } = composeEntry(complete, { registration: 'QQ-117', book: 'airframe' });
    expect(text.split('\n')).toEqual([
      'QQ-117 · airframe record · 2026-03-14 · total time in service 2463.05 h',
      'Exhaust collector replaced.',
      'Work followed: maintenance manual 78-10, revision 12.',
      'Work done by: Tam Lund.',
      'The work described here was done satisfactorily; the signature approves return to service for this work and for nothing else.',
      '100-hour inspection. Extent: whole aircraft by checklist 4.',
      'I certify that I inspected this aircraft as a 100-hour inspection requires and found it to be in an airworthy condition; it is approved for return to service.',
      'Signed: Ida Ros, mechanic, number 3001',
    ]);
  });

  test('is refused while anything required is missing, naming it', () => {
    expect(() =>
      composeEntry(
        { ...complete, completedOn: '2026-02-30' },
        { registration: 'QQ-117', book: 'rotor' },
      ),
    ).toThrow(/Cannot compose the entry for QQ-117: it lacks the date .*43\.9\(a\)\(2\)/);
  });
});

describe('the list of discrepancies', () => {
  const input = {
    registration: 'QQ-117',
    dated: '2026-03-14',
    givenTo: 'Mara Vane',
    signature,
    items: [
      { title: 'Landing light', kind: 'inoperative' },
      { title: 'Collector', kind: 'unairworthy', detail: 'cracked 22 mm at the flange' },
    ],
  } as const;

  test('is dated, addressed, signed, unairworthy first, with its cautions', () => {
    const { title, lines } = discrepancyList(input);
    expect(title).toContain('2026-03-14');
    expect(lines.slice(0, 4)).toEqual([
      'Given to Mara Vane after an inspection (14 CFR 43.11(b)).',
      '1. Collector (unairworthy): cracked 22 mm at the flange',
      '2. Landing light (inoperative, placarded)',
      'Signed: Ida Ros, mechanic, number 3001',
    ]);
    expect(lines.slice(4)).toEqual(cautionsOn('discrepancy_list').map(({ text }) => text));
  });

  test('is refused empty, undated or for nobody', () => {
    expect(() => discrepancyList({ ...input, items: [] })).toThrow('nothing on it');
    expect(() => discrepancyList({ ...input, dated: '2025-02-29' })).toThrow('2025-02-29');
    expect(() => discrepancyList({ ...input, givenTo: ' ' })).toThrow('for nobody');
  });
});

test('every standing caution has a place, and every signed paper says who decides', () => {
  expect(standingCautions.every(({ on, text }) => on.length > 0 && text.endsWith('.'))).toBe(true);
  expect(new Set(standingCautions.map(({ id }) => id)).size).toBe(standingCautions.length);
  for (const place of ['entry', 'discrepancy_list', 'signing'] as const) {
    expect(cautionsOn(place).map(({ id }) => id)).toContain('person_decides');
  }
  expect(Object.keys(hazards)).toHaveLength(7);
});
