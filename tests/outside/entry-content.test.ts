import {
  composeEntry,
  discrepancyList,
  type EntryDraft,
  type EntryPart,
  type InspectionDone,
  missingFromEntry,
  parseHours,
} from '@fairlead/airworthiness';
import { describe, expect, test } from 'vitest';

// Source: 14 CFR 43.9(a) and 43.11(a) and (b), read in the regulation's text. One test a paragraph:
// each takes exactly one required thing away from a complete entry.

const place = { registration: 'QQ-204', book: 'airframe' } as const;
const base = { items: [], findings: [], completedOn: '2026-03-14' } as const;
const signature = {
  name: 'Ida Ros',
  certificateNumber: '3001',
  certificateKind: 'mechanic, airframe and powerplant ratings',
};
const work: EntryDraft = {
  ...base,
  signature,
  maintenance: {
    description: ['Left magneto replaced and timed.'],
    references: ['maintenance manual 74-10, revision 9'],
    performedBy: ['Tam Lund'],
  },
};
const inspected = (more: Partial<InspectionDone> = {}): EntryDraft => ({
  ...base,
  signature,
  totalTimeInService: parseHours('2463.0'),
  inspection: { type: 'annual', extent: 'whole aircraft', outcome: 'airworthy', ...more },
});
const list = { dated: '2026-03-13', givenTo: 'Mara Vane', signed: true, items: ['Cracked rib'] };
const unairworthy = inspected({ outcome: 'not_airworthy_list_given', list });
const paragraphs = (draft: EntryDraft) => missingFromEntry(draft).map(({ paragraph }) => paragraph);

describe('14 CFR 43.9(a): entries for maintenance', () => {
  test('a complete entry holds all four elements', () => {
    expect(missingFromEntry(work)).toEqual([]);
    const { text } = composeEntry(work, place);
    expect(text).toContain('Left magneto replaced and timed.');
    expect(text).toContain('2026-03-14');
    expect(text).toContain('Work done by: Tam Lund.');
    expect(text).toContain('Ida Ros, mechanic, airframe and powerplant ratings, number 3001');
  });

  test('(1) a description, or a reference to data; either will do', () => {
    const { maintenance } = work;
    const done = maintenance ?? { description: [], references: [], performedBy: [] };
    const without = (more: object) => paragraphs({ ...work, maintenance: { ...done, ...more } });
    expect(without({ description: [''], references: [' '] })).toEqual(['14 CFR 43.9(a)(1)']);
    expect(without({ description: [] })).toEqual([]);
    expect(without({ references: [] })).toEqual([]);
  });

  test('(2) the date of completion, a day that exists', () => {
    expect(paragraphs({ ...work, completedOn: undefined })).toEqual(['14 CFR 43.9(a)(2)']);
    expect(paragraphs({ ...work, completedOn: '2025-02-29' })).toEqual(['14 CFR 43.9(a)(2)']);
  });

  test('(3) the name of the person who did it, printed where it is not the signer', () => {
    const maintenance = { description: ['Oil changed.'], references: [], performedBy: [] };
    expect(paragraphs({ ...work, maintenance })).toEqual(['14 CFR 43.9(a)(3)']);
    const own = { ...work, maintenance: { ...maintenance, performedBy: ['Ida Ros'] } };
    expect(paragraphs(own)).toEqual([]);
    expect(composeEntry(own, place).text).not.toContain('Work done by');
  });

  test.each(['name', 'certificateNumber', 'certificateKind'])(
    '(4) the signature with its %s',
    (part) => {
      expect(paragraphs({ ...work, signature: { ...signature, [part]: '' } })).toEqual([
        '14 CFR 43.9(a)(4)',
      ]);
    },
  );

  test('(4) the signature approves only the work performed', () => {
    expect(composeEntry(work, place).text).toContain('for this work and for nothing else');
  });
});

describe('14 CFR 43.11(a): entries for inspections', () => {
  test('(1) the type of inspection and its extent in brief', () => {
    expect(paragraphs(inspected({ extent: ' ' }))).toEqual(['14 CFR 43.11(a)(1)']);
    const { text } = composeEntry(inspected(), place);
    expect(text).toContain('Annual inspection. Extent: whole aircraft.');
  });

  test('(2) the date', () => {
    expect(paragraphs({ ...inspected(), completedOn: undefined })).toEqual(['14 CFR 43.11(a)(2)']);
  });

  test('(2) the total time in service', () => {
    const draft = { ...inspected(), totalTimeInService: undefined };
    expect(paragraphs(draft)).toEqual(['14 CFR 43.11(a)(2)']);
    expect(composeEntry(inspected(), place).title).toContain('total time in service 2463.00 h');
  });

  test('(3) the signature, number and kind, approving or disapproving', () => {
    expect(paragraphs({ ...inspected(), signature: undefined })).toEqual(['14 CFR 43.11(a)(3)']);
    expect(paragraphs({ ...unairworthy, signature: undefined })).toEqual(['14 CFR 43.11(a)(3)']);
  });

  test('(4) airworthy: certified, inspected, the type, in airworthy condition', () => {
    expect(paragraphs(inspected({ outcome: undefined }))).toEqual(['14 CFR 43.11(a)(4)']);
    const { text } = composeEntry(inspected(), place);
    expect(text).toMatch(/I certify .* inspected .* an annual inspection .* airworthy condition/);
    expect(text).not.toContain('discrepancies');
  });

  test('(5) not airworthy: certified, inspected, the type, and a list of its date was given', () => {
    const draft = inspected({ outcome: 'not_airworthy_list_given' });
    expect(paragraphs(draft)).toEqual(['14 CFR 43.11(a)(5)', '14 CFR 43.11(b)']);
    expect(
      paragraphs(inspected({ ...unairworthy.inspection, list: { ...list, dated: '' } })),
    ).toEqual(['14 CFR 43.11(a)(5)']);
    const { text } = composeEntry(unairworthy, place);
    expect(text).toMatch(
      /I certify .* inspected .* annual inspection .* not approved .* list, dated 2026-03-13, of the discrepancies and unairworthy items was given to the owner or operator/,
    );
    expect(text).not.toContain('airworthy condition');
  });

  test('(6) progressive: what was routine, what detailed, approved or with the list', () => {
    const progressive = { routineOf: 'the aircraft', detailedOf: 'the tail rotor gearbox' };
    const missing = inspected({ type: 'progressive' });
    expect(paragraphs(missing)).toEqual(['14 CFR 43.11(a)(6)']);
    const approved = composeEntry(inspected({ type: 'progressive', progressive }), place).text;
    expect(approved).toMatch(/routine inspection of the aircraft and a detailed inspection of/);
    expect(approved).toContain('they are approved for return to service');
    const outcome = 'not_airworthy_list_given';
    const refused = inspected({ type: 'progressive', progressive, outcome, list });
    expect(composeEntry(refused, place).text).toMatch(/disapproved .* list, dated 2026-03-13/);
  });
});

describe('14 CFR 43.11(b): the list and the placards', () => {
  test('the list is signed and given to the owner or lessee', () => {
    for (const change of [{ signed: false }, { givenTo: '' }]) {
      const draft = inspected({ ...unairworthy.inspection, list: { ...list, ...change } });
      expect(paragraphs(draft)).toEqual(['14 CFR 43.11(b)']);
    }
    expect(paragraphs(unairworthy)).toEqual([]);
  });

  test('every discrepancy left uncorrected stands on it', () => {
    const findings = [
      { title: 'Cracked rib', class: 'unairworthy', state: 'declined' },
      { title: 'Worn hose', class: 'discrepancy', state: 'put_off' },
      { title: 'Faded paint', class: 'observation', state: 'put_off' },
      { title: 'Loose clamp', class: 'discrepancy', state: 'corrected' },
    ] as const;
    const [missing, ...others] = missingFromEntry({ ...unairworthy, findings });
    expect(missing).toMatchObject({ paragraph: '14 CFR 43.11(b)', what: 'on the list: Worn hose' });
    expect(others).toEqual([]);
  });

  test('equipment left inoperative is placarded and on the list, in an airworthy aircraft too', () => {
    const inoperative = [{ title: 'Landing light', placarded: false }];
    expect(missingFromEntry(inspected({ inoperative })).map(({ what }) => what)).toEqual([
      'the signature on the list, or the name of the owner or lessee it was given to',
      'on the list: Landing light',
      'a placard "Inoperative" on Landing light and at its control in the cockpit',
    ]);
    const placarded = [{ title: 'Landing light', placarded: true }];
    const listed = { ...list, items: ['Landing light'] };
    expect(paragraphs(inspected({ inoperative: placarded, list: listed }))).toEqual([]);
  });

  test('the list itself is dated, signed and names the items', () => {
    const { text } = discrepancyList({
      registration: 'QQ-204',
      dated: '2026-03-13',
      givenTo: 'Mara Vane',
      signature,
      items: [{ title: 'Cracked rib', kind: 'unairworthy' }],
    });
    for (const part of [
      '2026-03-13',
      'Mara Vane',
      'Cracked rib (unairworthy)',
      'Signed: Ida Ros',
    ]) {
      expect(text).toContain(part);
    }
  });
});

// Source: 14 CFR 43.10(a) to (c), and 91.417(a)(2)(ii) and (iii), read in the regulation's text.
describe('14 CFR 43.10(c): parts that come off, and 91.417(a)(2): parts that go on', () => {
  const disk: EntryPart = {
    ...{ title: 'Rotor hub', partNumber: 'H-1', serial: '77', position: 'main' },
    ...{ lifeLimited: true, life: parseHours('220'), overhauled: false },
    ...{ sinceNew: parseHours('200'), aircraftAt: parseHours('1290') },
    disposition: { method: 'tag', words: 'quarantine shelf' },
  };
  const withParts = (on: EntryPart[], off: EntryPart[]): EntryDraft => ({
    ...work,
    ...(work.maintenance && { maintenance: { ...work.maintenance, parts: { on, off } } }),
  });

  test('number, serial number, life status and what becomes of it stand in the entry', () => {
    expect(paragraphs(withParts([], [disk]))).toEqual([]);
    expect(composeEntry(withParts([], [disk]), place).lines).toContain(
      'Part off: Rotor hub, part H-1, serial 77 (main); at 1290.00 h of the aircraft; 200.00 h since new; life 220.00 h, 20.00 h left; kept with a tag or record of these attached to it (14 CFR 43.10(c)(2)): quarantine shelf.',
    );
  });
  test.each<[string, Partial<EntryPart>]>([
    ['part number', { partNumber: ' ' }],
    ['serial number', { serial: '' }],
    ['life status', { sinceNew: undefined }],
    ['disposition', { disposition: undefined }],
  ])('without its %s there is no entry', (_, over) => {
    const draft = withParts([], [{ ...disk, ...over }]);
    expect(paragraphs(draft)).toEqual(['14 CFR 43.10(c)']);
    expect(() => composeEntry(draft, place)).toThrow(/43\.10\(c\)/);
  });
  test('(b) what was to go back is back, at the same time in service', () => {
    const off = { ...disk, disposition: { method: 'goes_back', words: '' } } as const;
    expect(paragraphs(withParts([], [off]))).toEqual(['14 CFR 43.10(b)']);
    expect(paragraphs(withParts([], [{ ...off, back: true }]))).toEqual([]);
  });
  test.each<[string, Partial<EntryPart>, string[]]>([
    ['a life status', { sinceNew: undefined }, ['14 CFR 91.417(a)(2)(ii)']],
    ['a serial number', { serial: undefined }, ['14 CFR 91.417(a)(2)(ii)']],
    ['a life left (from memory)', { sinceNew: parseHours('220') }, ['14 CFR 91.403(c)']],
    [
      'a time since overhaul',
      { lifeLimited: false, life: undefined, overhauled: true, sinceNew: undefined },
      ['14 CFR 91.417(a)(2)(iii)'],
    ],
    ['nothing else', { disposition: undefined }, []],
  ])('what goes on wants %s', (_, over, wanted) => {
    expect(paragraphs(withParts([{ ...disk, ...over }], []))).toEqual(wanted);
  });
  test('a part without a life is named, and wants no more', () => {
    const plain = { title: 'Gasket', partNumber: 'G-1', lifeLimited: false, overhauled: false };
    const draft = withParts(
      [{ ...plain, quantity: '2 each', trace: 'release certificate T-9' }],
      [plain],
    );
    expect(paragraphs(draft)).toEqual([]);
    expect(composeEntry(draft, place).lines).toEqual(
      expect.arrayContaining([
        'Part on: 2 each Gasket, part G-1; release certificate T-9.',
        'Part off: Gasket, part G-1.',
      ]),
    );
  });
});
