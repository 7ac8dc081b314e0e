import { createHash } from 'node:crypto';

/** Throws dice: the same seed, the same throws. mulberry32, of the public domain. */
export function diceOf(seed: number) {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
  const below = (n: number): number => Math.floor(next() * n);
  return {
    next,
    below,
    chance: (probability: number): boolean => next() < probability,
    one: <T>(of: readonly T[]): T => {
      const chosen = of[below(of.length)];
      if (chosen === undefined) throw new RangeError('Nothing to choose from');
      return chosen;
    },
  };
}
export type Dice = ReturnType<typeof diceOf>;

/** What somebody really did, at a time that nobody's clock has changed. */
export interface Act {
  /** The id that the telephone gives it. */
  id: string;
  kind: 'start' | 'switch' | 'stop' | 'finding';
  /** Of a finding, what was worked on. */
  itemId: string | null;
  /** Milliseconds since 1970. */
  at: number;
  /** Which of its person's telephones. */
  phone: number;
}

/** A UUID that follows from the seed, so that a run can be thrown again. */
export function idOf(...parts: (string | number)[]): string {
  const hex = createHash('sha256').update(parts.join(' ')).digest('hex');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-4${hex.slice(13, 16)}-8${hex.slice(17, 20)}-${hex.slice(20, 32)}`;
}

/** What one person did between two moments, on one telephone or several; no two acts at one instant. */
export function actsOf(
  dice: Dice,
  {
    name,
    count,
    items,
    phones,
    from,
    to,
    findings = true,
  }: {
    name: string;
    count: number;
    items: readonly string[];
    phones: number;
    from: number;
    to: number;
    findings?: boolean;
  },
): Act[] {
  const step = Math.floor((to - from) / count);
  let running: string | null = null;
  return Array.from({ length: count }, (_, index): Act => {
    const at = from + index * step + 1 + dice.below(step - 1);
    const common = { id: idOf(name, index), at, phone: dice.below(phones) };
    if (findings && dice.chance(0.04))
      return { ...common, kind: 'finding', itemId: dice.one(items) };
    if (running !== null && dice.chance(0.35)) {
      // A stop may leave its item out; now and then somebody stops twice, or a stop names another item.
      const itemId = dice.chance(0.3) ? null : dice.chance(0.1) ? dice.one(items) : running;
      if (!dice.chance(0.05)) running = null;
      else return { ...common, kind: 'switch', itemId: running };
      return { ...common, kind: 'stop', itemId };
    }
    if (running === null && dice.chance(0.05)) return { ...common, kind: 'stop', itemId: null };
    const kind = running === null || dice.chance(0.1) ? 'start' : 'switch';
    running = dice.one(items);
    return { ...common, kind, itemId: running };
  });
}

/** Time on one item as it really was; `to` null: it runs. */
export interface TrueStretch {
  itemId: string;
  from: number;
  to: number | null;
}

/** Walks through what a person did, in the order of time: not the program's own way to stretches. */
export function truthOf(acts: readonly Act[]): TrueStretch[] {
  const clocks = acts.filter(({ kind }) => kind !== 'finding').toSorted((a, b) => a.at - b.at);
  const stretches: TrueStretch[] = [];
  for (const { kind, itemId, at } of clocks) {
    const last = stretches.at(-1);
    const runs = last?.to === null ? last : undefined;
    if (kind === 'stop') {
      if (runs) runs.to = at;
    } else if (runs?.itemId !== itemId && itemId !== null) {
      if (runs) runs.to = at;
      stretches.push({ itemId, from: at, to: null });
    }
  }
  return stretches;
}
