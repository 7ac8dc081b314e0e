import type { AircraftKind, InspectionKind } from '../../graphql/generated/graphql.ts';
import type { ModelChoice } from './catalogue-documents.ts';

export const inspectionWords: Record<InspectionKind, string> = {
  hundred_hour: '100-hour inspection',
  annual: 'Annual inspection',
};

export const aircraftKindWords: Record<AircraftKind, string> = {
  helicopter_two_seat: 'two-seat helicopters',
  helicopter_four_seat: 'four-seat helicopters',
  airplane_single: 'single-engine airplanes',
  airplane_twin: 'twin-engine airplanes',
};

const kinds = Object.keys(aircraftKindWords) as AircraftKind[];
const isOf = (kind: AircraftKind, aircraft: string) => kind.startsWith(aircraft);

/** For whom a package can be: kinds and models, as the value of one field. */
export const soldForOptions = (
  models: readonly ModelChoice[],
  aircraft = '',
): { value: string; words: string }[] => [
  ...kinds
    .filter((kind) => isOf(kind, aircraft))
    .map((kind) => ({ value: `kind ${kind}`, words: `all ${aircraftKindWords[kind]}` })),
  ...models
    .filter(({ kind }) => isOf(kind, aircraft))
    .map(({ id, maker, name }) => ({ value: `model ${id}`, words: `${maker} ${name}` })),
];

/**
 * What a field of `soldForOptions` stands for.
 *
 * @example soldFor('kind airplane_single') // → { modelKind: 'airplane_single', modelId: null }
 */
export function soldFor(value: string): { modelKind: AircraftKind | null; modelId: string | null } {
  const [what = '', ...rest] = value.split(' ');
  const key = rest.join(' ');
  return {
    modelKind: what === 'kind' ? (key as AircraftKind) : null,
    modelId: what === 'model' ? key : null,
  };
}

/** Moves one of a list by one place; where there is none the list stays as it is. */
export function moved<Each>(list: readonly Each[], from: number, by: 1 | -1): Each[] {
  const to = from + by;
  const [one, other] = [list[from], list[to]];
  if (one === undefined || other === undefined) return [...list];
  return list.map((each, index) => (index === from ? other : index === to ? one : each));
}
