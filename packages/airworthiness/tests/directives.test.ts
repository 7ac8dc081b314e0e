import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applicabilityOf, readSerials, serialLies } from '../src/index.ts';

/** The forms in which applicability is written are common practice, no source; that a directive's own text decides: 14 CFR 39.11. */
describe('serial numbers as a directive lists them', () => {
  it.each([
    ['1042', '1000 to 1100', 'within'],
    ['1000', '1000–1100', 'within'],
    ['1100', '1000 through 1100', 'within'],
    ['1101', '1000 - 1100', 'outside'],
    ['0999', '1000..1100', 'outside'],
    ['1204', '1000 to 1100, 1204; 1300 and up', 'within'],
    ['1299', '1000 to 1100, 1204; 1300 and up', 'outside'],
    ['99999', '1000 to 1100, 1204; 1300 and subsequent', 'within'],
    ['0042', '42', 'within'],
    ['R-0042', 'r-40 to R-44', 'within'],
    ['28-7625001', '"28-7625001"', 'within'],
    ['28-7625001', '28-7625000 to 28-7625010', 'within'],
    // Of another form: whether it is meant cannot be told by counting.
    ['R-1042', '1000 to 1100', 'unclear'],
    ['1042A', '1000 to 1100', 'unclear'],
    ['1042A', '1042A', 'within'],
    ['PROTOTYPE', 'prototype', 'within'],
    ['', '1000 to 1100', 'unclear'],
    ['', '', 'within'],
    ['7', '', 'within'],
  ])('serial %j in %j: %s', (serial, listed, lies) => {
    expect(serialLies(serial, readSerials(listed)).lies).toBe(lies);
  });

  it.each([
    ['1100 to 1000', /runs backwards/],
    ['A-1 to B-9', /begin differently/],
    ['1000-1100', /one serial number or a range/],
    ['PROTOTYPE to 9', /end in digits/],
    ['1042A and up', /end in digits/],
    [Array.from({ length: 501 }, (_, n) => n).join(','), /at most 500/],
  ])('%.30j is refused', (listed, why) => {
    expect(() => readSerials(listed)).toThrow(why);
  });

  it('a range holds what lies between its ends and nothing else', () => {
    const serial = fc.integer({ min: 0, max: 1e6 });
    fc.assert(
      fc.property(serial, serial, serial, (one, other, own) => {
        const [from, to] = [Math.min(one, other), Math.max(one, other)];
        const { lies } = serialLies(`S${own}`, readSerials(`S${from} to S${to}`));
        return (lies === 'within') === (own >= from && own <= to) && lies !== 'unclear';
      }),
    );
  });
});

const model = { id: 'm1', name: 'T-2' };
const engine = { id: 'e', title: 'Engine', partNumber: 'E-4', serial: '881' };
const craft = { registration: 'QQ-1', serial: '1042', model, parts: [engine] };
const reach = (over: object) => ({ model: null, partNumber: '', serials: [], ...over });

describe('whom it reaches', () => {
  it('an aircraft by model and serial number, and says why', () => {
    expect(
      applicabilityOf([reach({ model, serials: readSerials('1000 to 1100') })], craft),
    ).toEqual([
      {
        partId: null,
        found: 'applies',
        because: 'Applies: the T-2, serial 1042 lies within 1000 to 1100',
      },
    ]);
    const other = { id: 'm2', name: 'T-4' };
    expect(applicabilityOf([reach({ model: other })], craft)[0]).toMatchObject({
      found: 'does_not',
      because: 'Does not apply: it is for the T-4, and QQ-1 is a T-2',
    });
  });
  it('a part by what is fitted; where it is not fitted, it says that it goes by what is entered here', () => {
    const of = reach({ partNumber: 'e-4', serials: readSerials('800 to 880') });
    expect(applicabilityOf([of], craft)).toEqual([
      {
        partId: 'e',
        found: 'does_not',
        because: 'Does not apply: Engine, part E-4, serial 881 lies outside of 800 to 880',
      },
    ]);
    expect(applicabilityOf([of], { ...craft, parts: [] })[0]).toMatchObject({
      partId: null,
      found: 'does_not',
      because: expect.stringMatching(/no part e-4 is entered here as fitted to QQ-1/),
    });
  });
  it('any line that reaches is enough, and what is unclear is never passed over', () => {
    const lines = [
      reach({ model, serials: readSerials('1 to 9') }),
      reach({ model, serials: readSerials('X1042') }),
    ];
    expect(applicabilityOf(lines, craft)[0]?.found).toBe('unclear');
    expect(applicabilityOf([...lines, reach({ model })], craft)[0]?.found).toBe('applies');
  });
  it('aircraft and each part apart', () => {
    const second = { ...engine, id: 'f', serial: '882' };
    const answers = applicabilityOf(
      [reach({ model }), reach({ partNumber: 'E-4', serials: readSerials('882') })],
      { ...craft, parts: [engine, second] },
    );
    expect(answers.map(({ partId, found }) => [partId, found])).toEqual([
      [null, 'applies'],
      ['e', 'does_not'],
      ['f', 'applies'],
    ]);
  });
  it('one that reaches nothing is a caller’s mistake', () => {
    expect(() => applicabilityOf([], craft)).toThrow(RangeError);
  });
});
