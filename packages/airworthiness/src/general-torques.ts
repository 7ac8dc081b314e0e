/**
 * Torques for where the maker gives none, in inch-pounds. Source: AC 43.13-1B (9/8/98), table 7-1, for oil-free,
 * cadmium-plated steel nuts. Tension: MS20365 and AN310 (installation at 40,000 psi in the bolt, most at
 * 90,000). Shear: MS20364 and AN320 (24,000 psi, most at 54,000).
 */
export interface GeneralTorque {
  /** As it is written on the drawing: 1/4-28. */
  readonly thread: string;
  readonly series: 'fine' | 'coarse';
  readonly nut: NutKind;
  /** Recommended for installation, friction drag not included. */
  readonly from: number;
  readonly to: number;
  /** Never tightened beyond, friction drag not included. */
  readonly most: number;
  /** Marked in the table as an estimated corresponding value. */
  readonly estimated: boolean;
}

export type NutKind = 'tension' | 'shear';

// Thread, tension from and to, shear from and to, tension most, shear most; * as in the table.
const fine = `
8-36      12 15       7 9         20 12
10-32     20 25       12 15       40 25
1/4-28    50 70       30 40       100 60
5/16-24   100 140     60 85       225 140
3/8-24    160 190     95 110      390 240
7/16-20   450 500     270 300     840 500
1/2-20    480 690     290 410     1100 660
9/16-18   800 1000    480 600     1600 960
5/8-18    1100 1300   600 780     2400 1400
3/4-16    2300 2500   1300 1500   5000 3000
7/8-14    2500 3000   1500 1800   7000 4200
1-14      3700 5500   2200 3300*  10000 6000
1-1/8-12  5000 7000   3000 4200*  15000 9000
1-1/4-12  9000 11000  5400 6600*  25000 15000`;
const coarse = `
8-32      12 15       7 9         20 12
10-24     20 25       12 15       35 21
1/4-20    40 50       25 30       75 45
5/16-18   80 90       48 55       160 100
3/8-16    160 185     95 100      275 170
7/16-14   235 255     140 155     475 280
1/2-13    400 480     240 290     880 520
9/16-12   500 700     300 420     1100 650
5/8-11    700 900     420 540     1500 900
3/4-10    1150 1600   700 950     2500 1500
7/8-9     2200 3000   1300 1800   4600 2700`;

function read(series: GeneralTorque['series'], table: string): GeneralTorque[] {
  return table
    .trim()
    .split('\n')
    .flatMap((row): GeneralTorque[] => {
      const [thread = '', ...figures] = row.split(/\s+/);
      const [from, to, shearFrom, shearTo, most, shearMost] = figures.map(Number.parseFloat) as [
        number,
        number,
        number,
        number,
        number,
        number,
      ];
      const estimated = row.includes('*');
      return [
        { thread, series, nut: 'tension', from, to, most, estimated: false },
        { thread, series, nut: 'shear', from: shearFrom, to: shearTo, most: shearMost, estimated },
      ];
    });
}

/** Every row of the table, tension before shear, in its order. */
export const generalTorques: readonly GeneralTorque[] = [
  ...read('fine', fine),
  ...read('coarse', coarse),
];

/** What stands above and below the table, and who it is for. */
export const generalTorqueCautions: readonly string[] = [
  'Only where the maker gives none: the maker’s own torque governs.',
  'For oil-free, cadmium-plated threads of steel (AC 43.13-1B, table 7-1). Friction drag is added to these.',
  'Never over- or under-torque to align a hole: change the washer or the nut.',
];

/**
 * The general torque of a thread and kind of nut, inch-pounds.
 *
 * @param thread as the table writes it; blanks do not count.
 * @returns undefined where the table has no such thread: then there is no general torque for it.
 * @example generalTorque('1/4-28', 'tension')?.to // → 70
 */
export function generalTorque(thread: string, nut: NutKind): GeneralTorque | undefined {
  const wanted = thread.replace(/\s+/g, '');
  return generalTorques.find((row) => row.thread === wanted && row.nut === nut);
}

/** How fasteners are locked by wire. Twists an inch: seen as quoted by others. Turns of the pigtail: from memory. */
export const safetyWire = {
  twistsAnInch: { least: 6, most: 8 },
  pigtailTurns: { least: 3, most: 6 },
} as const;
