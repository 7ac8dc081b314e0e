import { type Grouping, INTERCEPT, type MixedModel } from './model.ts';

/** Beyond these the square of a number, a variance, is no longer one that a float64 holds well. */
const LARGEST = 1e100;
const SMALLEST = 1e-100;

function mustBeFinite(name: string, values: Float64Array, rows: number): void {
  if (values.length !== rows) {
    throw new RangeError(`Column ${name} has ${values.length} values; the response has ${rows}.`);
  }
  const bad = values.findIndex((value) => !Number.isFinite(value));
  if (bad >= 0) {
    throw new RangeError(
      `Column ${name}, row ${bad + 1}: a finite number is needed; got ${values[bad]}.`,
    );
  }
  const least = values.reduce((a, b) => Math.min(a, b), Infinity);
  const most = values.reduce((a, b) => Math.max(a, b), -Infinity);
  const size = Math.max(Math.abs(least), Math.abs(most));
  if (size > LARGEST || (size > 0 && size < SMALLEST)) {
    throw new RangeError(
      `Column ${name} has values as far out as ${size}, whose square cannot be computed with; give it in another unit, so that it lies between ${SMALLEST} and ${LARGEST}.`,
    );
  }
}

const isConstant = (values: Float64Array) => values.every((value) => value === values[0]);

/**
 * Checks a model before anything is computed.
 *
 * @throws RangeError that says what was given and what is needed
 */
export function checkModel(model: MixedModel): void {
  const { y, fixed, groups, weights } = model;
  const rows = y.length;
  mustBeFinite('of the response', y, rows);
  for (const { name, values } of fixed) mustBeFinite(name, values, rows);
  if (weights !== undefined) {
    mustBeFinite('of the weights', weights, rows);
    const bad = weights.findIndex((weight) => !(weight > 0));
    if (bad >= 0)
      throw new RangeError(`Row ${bad + 1}: a weight must be above 0; got ${weights[bad]}.`);
  }
  checkPriors(model);
  const names = new Set<string>();
  for (const group of groups) {
    const { name } = group;
    if (names.has(name)) throw new RangeError(`Two groups are called ${name}; names must differ.`);
    names.add(name);
    checkMembers(group, rows);
    checkSlopes(group, rows);
    mustRepeat(group, rows, weights !== undefined);
  }
  const effects = [
    ...(model.intercept === false ? [] : [INTERCEPT]),
    ...fixed.map(({ name }) => name),
  ].filter((name) => (model.priors?.[name]?.sd ?? Infinity) === Infinity).length;
  if (rows <= effects) {
    throw new RangeError(
      `${rows} rows cannot tell ${effects} fixed effects and a residual apart; at least ${effects + 1} are needed.`,
    );
  }
  if (isConstant(y) && model.residualSpread === undefined) {
    throw new RangeError(
      `All ${rows} values of the response are ${y[0]}: nothing varies, so no variance can be estimated.`,
    );
  }
}

function checkPriors({ fixed, intercept, groups, priors = {}, residualSpread }: MixedModel): void {
  const known = [...(intercept === false ? [] : [INTERCEPT]), ...fixed.map(({ name }) => name)];
  for (const [name, { mean, sd }] of Object.entries(priors)) {
    if (!known.includes(name)) {
      throw new RangeError(
        `There is a prior of ${name}, which is no fixed effect; those are ${known.join(', ')}.`,
      );
    }
    if (!Number.isFinite(mean) || !(sd > 0)) {
      throw new RangeError(
        `The prior of ${name} needs a finite mean and an s.d. above 0; got ${mean} and ${sd}.`,
      );
    }
  }
  const spreads = groups.map(({ name, spread }) => ({ what: `of group ${name}`, spread }));
  for (const { what, spread } of [
    ...spreads,
    { what: 'of the residual', spread: residualSpread },
  ]) {
    if (spread === undefined) continue;
    if (Number.isFinite(spread.mean) && spread.sd > 0 && Number.isFinite(spread.sd)) continue;
    throw new RangeError(
      `The prior of the spread ${what} needs a finite mean and s.d., the s.d. above 0; got ${spread.mean} and ${spread.sd}.`,
    );
  }
}

function checkMembers({ name, of, levels }: Grouping, rows: number): void {
  const given = of instanceof Int32Array ? of.length : of.start.length - 1;
  if (given !== rows) {
    throw new RangeError(`Group ${name} has ${given} rows; the response has ${rows}.`);
  }
  const level = of instanceof Int32Array ? of : of.level;
  const bad = level.find((index) => index < 0 || index >= levels.length);
  if (bad !== undefined) {
    throw new RangeError(`Group ${name} has ${levels.length} levels; a row names number ${bad}.`);
  }
  if (of instanceof Int32Array) return;
  const { start, share } = of;
  const inOrder = start.every((at, row) => at >= (row === 0 ? 0 : start[row - 1]!));
  if (!inOrder || start[0] !== 0 || start[rows] !== level.length || share.length !== level.length) {
    throw new RangeError(
      `The members of group ${name} do not add up: ${level.length} levels, ${share.length} shares, entries up to ${start[rows]}.`,
    );
  }
  if (!share.every(Number.isFinite)) {
    throw new RangeError(`The shares of group ${name} must be finite numbers.`);
  }
}

function checkSlopes({ name, slopes = [], intercept = true }: Grouping, rows: number): void {
  if (!intercept && slopes.length === 0) {
    throw new RangeError(
      `Group ${name} has neither an intercept nor slopes; it needs one of them.`,
    );
  }
  for (const { name: slope, values } of slopes) {
    mustBeFinite(slope, values, rows);
    if (isConstant(values) && (intercept || values[0] === 0)) {
      throw new RangeError(
        `Slope ${slope} of group ${name} is ${values[0]} in every row; its covariate must vary.`,
      );
    }
  }
}

/** Without a second level a group's variance says nothing; without two rows in some level it is the residual's. */
function mustRepeat(group: Grouping, rows: number, weighted: boolean): void {
  const { name, of, spread, intercept = true, correlated = true, slopes = [] } = group;
  if (spread !== undefined) return;
  const plain = of instanceof Int32Array;
  const used = new Set(plain ? of : of.level).size;
  if (used < 2) {
    throw new RangeError(
      `Group ${name} has ${used === 0 ? 'no level' : 'one level'} in ${rows} rows; its variance needs at least two levels, or a prior.`,
    );
  }
  if (!plain || !intercept) return;
  const terms = correlated ? 1 + slopes.length : 1;
  if (used * terms < rows || (weighted && terms === 1 && slopes.length === 0)) return;
  throw new RangeError(
    terms === 1
      ? `Group ${name} has as many levels as there are rows (${rows}): its variance cannot be told from the residual's. Some level must come twice.`
      : `Group ${name} has ${used} levels of ${terms} terms in ${rows} rows: its variances cannot be told from the residual's. There must be more rows than effects of levels.`,
  );
}
