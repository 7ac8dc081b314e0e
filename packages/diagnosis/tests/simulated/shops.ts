import { type Bits, seededBits, uniform } from '../../../labour/src/random.ts';
import { learn, posterior, tables } from '../../src/index.ts';
import type { Symptom } from '../../src/symptom.ts';
import { drawCase, type Looking } from './case.ts';
import { trueTables } from './truth.ts';

/** One cause of one finding: how likely it was said to be, and whether it was. */
export type Said = readonly [probability: number, was: boolean];

export interface Scored {
  readonly said: readonly Said[];
  /** The likeliest cause of each finding. */
  readonly firsts: readonly Said[];
  /** Findings of which somebody who knew the shop's true tables would have 95 % among three causes. */
  readonly tellable: number;
  /** Of those, with the cause among the first three here. */
  readonly amongThree: number;
  /** Of all findings, with the cause among the first three here, and for who knows the true tables. */
  readonly findings: number;
  readonly amongThreeOfAll: number;
  readonly bestOfAll: number;
}

export interface Scenario extends Looking {
  readonly shops: number;
  /** Closed findings of a shop before it is asked: up to so many, evenly. */
  readonly closed: number;
  /** Findings asked about in each shop. */
  readonly asked: number;
  readonly alike: number;
}

const TELLABLE = 0.95;

const firstThree = (probabilities: readonly number[]): number[] =>
  probabilities
    .map((probability, index) => [probability, index] as const)
    .toSorted(([one], [other]) => other - one)
    .slice(0, 3)
    .map(([, index]) => index);

/** Shops whose truth is drawn about the tables: each learns from its closed findings and is then asked about others. */
export function scoreShops(symptom: Symptom, scenario: Scenario, seed: number): Scored {
  const bits = seededBits(seed);
  const all = Array.from({ length: scenario.shops }, () => scoreShop(symptom, scenario, bits));
  const sum = (of: (one: Scored) => number) => all.reduce((total, one) => total + of(one), 0);
  return {
    said: all.flatMap(({ said }) => said),
    firsts: all.flatMap(({ firsts }) => firsts),
    tellable: sum(({ tellable }) => tellable),
    amongThree: sum(({ amongThree }) => amongThree),
    findings: sum(({ findings }) => findings),
    amongThreeOfAll: sum(({ amongThreeOfAll }) => amongThreeOfAll),
    bestOfAll: sum(({ bestOfAll }) => bestOfAll),
  };
}

function scoreShop(symptom: Symptom, scenario: Scenario, bits: Bits): Scored {
  const truth = trueTables(tables, symptom, scenario.alike, bits);
  const history = Array.from({ length: Math.floor(uniform(bits) * (scenario.closed + 1)) }, () => ({
    ...drawCase(truth, scenario, bits),
    yearsAgo: 6 * uniform(bits),
  }));
  const knowledge = learn(
    tables,
    history.map(({ seen, cause, yearsAgo }) => ({
      symptom: symptom.id,
      seen,
      turnedOut: cause,
      yearsAgo,
    })),
  );
  const said: Said[] = [];
  const firsts: Said[] = [];
  let [tellable, amongThree, amongThreeOfAll, bestOfAll] = [0, 0, 0, 0];
  for (let i = 0; i < scenario.asked; i += 1) {
    const { seen, cause } = drawCase(truth, scenario, bits);
    const sighting = { symptom: symptom.id, seen };
    const { causes, probabilities } = posterior(knowledge, sighting);
    const at = causes.findIndex(({ id }) => id === cause);
    for (const [index, probability] of probabilities.entries())
      said.push([probability, index === at]);
    const three = firstThree(probabilities);
    firsts.push([probabilities[three[0]!]!, three[0] === at]);
    const best = posterior(truth, sighting).probabilities;
    const bestThree = firstThree(best);
    if (three.includes(at)) amongThreeOfAll += 1;
    if (bestThree.includes(at)) bestOfAll += 1;
    if (bestThree.reduce((sum, index) => sum + best[index]!, 0) < TELLABLE) continue;
    tellable += 1;
    if (three.includes(at)) amongThree += 1;
  }
  const findings = scenario.asked;
  return { said, firsts, tellable, amongThree, findings, amongThreeOfAll, bestOfAll };
}
