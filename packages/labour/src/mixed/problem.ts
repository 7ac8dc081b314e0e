import type { Design } from './design.ts';

/** A grouping factor: its nodes follow each other in the design. */
export type ProblemGroup = {
  readonly firstNode: number;
  readonly levels: number;
  /** Random terms of each level. */
  readonly terms: number;
  /** Whether the terms of a level are correlated. */
  readonly correlated: boolean;
  /** Prior of the standard deviation of its (first) term: ln sd ~ N(mean, sd²). Undefined: flat. */
  readonly spread?: SpreadPrior | undefined;
};

/** ln of a standard deviation ~ N(mean, sd²): keeps it from collapsing or exploding where data are few. */
export type SpreadPrior = { readonly mean: number; readonly sd: number };

/** A normal prior of one fixed effect, in the units of its column. `sd` Infinity: flat. */
export type EffectPrior = { readonly mean: number; readonly sd: number };

/** The numbers of a linear mixed model: y = Xβ + Zb + ε, ε of row r ~ N(0, σ²/w_r). */
export type Problem = {
  readonly y: Float64Array;
  /** Columns of X, in any scale: whoever makes the problem has them centred and scaled. */
  readonly x: readonly Float64Array[];
  readonly names: readonly string[];
  readonly weights?: Float64Array | undefined;
  readonly design: Design;
  readonly groups: readonly ProblemGroup[];
  readonly method: 'reml' | 'ml';
  /** One for each column, or none at all. */
  readonly effects?: readonly EffectPrior[] | undefined;
  /** Prior of the residual standard deviation. */
  readonly residual?: SpreadPrior | undefined;
};

/** One free parameter: an entry of the relative covariance factor Λ of a group. */
export type Parameter = { readonly group: number; readonly row: number; readonly column: number };

/** The free entries of Λ, column by column as in Bates et al. (2015), section 2. */
export function parametersOf(groups: readonly ProblemGroup[]): readonly Parameter[] {
  return groups.flatMap(({ terms, correlated }, group) => {
    const list: Parameter[] = [];
    for (let column = 0; column < terms; column += 1) {
      const last = correlated ? terms : column + 1;
      for (let row = column; row < last; row += 1) list.push({ group, row, column });
    }
    return list;
  });
}
