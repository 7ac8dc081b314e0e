import type {
  LeakCheckKind,
  LeakFluid,
  OpenKind,
  OpenLineEventKind,
  TorqueUnit,
} from '../../graphql/generated/graphql.ts';

/** What ends a line of its kind, on the button and in the past. */
export const closing: Record<OpenKind, { press: string; done: string; open: string }> = {
  opened: { press: 'Closed', done: 'closed', open: 'opened' },
  removed: { press: 'Refitted', done: 'refitted', open: 'removed' },
};

/** What became of a line, in the past. */
export function markWords(kind: OpenLineEventKind, of: OpenKind): string {
  if (kind === 'closed') return closing[of].done;
  return kind === 'reopened' ? 'open again' : 'struck out';
}

/** Words for what is opened and removed most, so that a glove need not type. */
export const quickWords: Record<OpenKind, readonly string[]> = {
  opened: [
    'Upper cowling',
    'Lower cowling',
    'Belly panel',
    'Inspection plate',
    'Fairing',
    'Tailcone access door',
    'Cabin floor panel',
  ],
  removed: [
    'Spark plugs',
    'Magneto',
    'Exhaust stack',
    'Air filter',
    'Wheel',
    'Seat',
    'Drive belt guard',
  ],
};

export const leakKindWords: Record<LeakCheckKind, string> = {
  after_standing: 'After standing',
  after_run_up: 'After the run-up',
};

export const fluidOptions = [
  { value: 'fuel', words: 'Fuel' },
  { value: 'oil', words: 'Oil' },
  { value: 'hydraulic', words: 'Hydraulic fluid' },
  { value: 'other', words: 'Something else, or not known' },
] as const satisfies readonly { value: LeakFluid; words: string }[];

export const fuelLeakWords = {
  stain: 'a stain',
  seep: 'a seep',
  heavy_seep: 'a heavy seep',
  running_leak: 'a running leak: not before flight',
} as const;

export const unitOptions = [
  { value: 'in_lb', words: 'in-lb' },
  { value: 'ft_lb', words: 'ft-lb' },
  { value: 'n_m', words: 'N·m' },
] as const satisfies readonly { value: TorqueUnit; words: string }[];

export const unitWords = (unit: TorqueUnit): string =>
  unitOptions.find(({ value }) => value === unit)?.words ?? unit;
