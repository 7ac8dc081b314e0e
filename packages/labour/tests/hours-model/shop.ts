import type { DoneItem } from '../../src/index.ts';
import { seededBits, standardNormal, uniform } from '../../src/random.ts';

/** What is true of a simulated shop, on the scale of ln hours. */
export const TRUTH = { task: 0.25, mechanic: 0.15, registration: 0.08, job: 0.3, cramped: 0.5 };

/** Past jobs of a shop that was drawn at random; invented, as everything in it. */
export function simulatedShop(
  seed: number,
  jobs: number,
  { tasks = 40, mechanics = 6, tails = 15, cramped = TRUTH.cramped, job = TRUTH.job } = {},
): DoneItem[] {
  const bits = seededBits(seed);
  const normal = () => standardNormal(bits);
  const pick = (count: number) => Math.floor(uniform(bits) * count);
  const kinds = Array.from({ length: tasks }, (_, index) => ({
    task: `Task ${index}`,
    standardHours: Math.exp(0.3 + 0.7 * normal()),
    effect: TRUTH.task * normal(),
    jasc: String(2000 + 100 * pick(8)),
  }));
  const people = Array.from({ length: mechanics }, () => TRUTH.mechanic * normal());
  const aircraft = Array.from({ length: tails }, () => TRUTH.registration * normal());
  return Array.from({ length: jobs }, (): DoneItem => {
    const kind = kinds[pick(tasks)]!;
    const who = pick(mechanics);
    const tail = pick(tails);
    const clearanceMm = pick(2) === 0 ? 350 : 150;
    const centre =
      Math.log(kind.standardHours) +
      kind.effect +
      people[who]! +
      aircraft[tail]! +
      (clearanceMm < 200 ? cramped : 0);
    return {
      task: kind.task,
      jasc: kind.jasc,
      standardHours: kind.standardHours,
      model: `Model ${tail % 4}`,
      registration: `QQ-${tail}`,
      mechanics: [{ name: `Mechanic ${who}`, share: 1 }],
      place: { clearanceMm },
      hours: Math.exp(centre + job * normal()),
      censored: false,
    };
  });
}
