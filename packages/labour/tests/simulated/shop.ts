import type { AccessConditions, DoneItem, PlannedItem } from '../../src/index.ts';
import { type Dice, diceOf } from './dice.ts';
import { type AccessTruth, accessTruth, drawPlace, recorded, trueEffect } from './places.ts';

/** An item that was held out: what was known before, and its true hands-on hours, whatever the clock said. */
export type HeldOut = { readonly item: PlannedItem; readonly trueHours: number };

export type Shop = {
  readonly mechanics: number;
  /** As clocked: with faults, odd jobs and items that were given up. */
  readonly history: readonly DoneItem[];
  /** A sample of the twelve months after. */
  readonly later: readonly HeldOut[];
  readonly access: AccessTruth;
};

type Kind = {
  readonly task: string;
  readonly jasc: string;
  readonly standardHours: number | undefined;
  readonly centre: number;
  readonly chapter: number;
};

/** Held-out items of a shop that are scored. */
const SCORED = 300;
const MOST_ITEMS = 6000;

/** Ways in which shops differ. */
function mannersOf(dice: Dice) {
  return {
    mechanics: Math.round(dice.scaled(5, 50)),
    months: Math.round(dice.scaled(3, 36)),
    perMonth: dice.even(3, 9),
    tasks: Math.round(dice.scaled(40, 300)),
    chapters: 4 + dice.below(9),
    models: 2 + dice.below(8),
    taskSd: dice.scaled(0.15, 0.4),
    openTaskSd: dice.scaled(0.35, 0.8),
    mechanicSd: dice.scaled(0.06, 0.25),
    modelSd: dice.scaled(0.04, 0.2),
    tailSd: dice.scaled(0.03, 0.15),
    jobSd: dice.scaled(0.2, 0.45),
    /** Skewness of ln hours: from hardly any to 1. */
    shape: dice.scaled(4, 100),
    goesWrong: dice.even(0.005, 0.04),
    leftRunning: dice.even(0, 0.02),
    tooShort: dice.even(0, 0.01),
    wrongTask: dice.even(0, 0.01),
    givenUp: dice.even(0, 0.04),
    blank: dice.even(0, 0.2),
  };
}

function kindsOf(dice: Dice, manners: ReturnType<typeof mannersOf>): Kind[] {
  const chapters = Array.from({ length: manners.chapters }, (_, k) => ({
    jasc: 21 + 3 * k,
    onStandard: dice.normal(0, 0.2),
    level: dice.normal(0.3, 0.5),
  }));
  const shop = dice.normal(0, 0.15);
  return Array.from({ length: manners.tasks }, (_, k): Kind => {
    const chapter = dice.below(chapters.length);
    const { jasc, onStandard, level } = chapters[chapter]!;
    const standardHours = dice.chance(0.75)
      ? Math.max(0.1, Math.round(10 * dice.scaled(0.3, 12)) / 10)
      : undefined;
    return {
      task: `Task ${k}`,
      jasc: String(100 * jasc),
      standardHours,
      chapter,
      centre:
        standardHours === undefined
          ? shop + level + manners.openTaskSd * dice.normal()
          : Math.log(standardHours) + shop + onStandard + manners.taskSd * dice.normal(),
    };
  });
}

/**
 * A shop drawn at random, with everything that makes real ones hard: mechanics unequal (some learning), tasks of which many
 * are done once, jobs that go wrong, times with a tail to the right, clocks left running or started late, time clocked to
 * another task, items given up, conditions left blank, tasks, people and aircraft that only come later. Invented.
 */
export function simulatedShop(seed: number, kindOfAccess: 'prior' | 'other' = 'other'): Shop {
  const dice = diceOf(seed);
  const manners = mannersOf(dice);
  const access = accessTruth(dice, kindOfAccess);
  const kinds = kindsOf(dice, manners);
  const people = Array.from({ length: manners.mechanics + 2 }, () =>
    dice.chance(0.12) ? dice.even(0.2, 0.45) : manners.mechanicSd * dice.normal(),
  );
  const tails = Array.from({ length: 4 + 3 * manners.mechanics }, () => ({
    model: dice.below(manners.models),
    effect: manners.tailSd * dice.normal(),
  }));
  const onModel = new Map<string, number>();
  const places = new Map<string, AccessConditions>();
  const once = <Value>(of: Map<string, Value>, key: string, draw: () => Value): Value => {
    const value = of.get(key) ?? draw();
    of.set(key, value);
    return value;
  };

  const draw = (present: { people: number; tails: number }) => {
    // A few tasks come all the time, most hardly ever.
    const kind = kinds[Math.floor(kinds.length * dice.even() ** 2.5)]!;
    const at = dice.below(present.tails);
    const tail = tails[at]!;
    const place = once(places, `${kind.task} ${tail.model}`, () => drawPlace(dice));
    const who = dice.below(present.people);
    const helper = dice.chance(0.12) ? dice.below(present.people) : who;
    const share = helper === who ? 1 : Math.round(dice.even(50, 90)) / 100;
    const wrong = dice.chance(manners.goesWrong) ? dice.even(0.4, 1.3) : 0;
    const ln =
      kind.centre +
      trueEffect(place, access) +
      once(onModel, `${tail.model} ${kind.chapter}`, () => manners.modelSd * dice.normal()) +
      tail.effect +
      share * people[who]! +
      (1 - share) * people[helper]! +
      manners.jobSd * dice.skewed(manners.shape) +
      wrong;
    const item: PlannedItem = {
      task: kind.task,
      jasc: kind.jasc,
      standardHours: kind.standardHours,
      model: `Model ${tail.model}`,
      registration: `QQ-${at}`,
      mechanics: [
        { name: `Mechanic ${who}`, share },
        ...(helper === who ? [] : [{ name: `Mechanic ${helper}`, share: 1 - share }]),
      ],
      place: recorded(dice, place, manners.blank),
    };
    return { item, trueHours: Math.exp(ln) };
  };

  const clocked = ({ item, trueHours }: HeldOut): DoneItem => {
    if (dice.chance(manners.givenUp)) {
      return { ...item, hours: trueHours * dice.even(0.1, 0.95), censored: true };
    }
    let hours = trueHours;
    if (dice.chance(manners.leftRunning)) hours += dice.even(4, 16);
    if (dice.chance(manners.tooShort)) hours *= dice.even(0.05, 0.5);
    const task = dice.chance(manners.wrongTask) ? dice.one(kinds).task : item.task;
    const { jasc, standardHours } = kinds.find((kind) => kind.task === task)!;
    return { ...item, task, jasc, standardHours, hours, censored: false };
  };

  const items = Math.min(
    MOST_ITEMS,
    Math.round(manners.mechanics * manners.months * manners.perMonth),
  );
  const then = { people: manners.mechanics, tails: tails.length - 3 };
  const history = Array.from({ length: items }, () => clocked(draw(then)));
  const now = { people: people.length, tails: tails.length };
  const year = Math.min(SCORED, Math.round(manners.mechanics * manners.perMonth * 12));
  const later = Array.from({ length: year }, () => draw(now));
  return { mechanics: manners.mechanics, history, later, access };
}
