import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PartFitting, parseHours, partTimeAt, partTimeNow } from '../src/index.ts';

const on = (aircraftId: string, from: string, until: string | null): PartFitting => ({
  ...{ aircraftId, fittedAt: parseHours(from) },
  ...{ removedAt: until === null ? null : parseHours(until), removed: until !== null },
});

/** 14 CFR 91.417(a)(2)(ii), 43.10(c): the life of a part goes with it from aircraft to aircraft. Figures worked by hand. */
describe('a part has a time of its own', () => {
  const moved = {
    recorded: parseHours('150'),
    fittings: [on('a', '1240', '1300'), on('b', '500', null)],
  };
  it('150 h, 60 h on one aircraft and 12.5 h on another are 222.5 h', () => {
    expect(partTimeNow(moved, parseHours('512.5'))).toEqual({
      known: true,
      time: parseHours('222.5'),
    });
  });
  it('on the shelf it does not run, whatever the aircraft does', () => {
    const off = { ...moved, fittings: [on('a', '1240', '1300')] };
    expect(partTimeNow(off, null)).toEqual({ known: true, time: parseHours('210') });
    expect(partTimeNow({ recorded: parseHours('7'), fittings: [] }, null)).toMatchObject({
      time: parseHours('7'),
    });
  });
  it('what it had when either aircraft stood somewhere', () => {
    expect(partTimeAt(moved, 'a', parseHours('1250'))).toBe(parseHours('160'));
    expect(partTimeAt(moved, 'b', parseHours('510'))).toBe(parseHours('220'));
    expect(partTimeAt(moved, 'c', parseHours('510'))).toBeNull();
    // Before it was fitted: what it would have had, down to nothing.
    expect(partTimeAt(moved, 'a', parseHours('1090'))).toBe(parseHours('0'));
    expect(partTimeAt(moved, 'a', parseHours('1089'))).toBeNull();
  });
  it('twice on one aircraft, each stay counts for its own hours', () => {
    const back = {
      recorded: parseHours('0'),
      fittings: [on('a', '100', '150'), on('b', '10', '30'), on('a', '200', null)],
    };
    expect(partTimeAt(back, 'a', parseHours('120'))).toBe(parseHours('20'));
    expect(partTimeAt(back, 'a', parseHours('205'))).toBe(parseHours('75'));
  });
  it('says what is missing instead of guessing', () => {
    const untold = { ...moved, fittings: [{ ...on('a', '1240', '1300'), removedAt: null }] };
    expect(partTimeNow(untold, null)).toMatchObject({
      known: false,
      sentence: expect.stringMatching(/came off an aircraft/),
    });
    expect(partTimeNow(moved, null)).toMatchObject({ sentence: expect.stringMatching(/no meter/) });
    expect(partTimeNow(moved, parseHours('499'))).toMatchObject({
      sentence: expect.stringMatching(
        /fitted at 500\.00 h of the aircraft, which stands at 499\.00/,
      ),
    });
  });
  it('now is the same as at the time at which its aircraft stands, and never less than before', () => {
    const step = fc.integer({ min: 0, max: 500_000 });
    fc.assert(
      fc.property(step, step, step, step, (recorded, from, ran, more) => {
        const history = {
          recorded: recorded as ReturnType<typeof parseHours>,
          fittings: [
            on('a', '10', '20'),
            { ...on('b', '0', null), fittedAt: from as ReturnType<typeof parseHours> },
          ],
        };
        const at = (from + ran) as ReturnType<typeof parseHours>;
        const now = partTimeNow(history, at);
        return (
          now.known &&
          now.time === partTimeAt(history, 'b', at) &&
          (partTimeAt(history, 'b', (at + more) as typeof at) ?? -1) === now.time + more
        );
      }),
    );
  });
});
