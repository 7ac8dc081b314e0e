interface Point {
  x: number;
  y: number;
}

/** A parked aircraft on the plan, metres: its middle and its extents along x (across) and y. */
export interface Parked {
  id: string;
  x: number;
  y: number;
  width: number;
  depth: number;
  /** Which way its centre line runs. */
  lies: 'across' | 'along';
}

export interface PlacedNote {
  id: string;
  side: 'left' | 'right';
  /** Where its rule stands, metres from the back wall. */
  top: number;
  /** On the aircraft, and where the rule of the note begins. */
  from: Point;
  to: Point;
}

/** What a leader had better not run through, such as the name of a stand: its middle and extents, metres. */
export interface Lettering extends Point {
  width: number;
  depth: number;
}

/** How far beyond an aircraft's back its note may stand, metres: the first that keeps its leader off the names. */
const BESIDE = [-1, 0.2, 1.4, 2.6, 3.8, 5];

/**
 * Places a note for each aircraft beside the plan, with a leader that crosses as few others as can be.
 *
 * @param slot height that a note takes, metres; above 0
 * @param gap from the wall to the beginning of a note's rule, metres
 * @returns null where they do not fit beside the plan: the page then writes a list under it
 */
export function placeNotes(
  parked: readonly Parked[],
  plan: { width: number; depth: number },
  { slot, gap, names = [] }: { slot: number; gap: number; names?: readonly Lettering[] },
): PlacedNote[] | null {
  const room = Math.max(1, Math.floor((plan.depth + slot / 2) / slot));
  const byPlace = parked.toSorted((one, other) => one.x - other.x);
  const lefts = byPlace.filter(({ x }) => x < plan.width / 2).length;
  const left = Math.max(byPlace.length - room, Math.min(lefts, room));
  if (left > room) return null;
  return [...oneSide(byPlace.slice(0, left), 'left'), ...oneSide(byPlace.slice(left), 'right')];

  function oneSide(those: readonly Parked[], side: 'left' | 'right'): PlacedNote[] {
    const edge = side === 'left' ? -gap : plan.width + gap;
    const inwards = (each: Parked) => Math.abs(each.x - edge);
    const back = (each: Parked) => each.y - each.depth / 2;
    // Of two in one row the inner one is written first, above the outer one that it must pass.
    const inOrder = those.toSorted(
      (one, other) => back(one) - back(other) || inwards(other) - inwards(one),
    );
    const placed = BESIDE.map((beside) => {
      const tops = spread(
        inOrder.map((each) => Math.max(0, back(each) + beside)),
        slot,
        Math.max(0, plan.depth - slot),
      );
      return inOrder.map((each, index) => {
        const to = { x: edge, y: tops[index] ?? 0 };
        return { id: each.id, side, top: to.y, to, from: clearest(each, to) };
      });
    });
    const through = (notes: readonly PlacedNote[]) =>
      notes.reduce((sum, { id, from, to }) => sum + hindrance(id, from, to), 0);
    return placed.reduce((best, notes) => (through(notes) < through(best) ? notes : best));
  }

  /** A leader over another aircraft points at the wrong one; over a name it only strikes it out. */
  function hindrance(id: string, from: Point, to: Point): number {
    const crafts = parked.filter((other) => other.id !== id && crosses(from, to, other)).length;
    return crafts * 1000 + names.filter((name) => crosses(from, to, name)).length * 100;
  }

  /** The point on an aircraft's centre line from which the leader crosses the fewest others, then the shortest. */
  function clearest(each: Parked, to: Point): Point {
    const along = [-0.46, -0.25, 0, 0.25, 0.46];
    const points = along.map((share) => ({
      x: each.x + (each.lies === 'along' ? 0 : share * each.width),
      y: each.y + (each.lies === 'along' ? share * each.depth : 0),
    }));
    const cost = (from: Point) =>
      hindrance(each.id, from, to) +
      Math.hypot(from.x - to.x, from.y - to.y) +
      // Of two as good, the one nearer the middle points more plainly.
      Math.hypot(from.x - each.x, from.y - each.y) / 10;
    return points.reduce((best, point) => (cost(point) < cost(best) ? point : best));
  }
}

/**
 * Moves places apart that are nearer than `slot`, keeping their order, and back inside 0 to `last`.
 *
 * @example spread([2, 3, 14], 5, 20) // → [2, 7, 14]
 */
export function spread(wanted: readonly number[], slot: number, last: number): number[] {
  const down: number[] = [];
  for (const place of wanted) down.push(Math.max(place, (down.at(-1) ?? -slot) + slot));
  const up: number[] = [];
  for (const place of down.toReversed()) up.unshift(Math.min(place, (up[0] ?? last + slot) - slot));
  return up;
}

/** Whether a straight line passes over a parked aircraft or a name: sampled, which is fine enough to choose by. */
function crosses(from: Point, to: Point, { x, y, width, depth }: Lettering): boolean {
  return Array.from({ length: 61 }, (_, step) => step / 60).some((share) => {
    const at = { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
    return Math.abs(at.x - x) < width / 2 && Math.abs(at.y - y) < depth / 2;
  });
}
