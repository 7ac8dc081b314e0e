import { expect, test } from 'vitest';
import type { Change, Floor, Stay } from '../features/hangar/floor-documents.ts';
import { hatchOf, noteOf, waitsFor } from '../features/hangar/floor-words.ts';
import { type Parked, placeNotes, spread } from '../features/hangar/leaders.ts';
import { conflictsAt, momentOf, plannedEnd, standingAt } from '../features/hangar/standing.ts';
import { dayOf, dayOfStay, instantOf, wallOf } from '../lib/shop-time.ts';

type Order = NonNullable<Stay['order']>;
type Item = Order['items'][number];

const now = '2026-11-25T13:35:00.000Z';
const item = (state: Item['state'], waitingFor: Item['waitingFor'] = null): Item => ({
  state,
  waitingFor,
  runningBy: [],
});
const order = (changes: Partial<Order> = {}): Order => ({
  id: 'order',
  number: 559,
  title: '100-hour inspection',
  state: 'here',
  agreed: '190000',
  costSoFar: '124000',
  beyondAuthority: '0',
  appointedLook: null,
  costAtCompletion: { p50: '171000', p90: '188000' },
  margin: null,
  promisedAtArrival: null,
  items: [item('in_work')],
  findings: [],
  ...changes,
});
const stay = (id: string, standId: string, changes: Partial<Stay> = {}): Stay => ({
  id,
  kind: 'actual',
  startsAt: '2026-11-24T08:10:00.000Z',
  endsAt: null,
  stand: { id: standId, name: standId },
  aircraft: {
    id: `aircraft-${id}`,
    registration: 'QQ-117',
    floorVersion: 'v',
    model: {
      maker: 'A maker',
      name: 'A model',
      kind: 'helicopter_two_seat',
      lengthMm: 6450,
      spanMm: 7600,
      heightMm: 2690,
      parkedLengthMm: 8720,
      parkedWidthMm: 1950,
    },
  },
  order: null,
  ...changes,
});
const change = (kind: Change['kind'], at: string, of: Stay, late = false): Change => ({
  kind,
  at,
  late,
  stay: of,
});
const floor = (stays: readonly Stay[], coming: Change[], conflicts: Floor['conflicts'] = []) =>
  ({
    __typename: 'Floor',
    asOf: now,
    clearanceMm: 1000,
    occupancyToday: 0,
    occupancyFortnight: 0,
    hangar: {
      id: 'h',
      name: 'Hangar',
      widthMm: 30000,
      depthMm: 20000,
      doorFromMm: 0,
      doorWidthMm: 9000,
    },
    stands: stays.map((each) => ({
      id: each.stand.id,
      name: each.stand.name,
      xMm: 0,
      yMm: 0,
      widthMm: 4000,
      depthMm: 11000,
      headingDeg: 180,
      stay: each,
    })),
    coming,
    conflicts,
  }) satisfies Floor;
const drawn = (plan: Floor, row: number | null) =>
  standingAt(plan, row).map((each) => `${each.stay.id} ${each.part}`);

test('the floor is drawn as it will be after each row, with what changes marked', () => {
  const here = stay('here', '1');
  const comes = stay('comes', '2', { kind: 'planned', startsAt: '2026-12-01T08:00:00.000Z' });
  const plan = floor(
    [here],
    [
      change('arrival', '2026-12-01T08:00:00.000Z', comes),
      change('departure', '2026-12-03T16:00:00.000Z', here),
      change('departure', '2026-12-05T16:00:00.000Z', comes),
    ],
  );
  expect(drawn(plan, null)).toEqual(['here there']);
  expect(drawn(plan, 0)).toEqual(['here there', 'comes coming']);
  expect(drawn(plan, 1)).toEqual(['here leaving', 'comes there']);
  expect(drawn(plan, 2)).toEqual(['comes leaving']);
  expect(momentOf(plan, null)).toBe(now);
  expect(momentOf(plan, 2)).toBe('2026-12-05T16:00:00.000Z');
});

test('a move leaves its old stand, once, and one that is late to leave still stands later on', () => {
  const late = stay('late', '1');
  const first = stay('first', '2');
  const second = stay('second', '3', { kind: 'planned', aircraft: first.aircraft });
  const plan = floor(
    [late, first],
    [
      change('departure', '2026-11-24T16:00:00.000Z', late, true),
      change('move', '2026-11-27T08:00:00.000Z', second),
    ],
  );
  expect(drawn(plan, 0)).toEqual(['late leaving', 'first there']);
  expect(momentOf(plan, 0)).toBe(now);
  expect(drawn(plan, 1)).toEqual(['late there', 'first leaving', 'second coming']);
  expect(plannedEnd(plan, late)).toBe('2026-11-24T16:00:00.000Z');
});

test('a conflict counts from its first moment up to its end, and for ever where it has none', () => {
  const conflict = (to: string | null) => ({
    kind: 'one_stand_two_aircraft' as const,
    sentence: 'Both on stand 4',
    from: '2026-12-03T08:00:00.000Z',
    to,
    stayIds: [],
  });
  const at = (moment: string, to: string | null) => conflictsAt([conflict(to)], moment).length;
  expect(at('2026-12-03T07:59:00.000Z', '2026-12-05T16:00:00.000Z')).toBe(0);
  expect(at('2026-12-03T08:00:00.000Z', '2026-12-05T16:00:00.000Z')).toBe(1);
  expect(at('2026-12-05T16:00:00.000Z', '2026-12-05T16:00:00.000Z')).toBe(0);
  expect(at('2027-12-05T16:00:00.000Z', null)).toBe(1);
});

test('what an order waits for is said by whom it waits for', () => {
  expect(waitsFor(order())).toEqual([]);
  expect(waitsFor(order({ findings: [{ state: 'offered' }] }))).toEqual(['owner: 1 finding']);
  expect(
    waitsFor(
      order({
        findings: [{ state: 'assessed' }, { state: 'noted' }, { state: 'noted' }],
        items: [item('waiting', 'parts'), item('waiting', 'owner'), item('done')],
      }),
    ),
  ).toEqual([
    'owner: 1 item',
    'front desk: 1 finding to offer',
    'inspector: 2 findings to confirm',
    'parts: 1 item',
  ]);
  // Work done waits for its initials only when nothing else is left to do.
  expect(waitsFor(order({ items: [item('done'), item('inspected')] }))).toEqual([
    'inspector: 1 item to initial',
  ]);
  expect(waitsFor(order({ state: 'released', findings: [{ state: 'offered' }] }))).toEqual([]);
});

test('the hatch follows the order, and a running clock is work whatever else waits', () => {
  const of = (changes: Partial<Order>) => hatchOf(stay('s', '1', { order: order(changes) }));
  const waiting = item('waiting', 'parts');
  expect(hatchOf(stay('s', '1'))).toBeNull();
  expect(of({ state: 'planned' })).toBe('planned');
  expect(of({ items: [item('open')] })).toBe('planned');
  expect(of({ items: [item('open'), waiting] })).toBe('waiting');
  expect(of({ items: [{ ...item('in_work'), runningBy: [{ initials: 'RT' }] }, waiting] })).toBe(
    'in_work',
  );
  expect(of({ state: 'ready_to_sign' })).toBe('ready_to_sign');
  expect(of({ state: 'released' })).toBe('released');
});

test('the words beside an aircraft say the day, what it waits for and the money', () => {
  const shop = { timeZone: 'UTC', currency: 'USD' };
  const waits = stay('here', '1', { order: order({ findings: [{ state: 'offered' }] }) });
  const plan = floor([waits], [change('departure', '2026-11-26T16:00:00.000Z', waits)]);
  const note = noteOf({ stay: waits, part: 'there' }, plan, now, shop);
  expect(note).toEqual({
    registration: 'QQ-117',
    first: '100-hour inspection, day 2 of 3',
    second: 'waits for owner: 1 finding · 1,240 of 1,900',
    beyond: null,
    ahead: 'done: likely 1,710',
  });
  const money = {
    ...waits,
    order: order({
      costAtCompletion: { p50: '171000', p90: '201000' },
      margin: { left: '-4000' },
    }),
  };
  expect(noteOf({ stay: money, part: 'there' }, plan, now, shop).ahead).toBe(
    'done: likely 1,710, may pass what was agreed · leaves us −40 so far',
  );
  const looked = { ...waits, order: order({ appointedLook: '2026-11-26T07:00:00.000Z' }) };
  expect(noteOf({ stay: looked, part: 'there' }, plan, now, shop).second).toContain(
    '; leak check 26 Nov 2026, 07:00 · ',
  );
  const past = { ...waits, order: order({ beyondAuthority: '12000', costSoFar: '202000' }) };
  expect(noteOf({ stay: past, part: 'there' }, plan, now, shop).beyond).toBe(
    'beyond authority: 120',
  );
  expect(
    noteOf({ stay: waits, part: 'there' }, plan, '2026-11-26T08:00:00.000Z', shop).second,
  ).toBe('until 26 Nov 2026, 16:00');
});

test('notes stand beside the plan in order, a slot apart, and their leaders pass over no neighbour', () => {
  const at = (id: string, x: number, y: number): Parked => ({
    id,
    x,
    y,
    width: 2,
    depth: 8.7,
    lies: 'along',
  });
  const parked = [at('outer', 2.75, 19), at('inner', 7.45, 19), at('right', 32, 17)];
  const placed = placeNotes(parked, { width: 35, depth: 25 }, { slot: 5, gap: 2 }) ?? [];
  expect(placed.map(({ id, side }) => `${id} ${side}`)).toEqual([
    'inner left',
    'outer left',
    'right right',
  ]);
  const [inner, outer] = placed;
  expect((outer?.top ?? 0) - (inner?.top ?? 0)).toBeGreaterThanOrEqual(5);
  // The inner one's leader goes over the outer one's tail, which begins at y = 14.65.
  const { from, to } = inner ?? { from: { x: 0, y: 0 }, to: { x: 0, y: 0 } };
  const yAt = (x: number) => from.y + ((to.y - from.y) * (x - from.x)) / (to.x - from.x);
  expect(yAt(3.75)).toBeLessThan(14.65);
});

test('notes that have no room beside the plan are refused, so that a list is written', () => {
  const many = Array.from({ length: 5 }, (_, index) => ({
    id: String(index),
    x: index,
    y: 5,
    width: 1,
    depth: 2,
    lies: 'along' as const,
  }));
  expect(placeNotes(many, { width: 10, depth: 10 }, { slot: 5, gap: 1 })).toBeNull();
  expect(placeNotes([], { width: 10, depth: 10 }, { slot: 5, gap: 1 })).toEqual([]);
  expect(spread([2, 3, 14], 5, 20)).toEqual([2, 7, 14]);
  expect(spread([18, 19], 5, 20)).toEqual([15, 20]);
});

test('a wall clock of the shop is read in its zone, also when the clocks change', () => {
  expect(instantOf('2026-07-01T08:00', 'Europe/Berlin')).toBe('2026-07-01T06:00:00.000Z');
  expect(instantOf('2026-12-01T08:00', 'America/Denver')).toBe('2026-12-01T15:00:00.000Z');
  // Central European clocks: forward on 29 March 2026 at 01:00 UTC, back on 25 October (Directive 2000/84/EC).
  expect(instantOf('2026-03-29T01:59', 'Europe/Berlin')).toBe('2026-03-29T00:59:00.000Z');
  expect(instantOf('2026-03-29T03:00', 'Europe/Berlin')).toBe('2026-03-29T01:00:00.000Z');
  expect(instantOf('2026-10-25T12:00', 'Europe/Berlin')).toBe('2026-10-25T11:00:00.000Z');
  for (const zone of ['UTC', 'Europe/Berlin', 'America/Denver', 'Asia/Kathmandu']) {
    expect(wallOf(instantOf('2026-11-30T07:45', zone), zone)).toBe('2026-11-30T07:45');
  }
  expect(dayOf('2026-07-01T23:30:00.000Z', 'Europe/Berlin')).toBe('2026-07-02');
  expect(dayOfStay('2026-11-23T22:10:00Z', '2026-11-25T07:00:00Z', 'UTC')).toBe(3);
  expect(() => instantOf('tomorrow', 'UTC')).toThrow('tomorrow');
});

test('a leader keeps off the names of the stands, where a place beside them is left', () => {
  const craft: Parked = { id: 'one', x: 7.6, y: 6.7, width: 12, depth: 9, lies: 'along' };
  const name = { x: 2.2, y: 1.2, width: 3.2, depth: 1.2 };
  const plan = { width: 35, depth: 25 };
  const [plain] = placeNotes([craft], plan, { slot: 5, gap: 2.2 }) ?? [];
  const [clear] = placeNotes([craft], plan, { slot: 5, gap: 2.2, names: [name] }) ?? [];
  const strikes = ({
    from,
    to,
  }: {
    from: { x: number; y: number };
    to: { x: number; y: number };
  }) =>
    Array.from({ length: 400 }, (_, step) => step / 400).some(
      (share) =>
        Math.abs(from.x + (to.x - from.x) * share - name.x) < name.width / 2 &&
        Math.abs(from.y + (to.y - from.y) * share - name.y) < name.depth / 2,
    );
  if (!plain || !clear) throw new Error('No note was placed');
  expect([strikes(plain), strikes(clear)]).toEqual([true, false]);
  // Where every way leads through a name, the note stands all the same.
  const everywhere = { x: 1, y: 12.5, width: 0.5, depth: 60 };
  expect(placeNotes([craft], plan, { slot: 5, gap: 2.2, names: [everywhere] })).toHaveLength(1);
});
