import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { occupancy, overlaps, type Stay } from '../src/index.ts';

const HOUR = 3_600_000;
const start = Date.UTC(2026, 2, 14, 8);
const at = (hours: number) => new Date(start + hours * HOUR);
const stay = (
  id: string,
  registration: string,
  stand: string,
  from: number,
  to: number | null,
): Stay => ({
  id,
  registration,
  standId: `stand ${stand}`,
  standName: stand,
  from: at(from),
  to: to === null ? null : at(to),
});
const anyStays = fc
  .array(
    fc.record({
      aircraft: fc.integer({ min: 1, max: 4 }),
      stand: fc.integer({ min: 1, max: 3 }),
      from: fc.integer({ min: -10, max: 40 }),
      hours: fc.option(fc.integer({ min: 1, max: 20 })),
    }),
    { maxLength: 8 },
  )
  .map((stays) =>
    stays.map(({ aircraft, stand, from, hours }, index) =>
      stay(
        String(index),
        `QQ-${aircraft}`,
        String(stand),
        from,
        hours === null ? null : from + hours,
      ),
    ),
  );

describe('conflicts', () => {
  test('two aircraft on one stand: who, where and when', () => {
    const found = overlaps([stay('a', 'QQ-117', '2', 0, 30), stay('b', 'QQ-204', '2', 24, 48)]);
    expect(found).toEqual([
      {
        kind: 'one_stand_two_aircraft',
        stayIds: ['a', 'b'],
        from: at(24),
        to: at(30),
        sentence:
          'QQ-117 and QQ-204 are both planned on stand 2 from 15 Mar 2026, 08:00 to 15 Mar 2026, 14:00',
      },
    ]);
  });

  test('times are those of the hangar', () => {
    const stays = [stay('a', 'QQ-117', '2', 0, null), stay('b', 'QQ-204', '2', 24, null)];
    expect(overlaps(stays, { timeZone: 'America/Halifax' })[0]?.sentence).toBe(
      'QQ-117 and QQ-204 are both planned on stand 2 from 15 Mar 2026, 05:00 on',
    );
  });

  test('one aircraft in two places', () => {
    const found = overlaps([stay('a', 'QQ-117', '2', 0, 30), stay('b', 'QQ-117', '3', 24, 48)]);
    expect(found[0]).toMatchObject({ kind: 'one_aircraft_two_stays', stayIds: ['a', 'b'] });
    expect(found[0]?.sentence).toContain('planned on stand 2 and again on stand 3');
  });

  test('one following another at the same minute is no conflict', () => {
    expect(overlaps([stay('a', 'QQ-117', '2', 0, 24), stay('b', 'QQ-204', '2', 24, 48)])).toEqual(
      [],
    );
  });

  test('found are exactly the pairs that share time and stand, or time and aircraft', () => {
    fc.assert(
      fc.property(anyStays, (stays) => {
        const found = overlaps(Object.freeze(stays));
        const pairs = new Set(found.map(({ stayIds }) => [...stayIds].sort().join()));
        expect(pairs.size).toBe(found.length);
        for (const a of stays) {
          for (const b of stays.filter(({ id }) => id > a.id)) {
            const clash = a.registration === b.registration || a.standId === b.standId;
            const endsAfter = (one: Stay, other: Stay) => one.to === null || one.to > other.from;
            const expected = clash && endsAfter(a, b) && endsAfter(b, a);
            expect(pairs.has([a.id, b.id].join())).toBe(expected);
          }
        }
      }),
      { numRuns: 1000 },
    );
  });

  test('a stay that ends before it begins is refused', () => {
    expect(() => overlaps([stay('a', 'QQ-117', '2', 5, 5)])).toThrow('end after the beginning');
  });
});

describe('occupancy', () => {
  const stands = [{ id: 'stand 1' }, { id: 'stand 2' }];

  test('stand-hours taken over stand-hours there', () => {
    const stays = [stay('a', 'QQ-1', '1', -5, 6), stay('b', 'QQ-2', '2', 9, null)];
    expect(occupancy(stays, stands, at(0), at(12))).toEqual({
      takenHours: 9,
      thereHours: 24,
      share: 0.375,
    });
  });

  test('two at once on one stand take it once; other stands do not count', () => {
    const stays = [
      stay('a', 'QQ-1', '1', 0, 6),
      stay('b', 'QQ-2', '1', 3, 8),
      stay('c', 'QQ-3', '9', 0, 12),
    ];
    expect(occupancy(stays, stands, at(0), at(12)).takenHours).toBe(8);
  });

  test('it agrees with counting hour by hour, and parts of the time add to the whole', () => {
    const all = [1, 2, 3].map((number) => ({ id: `stand ${number}` }));
    fc.assert(
      fc.property(anyStays, fc.integer({ min: 1, max: 23 }), (stays, middle) => {
        const whole = occupancy(stays, all, at(0), at(24));
        let counted = 0;
        for (const { id } of all) {
          for (let hour = 0; hour < 24; hour += 1) {
            const here = ({ standId, from, to }: Stay) =>
              standId === id && from <= at(hour) && (to === null || to >= at(hour + 1));
            counted += stays.some(here) ? 1 : 0;
          }
        }
        expect(whole.takenHours).toBe(counted);
        const before = occupancy(stays, all, at(0), at(middle));
        const after = occupancy(stays, all, at(middle), at(24));
        expect(before.takenHours + after.takenHours).toBe(whole.takenHours);
        expect(whole.share >= 0 && whole.share <= 1).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });

  test('no stands, and a time that runs backwards', () => {
    expect(occupancy([], [], at(0), at(1)).share).toBe(0);
    expect(() => occupancy([], stands, at(1), at(1))).toThrow('end after the beginning');
  });
});
