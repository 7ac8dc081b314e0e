import type { AccessLoading } from './access.ts';

/** A part of an estimate's uncertainty that other estimates have in common, as an s.d. of ln hours. */
export type SharedUncertainty = { readonly component: string; readonly loading: number };

/**
 * What the access priors still leave open: the increments of the place asked for, less the part
 * that the task's own jobs have already shown. A task done often in the same place owes them nothing.
 */
export function accessDoubt(
  asked: readonly AccessLoading[],
  past: readonly (readonly AccessLoading[])[],
  kappa: number,
): SharedUncertainty[] {
  const loadings = new Map<string, { steps: number; shown: number; sd: number }>();
  for (const { increment, steps, sd } of asked) loadings.set(increment, { steps, shown: 0, sd });
  for (const { increment, steps, sd } of past.flat()) {
    const sofar = loadings.get(increment) ?? { steps: 0, shown: 0, sd };
    loadings.set(increment, { ...sofar, shown: sofar.shown + steps });
  }
  return [...loadings]
    .map(([increment, { steps, shown, sd }]) => ({
      component: `access:${increment}`,
      loading: (steps - shown / kappa) * sd,
    }))
    .filter(({ loading }) => loading !== 0)
    .sort((a, b) => (a.component < b.component ? -1 : 1));
}
