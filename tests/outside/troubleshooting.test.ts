import { stainSize, stainSizes, suggest, tables } from '@fairlead/diagnosis';
import { describe, expect, test } from 'vitest';

/*
 * Published rows of symptom → probable cause. "read" and "secondary" say how they were read; the sources:
 *   H-32   FAA-H-8083-32 chapter 10, table of troubles, as reproduced at aircraftsystemstech.com (2017/05)
 *   H-32h  FAA-H-8083-32, hoses, as reproduced at aircraftsystemstech.com
 *   H-31   FAA-H-8083-31, classes of fuel leaks, as reproduced at helpiks.su/1-1386.html
 *   H-21   FAA-H-8083-21 (2000), vibrations, as reproduced at bbs.aero.cn
 *   AC     AC 43.13-1B 8-34 b
 *   TA     a trade article on piston engines, 1998 (secondary)
 *   DR     a defect report printed in an aviation-safety magazine, 2011 (secondary)
 *   OL     owners' mailing lists (secondary)
 *   JASC   definition of code 8540; the diagnosis recalled from memory
 *
 * Each published cause must be first, or among the first three, given its symptom alone. Where a symptom has more
 * than three published causes, the check that its remedy names is given too ("told"): without it, eight causes
 * cannot all be among three.
 */
type Seen = Record<string, string>;
type Row = readonly [
  symptom: string,
  cause: string,
  source: string,
  ours: readonly [symptom: string, cause: string],
  seen: Seen,
  told?: Seen,
  aircraft?: 'helicopter' | 'airplane',
];

const start = 'engine fails to start';
const idle = 'engine fails to idle';
const drain = { fluid: 'oil_dark', where: 'pump_drain' };
const slow = { rate: 'low', felt: 'airframe' };

const rows: readonly Row[] = [
  [start, 'lack of fuel', 'H-32', ['no_start', 'lack_of_fuel'], {}],
  [start, 'underpriming / overpriming', 'H-32', ['no_start', 'priming'], {}],
  [start, 'defective spark plugs', 'H-32', ['no_start', 'spark_plugs'], {}],
  [
    start,
    'improper operation of magneto or breaker points',
    'H-32',
    ['no_start', 'magneto'],
    {},
    { check_timing: 'out' },
  ],
  [
    start,
    'water in carburetor',
    'H-32',
    ['no_start', 'water_in_carburettor'],
    {},
    { check_sample: 'water' },
  ],
  [
    start,
    'internal failure',
    'H-32',
    ['no_start', 'internal_failure'],
    {},
    { check_screen: 'metal' },
  ],
  [
    start,
    'magnetized impulse coupling',
    'H-32',
    ['no_start', 'impulse_coupling'],
    {},
    { check_coupling: 'sticks' },
  ],
  [
    start,
    'shorted ignition switch or loose ground',
    'H-32',
    ['no_start', 'ignition_switch'],
    {},
    { check_switch: 'shorted' },
  ],
  [idle, 'incorrect idle speed or mixture', 'H-32', ['idling', 'idle_adjustment'], {}],
  [idle, 'leak in induction system', 'H-32', ['idling', 'induction_leak'], {}],
  [
    idle,
    'low cylinder compression',
    'H-32',
    ['idling', 'low_compression'],
    {},
    { check_compression: 'low' },
  ],
  [idle, 'open or leaking primer', 'H-32', ['idling', 'primer'], {}, { check_primer: 'leaks' }],
  ['low oil pressure', 'debris under relief valve', 'TA', ['oil_pressure', 'relief_valve'], {}],
  [
    'low oil pressure',
    'wrong grade / hot or broken-down oil',
    'TA',
    ['oil_pressure', 'wrong_oil'],
    {},
  ],
  [
    'high oil temp + low pressure (cold)',
    'congealed oil cooler',
    'TA',
    ['oil_pressure', 'congealed_cooler'],
    { temperature: 'high', weather: 'frost' },
  ],
  [
    'oil dripping from fuel-pump drain tube',
    'oil-side (first) diaphragm of dual-diaphragm engine pump leaking',
    'DR',
    ['fluid', 'pump_oil_diaphragm'],
    drain,
  ],
  [
    'fuel at fuel-pump drain or vent',
    'fuel-side diaphragm / shaft seal leaking',
    'OL',
    ['fluid', 'pump_fuel_diaphragm'],
    { fluid: 'fuel_blue', where: 'pump_drain' },
  ],
  [
    'oil level rising, thin, fuel smell',
    'pump diaphragm/seal leaking fuel into crankcase, or drain capped',
    'OL',
    ['oil_level', 'pump_into_case'],
    { looks: 'thin' },
  ],
  [
    'oil at pump-to-case pad',
    'mounting gasket or accessory drive seal',
    'JASC',
    ['fluid', 'pump_pad_gasket'],
    { fluid: 'oil_dark', where: 'pump_pad' },
  ],
  [
    'fuel stain near line or valve',
    'leak at fitting/valve',
    'AC',
    ['fluid', 'fuel_fitting'],
    { fluid: 'fuel_blue', where: 'fuel_line', how_much: 'stain' },
  ],
  // One published row, three causes: each among the first three.
  [
    'low-frequency vibration felt in controls/airframe',
    'main rotor out of track or balance',
    'H-21',
    ['vibration', 'rotor_track'],
    slow,
    {},
    'helicopter',
  ],
  [
    'low-frequency vibration felt in controls/airframe',
    'damaged blade',
    'H-21',
    ['vibration', 'blade_damaged'],
    slow,
    {},
    'helicopter',
  ],
  [
    'low-frequency vibration felt in controls/airframe',
    'worn bearing, damper',
    'H-21',
    ['vibration', 'rotor_head'],
    slow,
    {},
    'helicopter',
  ],
  // One published row, four causes and more: told what the row says of telling them apart.
  [
    'medium vibration',
    'tail rotor',
    'H-21',
    ['vibration', 'tail_rotor'],
    { rate: 'medium' },
    { felt: 'pedals' },
    'helicopter',
  ],
  [
    'medium vibration',
    'drive train: transmissions, shafts, bearings, pulleys, belts',
    'H-21',
    ['vibration', 'drive_train'],
    { rate: 'medium' },
    { check_drive: 'drive' },
    'helicopter',
  ],
  [
    'high vibration',
    'cooling fan',
    'H-21',
    ['vibration', 'cooling_fan'],
    { rate: 'high' },
    { check_drive: 'fan' },
    'helicopter',
  ],
  [
    'high vibration',
    'engine',
    'H-21',
    ['vibration', 'plugs_fouled'],
    { rate: 'high' },
    { felt: 'engine' },
    'helicopter',
  ],
  // One published row, four causes; its remedy is "ignition/mixture checks".
  [
    'piston-engine high-frequency vibration',
    'spark plug fouling',
    'H-21',
    ['vibration', 'plugs_fouled'],
    { rate: 'high', felt: 'engine' },
    { check_magnetos: 'one_rough' },
  ],
  [
    'piston-engine high-frequency vibration',
    'magneto timing',
    'H-21',
    ['vibration', 'magneto_timing'],
    { rate: 'high', felt: 'engine' },
    { check_magnetos: 'both_far' },
  ],
  [
    'piston-engine high-frequency vibration',
    'carburetor icing',
    'H-21',
    ['vibration', 'carburettor_ice'],
    { rate: 'high', felt: 'engine' },
    { check_heat: 'clears' },
  ],
  [
    'piston-engine high-frequency vibration',
    'mixture',
    'H-21',
    ['vibration', 'mixture'],
    { rate: 'high', felt: 'engine' },
    { check_mixture: 'changes' },
  ],
  [
    'hose blister emits fluid when pricked',
    'cover failure through to core',
    'H-32h',
    ['hose', 'core'],
    { looks: 'blister', check_prick: 'fluid' },
  ],
  [
    'hose blister emits only air when pricked',
    'cover only; pressure test to 1.5 × working pressure',
    'H-32h',
    ['hose', 'cover_only'],
    { looks: 'blister', check_prick: 'air' },
  ],
];

const cases = rows.map(([symptom, cause, source, ours, seen, told = {}, aircraft]) => ({
  symptom,
  cause,
  source,
  ours,
  seen,
  told,
  aircraft,
}));

const ranked = (symptom: string, seen: Seen, aircraft?: 'helicopter' | 'airplane') =>
  suggest(tables, { symptom, seen, aircraft }).causes.map(({ id }) => id);

describe('published symptoms rank their published cause among the first three', () => {
  test.each(cases)(
    '$symptom: $cause ($source)',
    ({ ours: [symptom, cause], seen, told, aircraft }) => {
      expect(ranked(symptom, { ...seen, ...told }, aircraft).slice(0, 3)).toContain(cause);
    },
  );

  test('told what its remedy names, each of them is first', () => {
    const checked = cases.filter(({ told }) =>
      Object.keys(told).some((id) => id.startsWith('check_')),
    );
    expect(checked.length).toBeGreaterThan(10);
    for (const { ours, seen, told, aircraft } of checked)
      expect(ranked(ours[0], { ...seen, ...told }, aircraft)[0]).toBe(ours[1]);
  });

  test('a hose from which only air comes is to be pressure tested at one and a half times', () => {
    const { causes } = suggest(tables, {
      symptom: 'hose',
      seen: { looks: 'blister', check_prick: 'air' },
    });
    expect(causes[0]?.remedy).toContain('one and a half times the working pressure');
  });
});

// H-31: area wetted in 30 minutes; on a limit, the larger class (our reading).
describe('sizes of fuel leaks', () => {
  test.each([
    [0.25, false, 'stain'],
    [0.74, false, 'stain'],
    [0.75, false, 'seep'],
    [1.49, false, 'seep'],
    [1.5, false, 'heavy_seep'],
    [4, false, 'heavy_seep'],
    [4.1, false, 'running_leak'],
    [0.1, true, 'running_leak'],
  ])('%s in, drips %s: %s', (inches, drips, size) => {
    expect(stainSize(inches, drips).class).toBe(size);
  });

  test('a running leak is repaired before flight; the cause of any stain is corrected', () => {
    expect(stainSize(0, true).meaning).toBe('Repair it before flight.');
    for (const inches of [0.5, 1, 2])
      expect(stainSize(inches, false).meaning).toContain('correct the cause of any fuel stain');
  });

  test('the answers to "How much?" are these classes, and a fuel leak is told what its size asks for, whatever its cause', () => {
    const asked = tables.symptoms[0]?.questions.find(({ id }) => id === 'how_much');
    expect(asked?.answers.map(({ id }) => id)).toEqual(Object.keys(stainSizes));
    const told = (seen: Seen) => suggest(tables, { symptom: 'fluid', seen }).leak;
    expect(told({ fluid: 'fuel_undyed', how_much: 'running_leak' })).toBe(
      'Running leak of fuel. Repair it before flight.',
    );
    expect(told({ fluid: 'fuel_blue', how_much: 'stain' })).toContain('Stain of fuel.');
    expect(told({ fluid: 'oil_dark', how_much: 'running_leak' })).toBeNull();
    expect(told({ fluid: 'fuel_blue' })).toBeNull();
  });

  test('a size that cannot be is refused', () => {
    expect(() => stainSize(-1, false)).toThrow('A stain is -1 inches across; needed is 0 or more.');
    expect(() => stainSize(Number.NaN, false)).toThrow(RangeError);
  });
});

// Common practice, no source.
describe('what a mechanic would say', () => {
  const morning = {
    fluid: 'oil_clean',
    where: 'pump_drain',
    work: 'oil',
    run: 'no',
    when: 'standing',
  };

  test("clean oil the morning after an oil change, engine not run, at the fuel pump's drain: the pump before spilled oil and a loose filter", () => {
    const suggestion = suggest(tables, { symptom: 'fluid', seen: morning, aircraft: 'helicopter' });
    const order = suggestion.causes.map(({ id }) => id);
    expect(order[0]).toBe('pump_oil_diaphragm');
    expect(order.indexOf('pump_oil_diaphragm')).toBeLessThan(order.indexOf('spilled_oil'));
    expect(order.indexOf('pump_oil_diaphragm')).toBeLessThan(order.indexOf('loose_filter'));
    expect(suggestion.causes[0]?.work?.jasc).toBe('7314');
    expect(suggestion.causes[0]?.reasons[0]?.sentence).toContain(
      'It collects at the drain of the engine-driven fuel pump',
    );
  });

  test('the same oil only on the floor: spilled first, and wiping it dry tells for little time', () => {
    const suggestion = suggest(tables, {
      symptom: 'fluid',
      seen: { ...morning, where: 'floor_engine' },
      aircraft: 'helicopter',
    });
    expect(suggestion.causes[0]).toMatchObject({ id: 'spilled_oil', kind: 'normal', work: null });
    expect(
      suggestion.next
        .filter(({ kind }) => kind === 'check')
        .slice(0, 4)
        .map(({ question }) => question),
    ).toContain('check_wiped');
  });

  test('the same oil at the filter after a run: the filter before spilled oil', () => {
    const order = ranked(
      'fluid',
      { ...morning, where: 'filter', run: 'yes', when: 'after_run' },
      'helicopter',
    );
    expect(order[0]).toBe('loose_filter');
  });

  test('the light of the auxiliary pump that comes on when the drive is disengaged is as it should be', () => {
    const suggestion = suggest(tables, {
      symptom: 'light',
      seen: { which: 'auxiliary_pump', when: 'disengaged' },
      aircraft: 'helicopter',
    });
    expect(suggestion.standing).toBe('stands_out');
    expect(suggestion.causes[0]).toMatchObject({ id: 'as_designed', kind: 'normal', work: null });
    expect(suggestion.says).toMatch(/^Most likely nothing is wrong: /);
  });

  test('the same light in flight is believed', () => {
    const [first] = ranked('light', { which: 'auxiliary_pump', when: 'flight' }, 'helicopter');
    expect(first).toBe('true_warning');
  });

  test('nothing looked at yet: nothing stands out, and it says so', () => {
    for (const { id } of tables.symptoms)
      expect(suggest(tables, { symptom: id, seen: {} })).toMatchObject({ standing: 'unsure' });
  });

  test('what fits nothing listed is something else', () => {
    const suggestion = suggest(tables, {
      symptom: 'fluid',
      aircraft: 'airplane',
      seen: {
        fluid: 'grease',
        where: 'tank',
        when: 'running',
        run: 'yes',
        how_much: 'running_leak',
      },
    });
    expect(suggestion.standing).toBe('unsure');
    expect(suggestion.causes[0]?.kind).toBe('something_else');
  });
});

// FAA, Joint Aircraft System/Component Code Table and Definitions, 2008: the codes used, with their titles. "RECEIPROCATING"
// in 7322 is spelled as in the table as we hold it.
const jascTitles: Record<string, string> = {
  1220: 'OIL SERVICING',
  2432: 'BATTERY/CHARGER SYSTEM',
  2810: 'FUEL STORAGE',
  2820: 'ACFT FUEL DISTRIB. SYSTEM',
  2821: 'ACFT FUEL FILTER/STRAINER',
  2910: 'HYDRAULIC SYSTEM, MAIN',
  3150: 'CENTRAL WARNING',
  3197: 'INSTRUMENT SYSTEM WIRING',
  3222: 'NOSE/TAIL LANDING GEAR STRUT/AXLE',
  3242: 'BRAKE',
  5300: 'FUSELAGE STRUCTURE (GENERAL)',
  6110: 'PROPELLER ASSEMBLY',
  6114: 'PROPELLER HUB SECTION',
  6200: 'MAIN ROTOR SYSTEM',
  6210: 'MAIN ROTOR BLADES',
  6220: 'MAIN ROTOR HEAD',
  6310: 'ENGINE/TRANSMISSION COUPLING',
  6320: 'MAIN ROTOR GEARBOX',
  6322: 'ROTORCRAFT COOLING FAN SYSTEM',
  6410: 'TAIL ROTOR BLADES',
  6520: 'TAIL ROTOR GEARBOX',
  7120: 'ENGINE MOUNT SECTION',
  7160: 'ENGINE AIR INTAKE SYSTEM',
  7310: 'ENGINE FUEL DISTRIBUTION',
  7314: 'ENGINE FUEL PUMP',
  7322: 'FUEL CONTROL/RECEIPROCATING ENGINES',
  7414: 'MAGNETO/DISTRIBUTOR',
  7421: 'SPARK PLUG/IGNITER',
  7430: 'IGNITION/STARTER SWITCHING',
  7810: 'ENGINE COLLECTOR/TAILPIPE/NOZZLE',
  7920: 'ENGINE OIL DISTRIBUTION (AIRFRAME)',
  7921: 'ENGINE OIL COOLER',
  7931: 'ENGINE OIL PRESSURE',
  8510: 'RECIPROCATING ENGINE FRONT SECTION',
  8520: 'RECIPROCATING ENGINE POWER SECTION',
  8530: 'RECIPROCATING ENGINE CYLINDER SECTION',
  8540: 'RECIPROCATING ENGINE REAR SECTION',
  8550: 'RECIPROCATING ENGINE OIL SYSTEM',
};

test('every cause that is a fault leads to work under a code of the JASC table', () => {
  const used = tables.symptoms.flatMap(({ causes }) =>
    causes.flatMap(({ work }) => work?.jasc ?? []),
  );
  expect([...new Set(used)].toSorted()).toEqual(Object.keys(jascTitles).toSorted());
});
