import { accessEffect } from '../access.ts';
import { type AccessConditions, FREE_BENCH } from '../access-conditions.ts';
import type { Estimate } from '../classical.ts';
import { type Hours, hours } from '../hours.ts';
import { Criterion, type Point } from '../mixed/criterion.ts';
import type { EffectPrior } from '../mixed/problem.ts';
import type { SharedUncertainty } from '../package-item.ts';
import { hoursQuantile } from '../student.ts';
import { type CodedItem, codeItem, type Factor, type PlannedItem } from './coding.ts';
import { HOURS_MODEL_VERSION, type HoursModel } from './hours-model.ts';
import { filledPlace } from './known-places.ts';
import { problemOf } from './problem-of.ts';

/** One factor of an estimate, in the order in which they are told: they multiply to the median. */
export type Step = {
  readonly kind: 'start' | 'shop' | 'place' | 'mechanic' | 'aircraft';
  readonly factor: number;
  /** Finished items that tell of it. */
  readonly items: number;
  readonly words: string;
};

/** An estimate with what it shares with others, so that a package keeps shared what is shared. */
export type HoursEstimate = Pick<
  Estimate,
  'p10' | 'p50' | 'mean' | 'meanIs' | 'p80' | 'p90' | 'jobs' | 'predictive' | 'modelVersion'
> & {
  readonly steps: readonly Step[];
  /** Posterior coordinates of its centre (see `Criterion.imageOf`), scaled to s.d. of ln hours. */
  readonly image: Float64Array;
  /** Levels that the model has not met: drawn from their factor's distribution, the same for all items that name them. */
  readonly unmet: readonly SharedUncertainty[];
  /** The part of the image that no other task has: what is left open of this task alone. */
  readonly alone: { readonly task: string; readonly variance: number };
};

type Known = { readonly beta: Float64Array; readonly b: Float64Array; readonly point: Point };

/** A fitted model, opened: ready to answer. */
export class HoursPredictor {
  /** The model as it was given. */
  get model(): HoursModel {
    return this.#model;
  }

  readonly #model: HoursModel;
  readonly #criterion: Criterion | undefined;
  readonly #known: Known | undefined;
  readonly #columns: ReadonlyMap<string, number>;
  readonly #levels: ReadonlyMap<Factor, ReadonlyMap<string, number>>;
  readonly #places: ReadonlyMap<string, AccessConditions>;
  readonly #sigma: number;

  /** @throws RangeError for a model of another version */
  constructor(model: HoursModel) {
    if (model.version !== HOURS_MODEL_VERSION) {
      throw new RangeError(
        `The model is of version ${model.version}; this program reads ${HOURS_MODEL_VERSION}. Fit it again.`,
      );
    }
    this.#model = model;
    this.#sigma = Math.exp(model.lnSigma);
    this.#places = new Map(Object.entries(model.places));
    this.#columns = new Map(model.columns.map(({ name }, index) => [name, index]));
    this.#levels = new Map(
      model.factors.map(({ factor, levels }) => [
        factor,
        new Map(levels.map((level, index) => [level, index])),
      ]),
    );
    if (model.rows.length === 0) return;
    const y = Float64Array.from(model.rows, (row) => row.y);
    const weights = Float64Array.from(model.rows, ({ weight }) => weight);
    const factors = model.factors.map(({ factor, levels }) => ({ factor, levels: levels.length }));
    const names = model.columns.map(({ name }) => name);
    this.#criterion = new Criterion(
      problemOf(model.rows, y, weights, names, model.columns, factors, model.priors),
    );
    const theta = Float64Array.from(model.factors, ({ relative }) => relative);
    const point = this.#criterion.at(theta, model.lnSigma);
    if (point === undefined) throw new RangeError('The model holds numbers that overflow.');
    this.#known = { beta: point.beta, b: point.b, point };
  }

  #standardOf(task: string): number | undefined {
    return Object.hasOwn(this.#model.standards, task) ? this.#model.standards[task] : undefined;
  }

  #relative(factor: Factor): number {
    const fitted = this.#model.factors.find((one) => one.factor === factor)?.relative;
    if (fitted !== undefined) return fitted;
    return Math.exp(this.#model.priors[factor].mean) / this.#sigma;
  }

  /** Effect of a level, or undefined where the model has not met it. */
  #effect(
    factor: Factor,
    level: string,
  ): { value: number; items: number; node: number } | undefined {
    const index = this.#levels.get(factor)?.get(level);
    if (index === undefined || this.#known === undefined || this.#criterion === undefined)
      return undefined;
    const at = this.#model.factors.findIndex((one) => one.factor === factor);
    const node = this.#criterion.problem.groups[at]!.firstNode + index;
    return { value: this.#known.b[node]!, items: this.#model.factors[at]!.items[index]!, node };
  }

  /** A sum of fixed effects as the model has it now, on the scale of ln hours: prior, moved by the shop's own items. */
  combination(
    parts: readonly {
      readonly name: string;
      readonly value: number;
      readonly prior: EffectPrior;
    }[],
  ): { readonly mean: number; readonly sd: number; readonly items: number } {
    const { point } = this.#known ?? {};
    const x = new Float64Array(this.#model.columns.length);
    let mean = 0;
    let variance = 0;
    let items = 0;
    for (const { name, value, prior } of parts) {
      const index = this.#columns.get(name);
      if (index === undefined || point === undefined) {
        mean += value * prior.mean;
        variance += (value * prior.sd) ** 2;
      } else {
        x[index]! += value;
        mean += value * point.beta[index]!;
        items = this.#model.columns[index]!.items;
      }
    }
    if (this.#criterion !== undefined && point !== undefined) {
      const image = this.#criterion.imageOf(point, x, new Float64Array(point.b.length));
      for (const value of image) variance += (value * this.#sigma) ** 2;
    }
    return { mean, sd: Math.sqrt(variance), items };
  }

  /** Hands-on hours of one item. Without a mechanic named it is somebody of the shop. */
  estimate(asked: PlannedItem): HoursEstimate {
    const item = {
      ...asked,
      standardHours: asked.standardHours ?? this.#standardOf(asked.task),
      place: filledPlace(asked, this.#places),
    };
    const { priors, accessPriors, summary } = this.#model;
    const medianHours = summary.medianHours ?? priors.medianHours;
    const coded = codeItem(item, { priors, accessPriors, medianHours });
    const { point } = this.#known ?? {};
    const x = new Float64Array(this.#model.columns.length);
    const z = new Float64Array(point?.b.length ?? 0);
    const unmet: SharedUncertainty[] = [];
    let alone = 0;
    let variance = 0;
    const doubt = (component: string, loading: number) => {
      if (loading === 0) return;
      unmet.push({ component, loading });
      variance += loading ** 2;
    };
    const byKind = { shop: 0, place: 0, mechanic: 0, aircraft: 0 };
    const items = { shop: 0, place: 0, mechanic: 0, aircraft: 0 };
    for (const { name, value, prior } of coded.fixed) {
      const index = this.#columns.get(name);
      const kind = name.startsWith('access ') ? 'place' : 'shop';
      if (index === undefined || point === undefined) {
        byKind[kind] += value * prior.mean;
        doubt(name, value * prior.sd);
      } else {
        x[index]! += value;
        byKind[kind] += value * point.beta[index]!;
        items[kind] = Math.max(items[kind], this.#model.columns[index]!.items);
      }
    }
    for (const { factor, level, share } of this.#who(coded)) {
      const kind =
        factor === 'mechanic' ? 'mechanic' : factor.startsWith('task') ? 'shop' : 'aircraft';
      const effect = this.#effect(factor, level);
      if (effect === undefined) {
        doubt(`${factor}: ${level}`, share * this.#relative(factor) * this.#sigma);
      } else {
        z[effect.node]! += share;
        if (factor.startsWith('task') && this.#criterion !== undefined && point !== undefined) {
          alone = this.#criterion.aloneOf(point, effect.node);
        }
        byKind[kind] += share * effect.value;
        items[kind] = kind === 'shop' ? effect.items : Math.max(items[kind], effect.items);
      }
    }
    const image =
      this.#criterion === undefined || point === undefined
        ? new Float64Array(0)
        : this.#criterion.imageOf(point, x, z).map((value) => value * this.#sigma);
    for (const value of image) variance += value * value;
    const location = coded.offset + byKind.shop + byKind.place + byKind.mechanic + byKind.aircraft;
    // What calibration found to be missing is laid to the single item, not to what items share.
    const scale = Math.sqrt(variance + (this.#model.stretch * this.#sigma) ** 2);
    const predictive = {
      location,
      scale,
      df: Infinity,
    };
    const quantile = (p: number) => hoursQuantile(predictive, p) as Hours;
    const jobs = this.#jobsOf(item);
    return {
      p10: quantile(0.1),
      p50: quantile(0.5),
      mean: hours(Math.exp(location + scale ** 2 / 2)),
      meanIs: 'lognormal plug-in mean',
      p80: quantile(0.8),
      p90: quantile(0.9),
      jobs,
      predictive,
      modelVersion: this.#model.version,
      image,
      unmet,
      alone: { task: item.task, variance: alone },
      steps: this.#steps(item, byKind, { ...items, shop: jobs }, medianHours),
    };
  }

  /** The levels of an item; somebody of the shop where nobody is named. */
  #who({ levels }: CodedItem): CodedItem['levels'] {
    return levels.some(({ factor }) => factor === 'mechanic')
      ? levels
      : [...levels, { factor: 'mechanic', level: 'not yet named', share: 1 }];
  }

  #jobsOf({ task, standardHours }: PlannedItem): number {
    return (
      this.#effect(standardHours === undefined ? 'taskWithout' : 'taskWithStandard', task)?.items ??
      0
    );
  }

  #steps(
    item: PlannedItem,
    byKind: Readonly<Record<'shop' | 'place' | 'mechanic' | 'aircraft', number>>,
    items: Readonly<Record<'shop' | 'place' | 'mechanic' | 'aircraft', number>>,
    medianHours: number,
  ): Step[] {
    const { standardHours } = item;
    const start = standardHours ?? medianHours;
    const shop = standardHours === undefined ? byKind.shop - Math.log(medianHours) : byKind.shop;
    const parts = accessEffect(
      item.place,
      item.statedFor ?? FREE_BENCH,
      this.#model.accessPriors,
    ).parts;
    const steps: Step[] = [
      {
        kind: 'start',
        factor: start,
        items: 0,
        words: standardHours === undefined ? "the shop's middle job" : 'standard',
      },
      { kind: 'shop', factor: Math.exp(shop), items: items.shop, words: 'this shop' },
    ];
    if (parts.length > 0) {
      steps.push({
        kind: 'place',
        factor: Math.exp(byKind.place),
        items: items.place,
        words: `this place: ${parts.map(({ words }) => words.replace(/ \(stated for: .*\)$/, '')).join(', ')}`,
      });
    }
    if (byKind.mechanic !== 0) {
      steps.push({
        kind: 'mechanic',
        factor: Math.exp(byKind.mechanic),
        items: items.mechanic,
        words: item.mechanics.map(({ name }) => name).join(' and '),
      });
    }
    if (byKind.aircraft !== 0) {
      steps.push({
        kind: 'aircraft',
        factor: Math.exp(byKind.aircraft),
        items: items.aircraft,
        words: [item.model, item.registration].filter(Boolean).join(', '),
      });
    }
    return steps;
  }
}
