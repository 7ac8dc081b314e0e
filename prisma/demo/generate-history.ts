/**
 * Writes history.csv: 300 closed items of the two years before 20 November 2026, invented from a
 * stated model, so that whoever fits the file knows what is true behind it. The same bytes every
 * time:
 *
 *     npx tsx prisma/demo/generate-history.ts
 *
 * The model, natural logarithms, hours added over all people:
 *
 *     ln h = ln standard + shop + Σ share·mechanic + model×chapter + tail
 *            + access(as found) − access(as stated for the standard) + noise
 *
 *     shop           ln 1.08
 *     mechanic       ruan −0.08, marta −0.03, hesper +0.02, jory +0.28 (below)
 *     model×chapter  normal, s.d. 0.10, drawn once for each pair that occurs
 *     tail           normal, s.d. 0.06, drawn once for each registration
 *     access         sum of the level effects in `truth` below
 *     noise          normal, s.d. 0.22
 *
 * The level effects are this shop's own and differ a little from the prior factors that a new shop
 * starts from. All are invented.
 *
 * Columns: `task` is the task's key in tasks.json, `model` maker and name of the model, `mechanic` the
 * person's name (with shares where two worked), as the shop's own closed items name them. Access conditions are as found. Items
 * closed before the shop began to record places have those columns blank. A censored row (1) is a
 * lower bound: the item was handed over unfinished.
 */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Conditions, type DemoAircraft, type DemoTask, readDemo } from './data.ts';

const seed = 20261120;
const rows = 300;
const visits = 75;
const lastDay = Date.UTC(2026, 10, 19);
const spanDays = 730;
const recordedFromDay = 80;
const dayMs = 86_400_000;

const truth = {
  shop: Math.log(1.08),
  mechanic: { ruan: -0.08, marta: -0.03, hesper: 0.02, jory: 0.28 } as Record<string, number>,
  modelChapterSd: 0.1,
  tailSd: 0.06,
  noiseSd: 0.22,
  clearance: [0, 0.06, 0.26, 0.48],
  sight: { direct: 0, mirror: 0.1, feel: 0.3 },
  posture: { upright: 0, bent: 0.04, lying: 0.1 },
  reach: { forearm: 0, arm: 0.08 },
  swing: [0, 0.1, 0.22],
  held: 0.2,
  lockedEach: 0.025,
  lockedAtMost: 10,
};

/** What is done at most visits, so that some tasks have many like jobs and others one or none. */
const often = new Map([
  ['oil-filter-change', 9],
  ['spark-plugs-service', 5],
  ['compression-test', 5],
  ['exhaust-inspect', 5],
  ['heat-shroud-inspect', 4],
  ['fuel-strainer-clean', 4],
  ['engine-hoses-inspect', 3],
  ['exhaust-collector-replace', 1.7],
  ['drive-belts-inspect', 3],
  ['main-rotor-head-inspect', 3],
  ['wheel-bearings-service', 3],
  ['flight-controls-inspect', 3],
  ['cylinder-replace', 0.5],
  ['engine-mount-isolators-replace', 0.5],
  ['drive-belts-replace', 0.5],
]);

/** How busy a tail is: school helicopters come twice as often as private airplanes. */
const busy = new Map([
  ['QQ-117', 3],
  ['QQ-124', 3],
  ['QQ-142', 2],
  ['QQ-156', 2],
  ['QQ-188', 2],
]);

/**
 * A stream of random numbers from 32-bit shifts (13, 17, 5), after G. Marsaglia, "Xorshift RNGs",
 * Journal of Statistical Software 8(14), 2003. Integers only, so every machine draws the same.
 */
function randomStream(start: number) {
  let state = start | 0;
  const uniform = (): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 4_294_967_296;
  };
  return {
    uniform,
    /** Twelve uniforms less six: mean 0, variance exactly 1, and no library function to differ. */
    normal: (): number => Array.from({ length: 12 }, uniform).reduce((a, b) => a + b, -6),
    whole: (below: number): number => Math.floor(uniform() * below),
    /** One of `from`, each as likely as its weight. */
    weighted: <Choice>(from: readonly Choice[], weight: (choice: Choice) => number): Choice => {
      const total = from.reduce((sum, choice) => sum + weight(choice), 0);
      let left = uniform() * total;
      for (const choice of from) {
        left -= weight(choice);
        if (left < 0) return choice;
      }
      throw new RangeError('Cannot choose: the list is empty; at least one choice is needed');
    },
  };
}
type Stream = ReturnType<typeof randomStream>;

function accessEffect(c: Conditions): number {
  const clearance =
    c.clearanceMm >= 300 ? 0 : c.clearanceMm >= 200 ? 1 : c.clearanceMm >= 120 ? 2 : 3;
  const swing = c.swingDeg >= 60 ? 0 : c.swingDeg >= 30 ? 1 : 2;
  return (
    (truth.clearance[clearance] ?? 0) +
    truth.sight[c.sight] +
    truth.posture[c.posture] +
    truth.reach[c.reach] +
    (truth.swing[swing] ?? 0) +
    (c.held ? truth.held : 0) +
    truth.lockedEach * Math.min(c.lockedFasteners, truth.lockedAtMost)
  );
}

/** The mechanic does not always find what was planned: one item in four differs in something. */
function asFound(planned: Conditions, random: Stream): Conditions {
  const found = { ...planned };
  if (random.uniform() < 0.1)
    found.clearanceMm = Math.max(60, found.clearanceMm - 10 * (1 + random.whole(8)));
  if (random.uniform() < 0.08) found.posture = found.posture === 'upright' ? 'bent' : 'lying';
  if (random.uniform() < 0.05) found.sight = found.sight === 'direct' ? 'mirror' : 'feel';
  if (random.uniform() < 0.06) found.lockedFasteners += 1 + random.whole(3);
  return found;
}

/**
 * Who works: mostly one mechanic; the apprentice always with the person who supervises him, and
 * never on an inspection (14 CFR 43.3(d) keeps those from an uncertificated helper).
 */
function crew(task: DemoTask, random: Stream): [string, number][] {
  const inspects = /-(inspect|check|test)$/.test(task.key);
  if (!task.critical && !inspects && random.uniform() < 0.45) {
    const share = 0.5 + 0.1 * random.whole(4);
    return [
      ['jory', share],
      ['ruan', 1 - share],
    ];
  }
  const one = random.weighted(['ruan', 'marta', 'hesper'], (p) => (p === 'hesper' ? 1 : 3));
  if (Number(task.standardHours) < 2.4 || random.uniform() < 0.5) return [[one, 1]];
  const other = random.weighted(['ruan', 'marta', 'hesper'], (p) => (p === one ? 0 : 1));
  return [
    [one, 0.7],
    [other, 0.3],
  ];
}

/** One name, or names with their shares: "A:0.6;B:0.4". */
const nameShares = (people: [string, number][], names: ReadonlyMap<string, string>): string =>
  people
    .map(([key, share]) => {
      const name = names.get(key) ?? key;
      return people.length === 1 ? name : `${name}:${share.toFixed(1)}`;
    })
    .join(';');

/** Days of the visits, in order, no Sundays; the first and the last few weeks are both covered. */
function visitDays(random: Stream): number[] {
  const days = Array.from({ length: visits }, () => random.whole(spanDays));
  return days
    .map((day) => (new Date(lastDay - (spanDays - day) * dayMs).getUTCDay() === 0 ? day + 1 : day))
    .sort((a, b) => a - b);
}

/**
 * The whole of history.csv as text, computed from the demo's other files and the seed alone.
 *
 * @example historyCsv() === historyCsv() // true
 */
export function historyCsv(): string {
  const random = randomStream(seed);
  const { tasks, defaultConditions } = readDemo('tasks.json');
  const { places } = readDemo('places.json');
  const aircraft = readDemo('aircraft.json');
  const people = new Map(readDemo('people.json').map(({ key, name }) => [key, name]));
  const models = new Map(
    readDemo('models.json').map(({ key, maker, name }) => [key, `${maker} ${name}`]),
  );
  const effects = new Map<string, number>();
  const effect = (name: string, sd: number): number => {
    const known = effects.get(name) ?? sd * random.normal();
    effects.set(name, known);
    return known;
  };

  const row = (day: number, tail: DemoAircraft, task: DemoTask): string => {
    const stated = { ...defaultConditions, ...task.statedFor };
    const place = places.find((p) => p.task === task.key && p.model === tail.model);
    const found = asFound({ ...stated, ...place?.conditions }, random);
    const workers = crew(task, random);
    const logHours =
      Math.log(Number(task.standardHours)) +
      truth.shop +
      workers.reduce((sum, [person, share]) => sum + share * (truth.mechanic[person] ?? 0), 0) +
      effect(`${tail.model} ${task.jasc.slice(0, 2)}`, truth.modelChapterSd) +
      effect(tail.registration, truth.tailSd) +
      accessEffect(found) -
      accessEffect(stated) +
      truth.noiseSd * random.normal();
    const censored = random.uniform() < 0.02;
    const hours = Math.exp(logHours) * (censored ? 0.3 + 0.5 * random.uniform() : 1);
    const access = [
      found.clearanceMm,
      found.sight,
      found.posture,
      found.reach,
      found.swingDeg,
      Number(found.held),
      found.lockedFasteners,
    ];
    return [
      new Date(lastDay - (spanDays - day) * dayMs).toISOString().slice(0, 10),
      task.key,
      task.jasc,
      task.standardHours,
      models.get(tail.model),
      tail.registration,
      nameShares(workers, people),
      Math.max(0.1, hours).toFixed(2),
      Number(censored),
      ...(day < recordedFromDay ? access.map(() => '') : access),
    ].join(',');
  };

  const lines: string[] = [];
  const each = rows / visits;
  for (const day of visitDays(random)) {
    const tail = random.weighted(aircraft, (a) => busy.get(a.registration) ?? 1);
    const left = tasks.filter((task) => task.models.includes(tail.model));
    for (let item = 0; item < each; item += 1) {
      const task = random.weighted(left, (t) => often.get(t.key) ?? 1);
      left.splice(left.indexOf(task), 1);
      lines.push(row(day, tail, task));
    }
  }
  const header =
    'completed_on,task,jasc,standard_hours,model,registration,mechanic,hours,censored,' +
    'clearance_mm,sight,posture,reach,swing_deg,held,locked_fasteners';
  return `${[header, ...lines].join('\n')}\n`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  writeFileSync(new URL('history.csv', import.meta.url), historyCsv());
}
