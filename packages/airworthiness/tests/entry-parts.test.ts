import { describe, expect, it } from 'vitest';
import { type EntryPart, hundredths, missingFromParts, partLines } from '../src/index.ts';

/** A disk with a life in cycles besides hours: 14 CFR 43.10(a) counts both as its life status. Figures invented. */
const disk: EntryPart = {
  ...{ title: 'Disk', partNumber: 'D-1', serial: '4', lifeLimited: true, overhauled: false },
  ...{ life: hundredths(2_000_00), sinceNew: hundredths(812_50) },
  counted: [{ counter: 'cycles', life: 3000, sinceNew: 1207 }],
};
const tagged = { method: 'tag', words: '' } as const;
const whats = (parts: Parameters<typeof missingFromParts>[0]) =>
  missingFromParts(parts).map(({ paragraph, what }) => `${paragraph}: ${what}`);

describe('a life in cycles, landings or starts', () => {
  it('stands in the entry beside the hours', () => {
    expect(partLines({ on: [disk], off: [] })).toEqual([
      'Part on: Disk, part D-1, serial 4; 812.50 h since new; life 2000.00 h, 1187.50 h left; 1207 cycles since new, life 3000, 1793 left.',
    ]);
  });
  it('is asked for where nobody can tell the count', () => {
    const unknown = {
      ...disk,
      counted: [{ counter: 'landings', life: 900, sinceNew: undefined }],
    } as const;
    expect(partLines({ on: [unknown], off: [] })[0]).toContain('; life 900 landings.');
    expect(whats({ on: [unknown], off: [{ ...unknown, disposition: tagged }] })).toEqual([
      '14 CFR 43.10(c): the landings of Disk, part D-1, serial 4 when it came off',
      '14 CFR 91.417(a)(2)(ii): the landings of Disk, part D-1, serial 4 when it was fitted',
    ]);
  });
  it('is over at its last cycle, not before', () => {
    const at = (sinceNew: number): EntryPart => ({
      ...disk,
      counted: [{ counter: 'cycles', life: 3000, sinceNew }],
    });
    expect(whats({ on: [at(2999)], off: [] })).toEqual([]);
    expect(whats({ on: [at(3000)], off: [] })).toEqual([
      '14 CFR 91.403(c): a life left to Disk, part D-1, serial 4: it had 3000 of 3000 cycles when it was fitted',
    ]);
    expect(whats({ on: [], off: [{ ...at(3000), disposition: tagged }] })).toEqual([]);
  });
});
