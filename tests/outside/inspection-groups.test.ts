import {
  type InspectedAircraft,
  inspectionItems,
  missingFromInspection,
  starterPackage,
  starterPackages,
} from '@fairlead/airworthiness';
import { describe, expect, it } from 'vitest';

/**
 * The lines of 14 CFR part 43, appendix D, by paragraph, and those that 43.15(b) and (c)(2) add for rotorcraft and for the
 * run-up of a reciprocating engine. From a list of them made in November 2026, not from the register itself. A figure is
 * how many numbered lines the paragraph has; 0: none, it is one line by itself.
 */
const rule = { a: 0, b: 3, c: 7, d: 11, e: 10, f: 0, g: 0, h: 4, i: 4, j: 0 };
const lines = [
  ...Object.entries(rule).flatMap(([letter, count]) =>
    count === 0
      ? [`appendix D(${letter})`]
      : Array.from({ length: count }, (_, n) => `appendix D(${letter})(${n + 1})`),
  ),
  ...[1, 2, 3, 4].map((n) => `43.15(b)(${n})`),
  ...['i', 'ii', 'iii', 'iv'].map((n) => `43.15(c)(2)(${n})`),
];

/** FAA JASC chapters (2008) under which each group's work is filed. */
const chapters: Record<string, RegExp> = {
  preparation: /^53/,
  fuselage: /^53/,
  cabin: /^(24|25|27|31|56)/,
  engine: /^(71|73|76|78|85)/,
  gear: /^32/,
  wing: /^57/,
  empennage: /^55/,
  propeller: /^61/,
  radio: /^23/,
  miscellaneous: /^25/,
  rotor: /^6[2-5]/,
  run_up: /^(71|74|77|79)/,
};

describe('the starter packages against 14 CFR part 43 appendix D and 43.15', () => {
  it('the rule has 43 lines in its appendix, 4 for rotorcraft and 4 for the run-up', () => {
    expect(lines).toHaveLength(43 + 4 + 4);
  });

  it.each(starterPackages().map((pack) => [pack.title, pack] as const))(
    '%s asks for each line of the rule once, or says why not',
    (_, { items, leftOut }) => {
      const said = [...items, ...leftOut].map(({ paragraph }) => paragraph);
      expect(said.toSorted()).toEqual(lines.toSorted());
      for (const { because } of leftOut) expect(because).toMatch(/\.$/);
    },
  );

  it('a helicopter is left without wing, propeller and retraction, an airplane without rotors; nothing else is left out', () => {
    const left = (on: InspectedAircraft) =>
      starterPackage('annual', on).leftOut.map(({ paragraph }) => paragraph);
    expect(left('helicopter')).toEqual([
      'appendix D(b)(3)',
      'appendix D(e)(4)',
      'appendix D(f)',
      ...[1, 2, 3, 4].map((n) => `appendix D(h)(${n})`),
    ]);
    expect(left('airplane')).toEqual([
      'appendix D(b)(3)',
      ...[1, 2, 3, 4].map((n) => `43.15(b)(${n})`),
    ]);
  });

  it('panels come first and the run-up last; every item has a list, a key of its own and a code of its chapter', () => {
    for (const { items } of starterPackages()) {
      expect(items[0]?.group).toBe('preparation');
      expect(items.slice(-4).map(({ group }) => group)).toEqual(Array(4).fill('run_up'));
    }
    expect(new Set(inspectionItems.map(({ key }) => key)).size).toBe(inspectionItems.length);
    for (const { jasc, group, checklist } of inspectionItems) {
      expect(jasc).toMatch(chapters[group]!);
      expect(checklist.length).toBeGreaterThan(0);
    }
  });

  it('what is taken out of a package is missed by its line', () => {
    const { items } = starterPackage('hundred_hour', 'helicopter');
    const answered = items.map(({ paragraph }) => paragraph);
    expect(missingFromInspection(answered, 'helicopter')).toEqual([]);
    expect(missingFromInspection(answered, 'airplane').map(({ paragraph }) => paragraph)).toEqual([
      'appendix D(e)(4)',
      'appendix D(f)',
      ...[1, 2, 3, 4].map((n) => `appendix D(h)(${n})`),
    ]);
    for (const paragraph of answered)
      expect(
        missingFromInspection(
          answered.filter((each) => each !== paragraph),
          'helicopter',
        ).map((item) => item.paragraph),
      ).toEqual([paragraph]);
  });
});
