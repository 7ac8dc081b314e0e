import { expect, test } from 'vitest';
import {
  type Carried,
  nextTarget,
  type Target,
  targetAt,
  targetKey,
} from '../features/hangar/carry.ts';
import { CarryStore } from '../features/hangar/carry-store.ts';
import type { Floor, Stay } from '../features/hangar/floor-documents.ts';
import { standingAt } from '../features/hangar/standing.ts';
import { emptyWish, wishOf } from '../features/hangar/start-wish.ts';
import { verdictsOn } from '../features/hangar/verdict.ts';

const aircraft = (registration: string, parkedLengthMm: number, parkedWidthMm: number) => ({
  id: registration,
  registration,
  floorVersion: `version of ${registration}`,
  model: {
    maker: 'A maker',
    name: 'A model',
    kind: 'helicopter_four_seat' as const,
    lengthMm: 9000,
    spanMm: 10_000,
    heightMm: 3000,
    parkedLengthMm,
    parkedWidthMm,
  },
});
const stay = (
  id: string,
  stand: string,
  of: Stay['aircraft'],
  changes: Partial<Stay> = {},
): Stay => ({
  id,
  kind: 'actual',
  startsAt: '2026-11-24T08:00:00.000Z',
  endsAt: null,
  stand: { id: stand, name: `Stand ${stand}` },
  aircraft: of,
  order: null,
  ...changes,
});
const large = aircraft('QQ-117', 10_900, 2300);
const small = aircraft('QQ-200', 8000, 2000);
const here = stay('here', '1', large);
const there = stay('there', '3', small);
const plan = stay('plan', '1', small, {
  kind: 'planned',
  startsAt: '2026-11-28T08:00:00.000Z',
  endsAt: '2026-11-30T16:00:00.000Z',
});
/** Two stands at the back, one at the front right; the door is in the middle of the front. */
const floor: Floor = {
  __typename: 'Floor',
  asOf: '2026-11-25T12:00:00.000Z',
  clearanceMm: 1000,
  occupancyToday: 0,
  occupancyFortnight: 0,
  hangar: {
    id: 'h',
    name: 'Hangar 9',
    widthMm: 30_000,
    depthMm: 30_000,
    doorFromMm: 9000,
    doorWidthMm: 12_000,
  },
  stands: [
    {
      id: '1',
      name: 'Stand 1',
      xMm: 1000,
      yMm: 1000,
      widthMm: 5000,
      depthMm: 13_000,
      headingDeg: 180,
      stay: here,
    },
    {
      id: '2',
      name: 'Stand 2',
      xMm: 10_000,
      yMm: 1000,
      widthMm: 5000,
      depthMm: 12_000,
      headingDeg: 180,
      stay: null,
    },
    {
      id: '3',
      name: 'Stand 3',
      xMm: 20_000,
      yMm: 15_000,
      widthMm: 5000,
      depthMm: 13_000,
      headingDeg: 0,
      stay: there,
    },
    {
      id: '4',
      name: 'Stand 4',
      xMm: 1000,
      yMm: 15_000,
      widthMm: 5000,
      depthMm: 13_000,
      headingDeg: 0,
      stay: null,
    },
  ],
  coming: [{ at: plan.startsAt, kind: 'arrival', late: false, stay: plan }],
  conflicts: [],
};
const carried: Carried = { aircraft: large, stay: here };
const drawn = { floor, standing: standingAt(floor, null), timeZone: 'UTC' };
const on = (id: string): Target => {
  const stand = floor.stands.find((each) => each.id === id);
  if (stand === undefined) throw new Error(`no stand ${id}`);
  return { kind: 'stand', stand };
};

test('a point is on its stand, on the nearest within a metre and a half, out of the door, or nowhere', () => {
  const at = (x: number, y: number) => targetKey(targetAt(floor, { x, y }));
  expect(at(3, 5)).toBe('1');
  expect(at(1, 1)).toBe('1');
  expect(at(7.4, 5)).toBe('1');
  expect(at(8.6, 5)).toBe('2');
  expect(at(8, 5)).toBe('');
  expect(at(12, 20)).toBe('');
  expect(at(15, 30.3)).toBe('');
  expect(at(15, 30.5)).toBe('door');
  expect(at(-200, -200)).toBe('');
});

test('arrows go to the next stand that way, down to the door, and stay where there is none', () => {
  const key = (from: Target | null, arrow: Parameters<typeof nextTarget>[2]) =>
    targetKey(nextTarget(floor, from, arrow));
  expect(key(on('1'), 'ArrowRight')).toBe('2');
  expect(key(on('2'), 'ArrowLeft')).toBe('1');
  expect(key(on('1'), 'ArrowDown')).toBe('4');
  expect(key(on('4'), 'ArrowRight')).toBe('3');
  expect(key(on('3'), 'ArrowDown')).toBe('door');
  expect(key({ kind: 'door' }, 'ArrowUp')).toMatch(/[34]/);
  expect(key(on('1'), 'ArrowUp')).toBe('1');
  expect(key(null, 'ArrowRight')).toBe('1');
});

test('every stand can be reached from every other by arrows', () => {
  const arrows = ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown'] as const;
  for (const start of floor.stands) {
    const reached = new Set<string>();
    const open: (Target | null)[] = [on(start.id)];
    for (let next = open.pop(); next; next = open.pop()) {
      if (reached.has(targetKey(next))) continue;
      reached.add(targetKey(next));
      for (const arrow of arrows) open.push(nextTarget(floor, next, arrow));
    }
    expect([...reached].sort()).toEqual(['1', '2', '3', '4', 'door']);
  }
});

test('verdicts say what would be: fits with what is left over, taken until when, too tight with the figures', () => {
  const verdicts = verdictsOn(carried, drawn);
  expect(verdicts.get('1')).toMatchObject({ kind: 'same' });
  // 12.0 m of stand less 10.9 + 2 × 1.0 m, by hand.
  expect(verdicts.get('2')).toMatchObject({
    kind: 'tight',
    sentence:
      "Cannot plan QQ-117 on stand 2: parked it is 10.9 m long and needs 12.9 m with the shop's clearance; the stand is 12.0 m.",
  });
  expect(verdicts.get('3')?.kind).toBe('taken');
  expect(verdicts.get('3')?.sentence).toMatch(/^QQ-200 is on stand 3, nobody has said until when/);
  // 13.0 − 12.9 and 5.0 − 4.3 m.
  expect(verdicts.get('4')).toMatchObject({
    kind: 'fits',
    sentence: 'QQ-117 fits stand 4: 0.1 m over in length and 0.7 m in width.',
  });
  expect(verdicts.get('door')?.sentence).toBe('QQ-117 out of the door: it leaves.');
  expect(verdictsOn({ aircraft: small, stay: plan }, drawn).get('door')?.sentence).toBe(
    'QQ-200 out of the door: it does not come.',
  );
});

test('a plan is judged by the day on which it comes, not by the day that is drawn', () => {
  const leaves = {
    at: '2026-11-27T16:00:00.000Z',
    kind: 'departure' as const,
    late: false,
    stay: there,
  };
  const planned = { aircraft: { ...small, id: 'other' }, stay: plan };
  const verdict = (coming: Floor['coming']) =>
    verdictsOn(planned, { ...drawn, floor: { ...floor, coming } }).get('3')?.kind;
  expect(verdict(floor.coming)).toBe('taken');
  expect(verdict([leaves, ...floor.coming])).toBe('fits');
});

test('an aircraft from outside that passes no door, or is larger than the hangar, fits nowhere', () => {
  const wide = { aircraft: aircraft('QQ-900', 12_000, 12_100), stay: null };
  for (const { id } of floor.stands)
    expect(verdictsOn(wide, drawn).get(id)?.sentence).toBe(
      'Cannot bring QQ-900 into Hangar 9: parked it is 12.1 m wide; the door is 12.0 m wide.',
    );
  const huge = { aircraft: aircraft('QQ-901', 40_000, 42_000), stay: null };
  expect(verdictsOn(huge, drawn).get('1')?.sentence).toMatch(
    /parked it is 40\.0 m long and 42\.0 m wide; inside, the hangar is 30\.0 m by 30\.0 m\.$/,
  );
});

test('letting go asks where it can be, says why where it cannot, and is nothing where it was', () => {
  const store = new CarryStore();
  store.show(drawn);
  let heard = 0;
  store.subscribe(() => {
    heard += 1;
  });
  store.take(carried, 'pointer');
  store.hold({ x: 12, y: 5 });
  const before = heard;
  store.hold({ x: 12.5, y: 5.5 });
  expect(heard, 'a move over the same stand tells nobody').toBe(before);
  store.put();
  expect(store.state()).toMatchObject({ step: 'none', refused: true });
  store.take(carried, 'keys');
  store.put();
  expect(store.state()).toMatchObject({ step: 'none', said: 'QQ-117 is left as it was.' });
  store.take(carried, 'pointer');
  store.hold({ x: 3, y: 20 });
  store.put();
  expect(store.state()).toMatchObject({ step: 'put', target: { stand: { id: '4' } } });
  store.back();
  expect(store.state().step).toBe('none');
});

test('the form opens with what the hand did', () => {
  const desk = { floor, row: null, timeZone: 'UTC', plans: true };
  const put = (what: Carried, target: Target) => ({ step: 'put' as const, what, target });
  expect(wishOf(put(carried, on('4')), desk)).toMatchObject({
    aircraftId: 'QQ-117',
    to: '4',
    when: 'now',
    plan: null,
    seenVersion: 'version of QQ-117',
  });
  expect(wishOf(put(carried, on('3')), desk).when).toBe('planned');
  expect(wishOf(put(carried, { kind: 'door' }), desk)).toMatchObject({ to: 'off', when: 'now' });
  expect(wishOf(put({ aircraft: small, stay: plan }, on('4')), desk)).toMatchObject({
    when: 'planned',
    from: '2026-11-28T08:00',
    until: '2026-11-30T16:00',
    plan: { id: 'plan' },
  });
  // On the drawing of a day to come, it is planned for that day.
  expect(wishOf(put(carried, on('4')), { ...desk, row: 0 })).toMatchObject({
    when: 'planned',
    from: '2026-11-28T08:00',
    until: '2026-11-30T08:00',
  });
  expect(wishOf(put(carried, on('4')), { ...desk, plans: false }).when).toBe('now');
  expect(emptyWish('planned', desk)).toMatchObject({ from: '2026-11-26T08:00', when: 'planned' });
});
