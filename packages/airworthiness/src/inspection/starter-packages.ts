import { airframeItems } from './appendix-d-airframe.ts';
import { powerItems } from './appendix-d-power.ts';
import {
  type InspectedAircraft,
  type InspectionGroup,
  type InspectionItem,
  inspectionGroups,
} from './inspection-item.ts';

/** Every line of the rule that a piston helicopter or a light airplane can be looked at by. */
export const inspectionItems: readonly InspectionItem[] = [...airframeItems, ...powerItems];

/** What the starter packages were made from. */
export const STARTER_DATA = '14 CFR part 43, appendix D and 43.15(b) and (c)(2)';
/** Civil day on which they were compared with a list of its lines. The rule may have changed since. */
export const STARTER_DATA_ON = '2026-11-25';

/** A line of the rule that a starter package does not ask for, and why. */
export interface LeftOut {
  paragraph: string;
  because: string;
}

/** An inspection to start from: the rule's scope as work with lists, in the order in which it is done. */
export interface StarterPackage {
  key: string;
  title: string;
  inspection: 'hundred_hour' | 'annual';
  aircraft: InspectedAircraft;
  items: readonly InspectionItem[];
  leftOut: readonly LeftOut[];
}

const inspections = { hundred_hour: '100-hour inspection', annual: 'Annual inspection' } as const;
const aircraft = { helicopter: 'piston helicopter', airplane: 'light airplane' } as const;
/** Panels first, the run-up last; between them as the rule lists them. */
const order = Object.keys(inspectionGroups) as InspectionGroup[];

const notOn: Record<InspectedAircraft, string> = {
  helicopter: 'A helicopter has none.',
  airplane: 'It is for rotorcraft.',
};

/**
 * The package of an inspection for a kind of aircraft. The rule's scope is the same for an annual and a 100-hour
 * inspection; who may approve it is not (14 CFR 43.7, 65.85, 65.95). How each line is done is the maker's to say.
 *
 * Source: 14 CFR part 43 appendix D ("where applicable") and 43.15(b), (c).
 *
 * @example starterPackage('annual', 'airplane').items[0].paragraph // → 'appendix D(a)'
 */
export function starterPackage(
  inspection: StarterPackage['inspection'],
  on: InspectedAircraft,
): StarterPackage {
  const applies = ({ only }: InspectionItem) => only === undefined || only === on;
  return {
    key: `${inspection.replace('_', '-')}-${on}`,
    title: `${inspections[inspection]}, ${aircraft[on]}`,
    inspection,
    aircraft: on,
    items: inspectionItems
      .filter(applies)
      .toSorted((one, other) => order.indexOf(one.group) - order.indexOf(other.group)),
    leftOut: [
      {
        paragraph: 'appendix D(b)(3)',
        because: 'Envelope, gas bags and ballast tanks: only what is lighter than air has them.',
      },
      ...inspectionItems
        .filter((item) => !applies(item))
        .map(({ paragraph }) => ({ paragraph, because: notOn[on] })),
    ],
  };
}

export const starterPackages = (): StarterPackage[] =>
  (['helicopter', 'airplane'] as const).flatMap((on) =>
    (['hundred_hour', 'annual'] as const).map((inspection) => starterPackage(inspection, on)),
  );

/**
 * The lines of the rule that no task of an inspection answers.
 *
 * @param answered paragraphs that its tasks say they answer
 * @returns in the rule's order; empty where the scope is whole
 */
export function missingFromInspection(
  answered: Iterable<string>,
  on: InspectedAircraft,
): InspectionItem[] {
  const there = new Set(answered);
  return starterPackage('annual', on).items.filter(({ paragraph }) => !there.has(paragraph));
}

/** How long data may lie before somebody should look whether they still hold: months (common practice, no source). */
export const DATA_OLD_AFTER_MONTHS = 12;
