import type { Cause } from '../symptom.ts';

/** The cause that every list ends with: none of those above it. It looks like anything, as is usual. */
export const somethingElse = (weight: number): Cause => ({
  id: 'something_else',
  name: 'Something else',
  kind: 'something_else',
  weight,
  why: 'No list is complete. What is seen may come from something that is not on it.',
  source: 'practice',
  remedy: "Follow the fault finding of the maker's manual.",
  work: null,
  rows: [],
});
