import { checkModel } from './check.ts';
import { Criterion, type Point } from './criterion.ts';
import { type FittedGroup, INTERCEPT, type MixedFit, type MixedModel } from './model.ts';
import { minimise } from './optimise.ts';
import { fixedWayBack, groupWayBack, lnUnits, type Scaled, scaledModel } from './scaled.ts';
import { smallInverse } from './small-cholesky.ts';

export * from './model.ts';

/** Where to begin: each term's standard deviation as large as the residual's, in the scale of its covariate. */
function startOf(criterion: Criterion, startAt: readonly number[] | undefined): Float64Array {
  const { design, groups } = criterion.problem;
  return Float64Array.from(criterion.parameters, ({ group, row, column }) => {
    if (row !== column) return 0;
    const { firstNode, levels, terms } = groups[group]!;
    if (terms === 1 && startAt?.[group] !== undefined) return startAt[group];
    let square = 0;
    let entries = 0;
    for (let e = 0; e < design.node.length; e += 1) {
      const node = design.node[e]!;
      if (node < firstNode || node >= firstNode + levels) continue;
      square += design.coefficients[design.coefficientOf[e]! + row]! ** 2;
      entries += 1;
    }
    return square > 0 ? 1 / Math.sqrt(square / entries) : 1;
  });
}

/** Below this share of what the response varies a residual variance is rounding; below the other it may be. */
const NO_REST = 1e-20;
const HARDLY = 1e-8;

/** What is left must be more than rounding, and the search must have come to its end. */
function mustHaveSettled({ sigma2 }: Point, y: Float64Array, converged: boolean): void {
  const square = y.reduce((sum, value) => sum + value * value, 0) / y.length;
  if (!(sigma2 > (converged ? NO_REST : HARDLY) * square)) {
    throw new RangeError(
      `The fixed effects and groups fit all ${y.length} values of the response without a rest worth the name, so there is no residual variance to estimate. It needs rows that differ though all that the model knows of them is alike.`,
    );
  }
  if (!converged) {
    throw new RangeError(
      `The search for the variances did not settle; it stopped at a residual variance of ${sigma2} where the response varies by ${square}. The rows hold too little to tell these variances apart: leave out a term, or give spreads a prior.`,
    );
  }
}

/** B·C·Bᵀ for square matrices, row-major. */
function congruent(b: Float64Array, c: Float64Array): Float64Array {
  const size = Math.sqrt(b.length);
  const out = new Float64Array(b.length);
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j < size; j += 1) {
      for (let k = 0; k < size; k += 1) {
        if (b[i * size + k] === 0) continue;
        for (let l = 0; l < size; l += 1) {
          out[i * size + j]! += b[i * size + k]! * c[k * size + l]! * b[j * size + l]!;
        }
      }
    }
  }
  return out;
}

/** B·x, for each stretch of x as long as B is wide. */
function carried(b: Float64Array, x: Float64Array): Float64Array {
  const size = Math.sqrt(b.length);
  return x.map((_, at) => {
    const i = at % size;
    let sum = 0;
    for (let k = 0; k < size; k += 1) sum += b[i * size + k]! * x[at - i + k]!;
    return sum;
  });
}

function fittedGroups(model: MixedModel, made: Scaled, criterion: Criterion, point: Point) {
  const factors = criterion.levels.factorsOf(point.theta);
  return model.groups.map((group, index): FittedGroup => {
    const { firstNode, levels, terms } = made.problem.groups[index]!;
    const from = made.problem.design.scalarOf[firstNode]!;
    const factor = factors[index]!;
    const back = groupWayBack(made.groups[index]!);
    const covariance = new Float64Array(terms * terms);
    for (let i = 0; i < terms; i += 1) {
      for (let j = 0; j < terms; j += 1) {
        for (let k = 0; k <= Math.min(i, j); k += 1) {
          covariance[i * terms + j]! +=
            point.sigma2 * factor[i * terms + k]! * factor[j * terms + k]!;
        }
      }
    }
    return {
      name: group.name,
      terms: [
        ...(group.intercept === false ? [] : [INTERCEPT]),
        ...(group.slopes ?? []).map(({ name }) => name),
      ],
      levels: group.levels,
      covariance: congruent(back, covariance),
      effects: carried(back, point.b.slice(from, from + levels * terms)),
    };
  });
}

/**
 * Fits a linear mixed model by REML or ML.
 *
 *     y = Xβ + Zb + ε,  b of each level ~ N(0, σ²ΛΛᵀ),  ε of row r ~ N(0, σ²/w_r)
 *
 * Any number of crossed or nested groups; random intercepts, correlated or independent slopes; rows shared by several
 * members of a group. Fixed effects may have normal priors, standard deviations log-normal ones; with none the fit is
 * the ordinary one of Bates, Mächler, Bolker & Walker (2015, J. Stat. Softw. 67(1)) and agrees with it. The response
 * and covariates are first moved and scaled without rounding where their digits allow, so that leading digits which
 * all values share cost no accuracy.
 *
 * @throws RangeError for numbers that are not finite, fewer rows than effects, a response that does not vary or that the
 *   model fits without a rest, a group with one level or without a repeated one, and (CollinearError) fixed effects that
 *   cannot be told apart
 */
export function fitMixed(model: MixedModel, progress?: (iteration: number) => void): MixedFit {
  checkModel(model);
  const made = scaledModel(model);
  const { y, names } = made.problem;
  const criterion = new Criterion(made.problem);
  const theta = startOf(criterion, model.startAt);
  const lnSigma = Math.log(Math.sqrt(y.reduce((sum, v) => sum + v * v, 0) / y.length) || 1) - 0.5;
  const { point, iterations, evaluations, converged } = minimise(
    criterion,
    { theta, lnSigma },
    progress,
  );
  mustHaveSettled(point, y, converged);

  const p = names.length;
  const back = fixedWayBack(made);
  const inverse = smallInverse(point.sx).map((value) => value * point.sigma2);
  const fixedCovariance = congruent(back, inverse);
  const estimates = carried(back, point.beta);
  if (made.hasIntercept) estimates[0]! += made.shift;
  return {
    rows: y.length,
    fixed: names.map((name, j) => ({
      name,
      estimate: estimates[j]!,
      se: Math.sqrt(fixedCovariance[j * p + j]!),
    })),
    fixedCovariance,
    groups: fittedGroups(model, made, criterion, point),
    residual: point.sigma2,
    criterion: point.value + (model.method === 'reml' ? 2 * lnUnits(made) : 0),
    iterations,
    evaluations,
    relative: criterion.levels.factorsOf(point.theta).map((factor) => factor[0] ?? 0),
  };
}
