import { type ClockFact, corrected, secondsOf, stretchesOf } from '@fairlead/api/work/stretches';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const minute = (n: number) => new Date(Date.UTC(2031, 4, 4, 8, n));
let made = 0;
const event = (
  kind: ClockFact['kind'],
  itemId: string | null,
  at: number,
): ClockFact & { id: string } => {
  made += 1;
  const clientEventId = String(made).padStart(4, '0');
  return { id: `e${clientEventId}`, clientEventId, kind, itemId, at: minute(at) };
};
const read = (events: readonly ClockFact[]) =>
  stretchesOf(events).map(({ itemId, startedAt, endedAt }) => [
    itemId,
    startedAt.getUTCMinutes(),
    endedAt?.getUTCMinutes() ?? null,
  ]);

describe('stretches follow from clock events', () => {
  it('nothing happened: no stretch', () => expect(stretchesOf([])).toEqual([]));

  it('start and stop, and what runs still has no end', () => {
    expect(read([event('start', 'a', 0), event('stop', 'a', 10), event('start', 'b', 20)])).toEqual(
      [
        ['a', 0, 10],
        ['b', 20, null],
      ],
    );
  });

  it('a start while another item runs is a switch, and a switch with nothing running is a start', () => {
    expect(
      read([event('start', 'a', 0), event('start', 'b', 10), event('stop', null, 15)]),
    ).toEqual([
      ['a', 0, 10],
      ['b', 10, 15],
    ]);
    expect(read([event('switch', 'a', 0), event('stop', 'a', 5)])).toEqual([['a', 0, 5]]);
  });

  it('a start of what runs already does not break the stretch', () => {
    expect(read([event('start', 'a', 0), event('start', 'a', 5), event('stop', 'a', 10)])).toEqual([
      ['a', 0, 10],
    ]);
  });

  it('a stop without a start says nothing', () => {
    expect(
      read([
        event('stop', 'a', 0),
        event('start', 'a', 5),
        event('stop', 'a', 6),
        event('stop', 'a', 7),
      ]),
    ).toEqual([['a', 5, 6]]);
  });

  it('a stop ends whatever runs, whichever item it names: the start that it belongs to may have been lost', () => {
    expect(read([event('start', 'a', 0), event('stop', 'b', 10)])).toEqual([['a', 0, 10]]);
  });

  it('what lasted no time is no stretch', () => {
    expect(read([event('start', 'a', 5), event('stop', 'a', 5)])).toEqual([]);
    expect(read([event('stop', 'a', 5), event('start', 'a', 5)])).toEqual([]);
  });

  it('stop and start at one instant is a switch, in either order of arrival', () => {
    expect(read([event('start', 'a', 0), event('stop', 'a', 5), event('start', 'b', 5)])).toEqual([
      ['a', 0, 5],
      ['b', 5, null],
    ]);
    expect(read([event('start', 'b', 5), event('stop', 'a', 5), event('start', 'a', 0)])).toEqual([
      ['a', 0, 5],
      ['b', 5, null],
    ]);
    expect(read([event('start', 'a', 0), event('stop', 'a', 5), event('start', 'a', 5)])).toEqual([
      ['a', 0, 5],
      ['a', 5, null],
    ]);
  });

  it('of two starts at one instant the one with the later id runs', () => {
    expect(read([event('start', 'a', 5), event('start', 'b', 5), event('stop', null, 9)])).toEqual([
      ['b', 5, 9],
    ]);
  });

  it('goes on from what ran before', () => {
    const running = { itemId: 'a', supervisedById: null, startedAt: minute(0) };
    expect(stretchesOf([event('stop', 'a', 10)], running)).toEqual([
      { ...running, endedAt: minute(10) },
    ]);
    expect(stretchesOf([], running)).toEqual([{ ...running, endedAt: null }]);
  });

  it('somebody else who supervises begins a stretch of their own; the same one, or a stop, does not', () => {
    const under = (who: string | null, at: number) => ({
      ...event('start', 'a', at),
      supervisedById: who,
    });
    const stretches = stretchesOf([
      under('h', 0),
      under('h', 5),
      under('r', 10),
      under(null, 20),
      event('stop', 'a', 30),
    ]);
    expect(stretches.map(({ supervisedById, startedAt }) => [supervisedById, startedAt])).toEqual([
      ['h', minute(0)],
      ['r', minute(10)],
      [null, minute(20)],
    ]);
  });

  it('the last correction of an event counts, and the event given is left alone', () => {
    const start = Object.freeze(event('start', 'a', 0));
    const times = [
      { correctsId: start.id, at: minute(3) },
      { correctsId: start.id, at: minute(4) },
    ];
    expect(corrected([start], times)[0]?.at).toEqual(minute(4));
    expect(start.at).toEqual(minute(0));
  });

  it('seconds are whole, count up to now while it runs, and never below zero', () => {
    expect(
      secondsOf({ startedAt: minute(0), endedAt: new Date(minute(0).getTime() + 1999) }, minute(9)),
    ).toBe(1);
    expect(secondsOf({ startedAt: minute(0), endedAt: null }, minute(2))).toBe(120);
    expect(secondsOf({ startedAt: minute(5), endedAt: null }, minute(2))).toBe(0);
  });
});

const anyEvents = fc
  .array(
    fc.record({
      clientEventId: fc.uuid(),
      kind: fc.constantFrom('start' as const, 'switch' as const, 'stop' as const),
      itemId: fc.constantFrom('a', 'b', 'c'),
      minutes: fc.integer({ min: 0, max: 30 }),
      named: fc.boolean(),
    }),
    { maxLength: 25 },
  )
  .map((list) =>
    [...new Map(list.map((one) => [one.clientEventId, one])).values()].map(
      ({ minutes, named, itemId, ...rest }) => ({
        ...rest,
        id: rest.clientEventId,
        itemId: rest.kind === 'stop' && !named ? null : itemId,
        at: minute(minutes),
      }),
    ),
  );
const runs = { numRuns: 600 };

describe('whatever the clock did', () => {
  it('the order of arrival changes nothing', () => {
    fc.assert(
      fc.property(
        anyEvents.chain((events) =>
          fc.tuple(fc.constant(events), fc.shuffledSubarray(events, { minLength: events.length })),
        ),
        ([events, shuffled]) => {
          expect(stretchesOf(shuffled)).toEqual(stretchesOf(events));
        },
      ),
      runs,
    );
  });

  it('stretches never overlap, never end before they start, and only the last one runs', () => {
    fc.assert(
      fc.property(anyEvents, (events) => {
        const stretches = stretchesOf(events);
        for (const [index, { startedAt, endedAt }] of stretches.entries()) {
          const next = stretches[index + 1];
          if (endedAt) expect(endedAt > startedAt).toBe(true);
          if (next) expect(endedAt !== null && endedAt <= next.startedAt).toBe(true);
        }
      }),
      runs,
    );
  });

  it('a correction is as if it had been recorded right', () => {
    fc.assert(
      fc.property(
        anyEvents,
        fc.nat(),
        fc.integer({ min: 0, max: 30 }),
        (events, which, minutes) => {
          const wrong = events[which % Math.max(events.length, 1)];
          if (!wrong) return;
          const right = events.map((one) =>
            one === wrong ? { ...one, at: minute(minutes) } : one,
          );
          expect(
            stretchesOf(corrected(events, [{ correctsId: wrong.id, at: minute(minutes) }])),
          ).toEqual(stretchesOf(right));
        },
      ),
      runs,
    );
  });

  it('the time of all stretches is the time in which something ran', () => {
    fc.assert(
      fc.property(anyEvents, (events) => {
        // Counted another way: minute by minute, from the last event at or before it.
        const sorted = stretchesOf(events);
        const end = minute(40);
        const sum = sorted.reduce((total, stretch) => total + secondsOf(stretch, end), 0);
        let running = 0;
        for (let n = 0; n < 40; n += 1) {
          const until = stretchesOf(events.filter(({ at }) => at <= minute(n)));
          if (until.at(-1)?.endedAt === null) running += 60;
        }
        expect(sum).toBe(running);
      }),
      runs,
    );
  });

  it('built anew from any instant on, it comes out the same', () => {
    fc.assert(
      fc.property(anyEvents, fc.integer({ min: 0, max: 31 }), (events, minutes) => {
        const from = minute(minutes);
        const whole = stretchesOf(events);
        const across =
          whole.find(
            ({ startedAt, endedAt }) => startedAt < from && (endedAt === null || endedAt >= from),
          ) ?? null;
        const before = whole.filter((stretch) => stretch.startedAt < (across?.startedAt ?? from));
        expect([
          ...before,
          ...stretchesOf(
            events.filter(({ at }) => at >= from),
            across,
          ),
        ]).toEqual(whole);
      }),
      runs,
    );
  });
});
