import type { DoneItem } from '../../src/index.ts';
import { diceOf } from './dice.ts';
import { accessTruth, drawPlace, recorded, trueEffect } from './places.ts';

/** A large history, every task on every model and by anybody: as little structure as there can be. Invented. */
export function largeHistory(
  items: number,
  { seed = 1, tasks = 400, mechanics = 200, models = 40, tails = 2000, chapters = 12 } = {},
): DoneItem[] {
  const dice = diceOf(seed);
  const truth = accessTruth(dice, 'prior');
  const effects = (count: number, sd: number) =>
    Array.from({ length: count }, () => dice.normal(0, sd));
  const kinds = Array.from({ length: tasks }, (_, k) => ({
    task: `Task ${k}`,
    jasc: String(2100 + 100 * dice.below(chapters)),
    standardHours: dice.chance(0.75) ? dice.scaled(0.3, 12) : undefined,
    effect: dice.normal(0, 0.25),
    place: drawPlace(dice),
  }));
  const [ofMechanic, ofTail] = [effects(mechanics, 0.15), effects(tails, 0.08)];
  const ofModel = effects(models * 100, 0.1);
  return Array.from({ length: items }, (): DoneItem => {
    const kind = dice.one(kinds);
    const who = dice.below(mechanics);
    const tail = dice.below(tails);
    const model = tail % models;
    const place = recorded(dice, kind.place, 0.1);
    const hours = Math.exp(
      Math.log(kind.standardHours ?? 2) +
        kind.effect +
        trueEffect(kind.place, truth) +
        ofMechanic[who]! +
        ofTail[tail]! +
        ofModel[100 * model + Number(kind.jasc.slice(0, 2))]! +
        dice.normal(0, 0.3),
    );
    const censored = dice.chance(0.02);
    return {
      task: kind.task,
      jasc: kind.jasc,
      standardHours: kind.standardHours,
      model: `Model ${model}`,
      registration: `QQ-${tail}`,
      mechanics: [{ name: `Mechanic ${who}`, share: 1 }],
      place,
      hours: dice.chance(0.01) ? hours * 10 : censored ? hours * dice.even(0.2, 1) : hours,
      censored,
    };
  });
}
