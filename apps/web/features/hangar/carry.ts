import type { Floor, Stand, Stay } from './floor-documents.ts';

/** An aircraft in somebody's hand, and the stay that it was taken from; null: it is on no drawing. */
export interface Carried {
  aircraft: Stay['aircraft'];
  stay: Stay | null;
}

/** Where it would go: a stand, or out of the door. */
export type Target = { kind: 'stand'; stand: Stand } | { kind: 'door' };

/** A point of the plan in metres, from the back left corner seen from the door. */
export interface PlanPoint {
  x: number;
  y: number;
}

export type ArrowKey = 'ArrowLeft' | 'ArrowRight' | 'ArrowUp' | 'ArrowDown';

export const targetKey = (target: Target | null): string =>
  target === null ? '' : target.kind === 'door' ? 'door' : target.stand.id;

/** How far beside a stand still counts as on it, metres. */
const BESIDE = 1.5;
/** How far beyond the door wall an aircraft counts as outside, metres: half a wall and a bit. */
const OUT = 0.4;

const inMetres = (millimetres: number) => millimetres / 1000;

/**
 * The stand under a point, else the nearest within 1.5 m, else the door for a point beyond its wall; null elsewhere.
 * Plain arithmetic: it runs on every move of a pointer.
 */
export function targetAt({ hangar, stands }: Floor, { x, y }: PlanPoint): Target | null {
  if (y > inMetres(hangar.depthMm) + OUT) return { kind: 'door' };
  let nearest: Stand | null = null;
  let least = BESIDE;
  for (const stand of stands) {
    const [left, top] = [inMetres(stand.xMm), inMetres(stand.yMm)];
    const beside = Math.max(left - x, x - left - inMetres(stand.widthMm), 0);
    const before = Math.max(top - y, y - top - inMetres(stand.depthMm), 0);
    const away = Math.hypot(beside, before);
    if (away === 0) return { kind: 'stand', stand };
    if (away < least) [nearest, least] = [stand, away];
  }
  return nearest === null ? null : { kind: 'stand', stand: nearest };
}

/** The middle of a target; the door's is a little outside. */
export function middleOf({ hangar }: Floor, target: Target): PlanPoint {
  if (target.kind === 'door')
    return {
      x: inMetres(hangar.doorFromMm + hangar.doorWidthMm / 2),
      y: inMetres(hangar.depthMm) + 3,
    };
  const { xMm, yMm, widthMm, depthMm } = target.stand;
  return { x: inMetres(xMm + widthMm / 2), y: inMetres(yMm + depthMm / 2) };
}

const directions: Record<ArrowKey, PlanPoint> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
};

/**
 * The next stand, or the door, in the direction of an arrow key: the nearest, where a metre aside counts as two
 * ahead. The same target where there is none; from nowhere, the first stand.
 */
export function nextTarget(floor: Floor, from: Target | null, key: ArrowKey): Target | null {
  const all: Target[] = [
    ...floor.stands.map((stand) => ({ kind: 'stand' as const, stand })),
    { kind: 'door' },
  ];
  if (from === null) return all[0] ?? null;
  const start = middleOf(floor, from);
  const way = directions[key];
  let best = from;
  let least = Number.POSITIVE_INFINITY;
  for (const target of all) {
    const middle = middleOf(floor, target);
    const ahead = (middle.x - start.x) * way.x + (middle.y - start.y) * way.y;
    const aside = Math.abs((middle.x - start.x) * way.y) + Math.abs((middle.y - start.y) * way.x);
    const cost = ahead + 2 * aside;
    if (ahead > 0.5 && cost < least) [best, least] = [target, cost];
  }
  return best;
}
