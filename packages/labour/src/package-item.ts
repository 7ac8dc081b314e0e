import type { Predictive } from './student.ts';

/** A part of an item's uncertainty that others have in common, as an s.d. of ln hours. */
export type SharedUncertainty = { readonly component: string; readonly loading: number };

/** What the sum needs to know of an item; an estimate is one. */
export type PackageItem = {
  readonly predictive: Predictive;
  readonly mean: number;
  readonly p80: number;
  readonly shared?: readonly SharedUncertainty[] | undefined;
  /** What it takes for the item to be needed at all; undefined: it is. Items of one event come together. */
  readonly event?: PackageEvent | undefined;
};

/** Something that may turn up, with its probability, 0 to 1. */
export type PackageEvent = { readonly name: string; readonly probability: number };

export type SimulationOptions = {
  /** A whole number from 0 to 2⁵³ − 1; the same seed gives the same digits. */
  readonly seed: number;
  /** Sums drawn, 1 to 1,000,000. */
  readonly draws?: number | undefined;
};
