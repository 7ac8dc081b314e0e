import {
  type Certificate,
  type CertificateKind,
  kindsOfWork,
  type ShopStanding,
  type Work,
  whoMayApprove,
} from '@fairlead/airworthiness';
import { describe, expect, test } from 'vitest';

// Source: 14 CFR, the paragraph named in each row, 15 kinds of work. What is from memory says so.

const on = '2026-03-14';
const certificate = (kind: CertificateKind): Certificate => ({
  kind,
  number: `${kind} 1`,
  validFrom: '2025-04-01',
});
const person = (...kinds: CertificateKind[]) => ({
  id: 'p1',
  name: 'Ida Ros',
  certificates: kinds.map(certificate),
});
const mechanics: ShopStanding = { kind: 'mechanics' };
const station: ShopStanding = {
  kind: 'repair_station',
  certificateNumber: 'QQRS1',
  ratings: ['airframe', 'powerplant', 'propeller', 'radio', 'instrument'],
  inspectors: ['p1'],
};
const both = ['mechanic_airframe', 'mechanic_powerplant'] as const;
const ia = ['inspection_authorization', ...both] as const;
const ownAircraft = {
  kind: 'preventive_maintenance',
  doneBySigner: true,
  ownedOrOperatedBySigner: true,
  usedByCarrier: false,
} as const;
const supervised = {
  kind: 'work_under_supervision',
  supervised: { kind: 'minor_work_airframe' },
  personallyObserved: true,
  readilyAvailable: true,
  requiredInspection: false,
} as const;

type Row = readonly [
  paragraphs: string,
  work: Work,
  may: readonly CertificateKind[],
  mayNot: readonly CertificateKind[],
  shop?: ShopStanding,
];
const table: Row[] = [
  ['43.3(g), 43.7(f)', ownAircraft, ['private_pilot'], ['sport_pilot']],
  [
    '65.81, 65.85, 43.7(b)',
    { kind: 'minor_work_airframe' },
    ['mechanic_airframe'],
    ['mechanic_powerplant'],
  ],
  [
    '65.81, 65.87',
    { kind: 'minor_work_powerplant' },
    ['mechanic_powerplant'],
    ['mechanic_airframe'],
  ],
  ['65.85', { kind: 'hundred_hour_airframe' }, ['mechanic_airframe'], ['mechanic_powerplant']],
  ['65.87', { kind: 'hundred_hour_powerplant' }, ['mechanic_powerplant'], ['mechanic_airframe']],
  ['65.95(a)(2), 91.409(a), 43.7', { kind: 'annual_inspection' }, ia, both],
  ['91.409(d), 65.95', { kind: 'progressive_inspection' }, ia, both],
  ['65.95(a)(1), 43.9(d), part 43 Appendix B', { kind: 'major_work_to_approved_data' }, ia, both],
  ['part 43 Appendix B(b)', { kind: 'major_repair_by_repair_station' }, ['repairman'], [], station],
  [
    '65.81(a)',
    { kind: 'instrument_or_major_propeller_work', item: 'propeller' },
    ['repairman'],
    ['private_pilot'],
    station,
  ],
  [
    '91.411(b)',
    { kind: 'altimeter_or_static_test', extent: 'static_system' },
    ['mechanic_airframe'],
    ['mechanic_powerplant'],
  ],
  ['91.413(c)', { kind: 'transponder_test' }, ['repairman'], ['private_pilot'], station],
  ['43.3(d)', supervised, ['mechanic_airframe'], ['mechanic_powerplant']],
  [
    '145.155, 145.213, 145.219',
    { kind: 'repair_station_work' },
    ['mechanic_airframe'],
    ['private_pilot'],
    station,
  ],
  [
    '43.3(k)',
    { kind: 'database_update_from_flight_deck', fromFlightDeck: true, withoutTools: true },
    ['private_pilot'],
    [],
  ],
];

const rows = table.map(([paragraphs, work, may, mayNot, shop = mechanics]) => ({
  paragraphs,
  work,
  may,
  mayNot,
  shop,
}));

describe('15 kinds of work', () => {
  test('all of them are known, with their paragraphs', () => {
    expect(rows).toHaveLength(15);
    expect(rows.map(({ work }) => work.kind)).toEqual(Object.keys(kindsOfWork));
    for (const { paragraphs, work } of rows) {
      expect(kindsOfWork[work.kind].paragraphs).toBe(`14 CFR ${paragraphs}`);
    }
  });

  test.each(rows)(
    '$paragraphs: who may, and who may not',
    ({ paragraphs, work, may, mayNot, shop }) => {
      expect(whoMayApprove(work, person(...may), shop, on)).toMatchObject({ allowed: true });
      const refused = whoMayApprove(work, person(...mayNot), shop, on);
      expect(refused).toMatchObject({ allowed: false });
      // What is done with supervision, or is no maintenance, is refused by the paragraph of the work that it is then.
      if (!refused.allowed && work.kind !== 'work_under_supervision')
        expect(refused.because).toContain(`14 CFR ${paragraphs}`);
    },
  );

  test.each(rows)('$paragraphs: nobody without a certificate', ({ paragraphs, work }) => {
    const answer = whoMayApprove(work, person(), mechanics, on);
    expect(answer).toMatchObject({ allowed: false });
    const because = answer.allowed ? '' : answer.because;
    // Work under supervision is judged by the paragraph of the work itself.
    expect(because).toContain(
      work.kind === 'work_under_supervision' ? '14 CFR 65.81, 65.85' : `14 CFR ${paragraphs}`,
    );
    expect(because).toContain('Ida Ros cannot approve');
  });
});

const refusal = (
  work: Work,
  kinds: readonly CertificateKind[],
  shop: ShopStanding = mechanics,
  day = on,
) => {
  const answer = whoMayApprove(work, person(...kinds), shop, day);
  return answer.allowed ? `allowed as ${answer.as}` : answer.because;
};

describe('what a row turns on', () => {
  test('43.3(g), 43.7(f): own aircraft, own work, no carrier', () => {
    const pilot = ['private_pilot'] as const;
    expect(refusal({ ...ownAircraft, usedByCarrier: true }, pilot)).toContain('121, 129 or 135');
    expect(refusal({ ...ownAircraft, doneBySigner: false }, pilot)).toContain('did themselves');
    expect(refusal({ ...ownAircraft, ownedOrOperatedBySigner: false }, pilot)).toContain(
      'own or operate',
    );
    expect(refusal({ ...ownAircraft, usedByCarrier: true }, ['mechanic_airframe'])).toContain(
      'allowed',
    );
  });

  test('65.95(a): an inspection authorization, for annuals and major work; a mechanic is told so', () => {
    expect(refusal({ kind: 'annual_inspection' }, both)).toBe(
      "Ida Ros cannot approve this annual inspection on 2026-03-14: 14 CFR 65.95(a)(2), 91.409(a), 43.7 asks for the holder of an inspection authorization, a repair station or the manufacturer; they hold no inspection authorization; this shop works under mechanics' certificates and is no repair station",
    );
    expect(refusal({ kind: 'annual_inspection' }, ['inspection_authorization'])).toContain(
      'they hold no mechanic certificate with airframe rating',
    );
    expect(refusal({ kind: 'annual_inspection' }, ia)).toBe(
      'allowed as holder of an inspection authorization, certificate inspection_authorization 1',
    );
  });

  test('65.81(a): no mechanic for instruments or major propeller work, whatever the ratings', () => {
    const work = { kind: 'instrument_or_major_propeller_work', item: 'instrument' } as const;
    expect(refusal(work, ia)).toContain('no repair station');
    const noInstruments: ShopStanding = { ...station, ratings: ['propeller'] };
    expect(refusal(work, both, noInstruments)).toContain('no instrument rating');
  });

  test('91.411(b): a mechanic tests the static system alone', () => {
    const work = { kind: 'altimeter_or_static_test', extent: 'altimeter' } as const;
    expect(refusal(work, both)).toContain('the static system alone, not the altimeter');
    expect(refusal(work, both, station)).toContain('allowed as inspector for the repair station');
  });

  test('91.413(c): no mechanic alone for the transponder', () => {
    expect(refusal({ kind: 'transponder_test' }, ia)).toContain('no repair station');
  });

  test('43.3(d): watched, at hand, and no required inspection', () => {
    const airframe = ['mechanic_airframe'] as const;
    expect(refusal({ ...supervised, personallyObserved: false }, airframe)).toContain(
      'did not watch',
    );
    expect(refusal({ ...supervised, readilyAvailable: false }, airframe)).toContain(
      'at hand in person',
    );
    expect(refusal({ ...supervised, requiredInspection: true }, airframe)).toContain('43.3(d)');
    const inspection = { ...supervised, supervised: { kind: 'annual_inspection' } } as const;
    expect(refusal(inspection, ia)).toContain('supervision does not cover a required inspection');
  });

  test('145.155, 145.213: on the roster and certificated under part 65', () => {
    const work = { kind: 'repair_station_work' } as const;
    expect(refusal(work, both, { ...station, inspectors: [] })).toContain('roster of inspectors');
    expect(refusal(work, [], station)).toContain('part 65');
  });

  test('43.3(k): with tools it is maintenance', () => {
    const work = { kind: 'database_update_from_flight_deck', fromFlightDeck: true } as const;
    expect(refusal({ ...work, withoutTools: false }, ['private_pilot'])).toContain(
      'it is maintenance',
    );
  });
});

describe('dates', () => {
  test('an inspection authorization ends on 31 March of odd years (65.92, from memory)', () => {
    const annual = { kind: 'annual_inspection' } as const;
    expect(refusal(annual, ia, mechanics, '2027-03-31')).toContain('allowed');
    expect(refusal(annual, ia, mechanics, '2027-04-01')).toContain('was good through 2027-03-31');
  });

  test("a mechanic's certificate does not lapse (from memory)", () => {
    expect(refusal({ kind: 'hundred_hour_airframe' }, both, mechanics, '2099-01-01')).toContain(
      'allowed',
    );
  });

  test('lapsed yesterday, good only from tomorrow, or a day that does not exist', () => {
    const signer = (more: Partial<Certificate>) => ({
      ...person(),
      certificates: [{ ...certificate('mechanic_airframe'), ...more }],
    });
    const ask = (more: Partial<Certificate>) =>
      whoMayApprove({ kind: 'hundred_hour_airframe' }, signer(more), mechanics, on);
    expect(ask({ validUntil: on })).toMatchObject({ allowed: true });
    expect(ask({ validUntil: '2026-03-13' })).toMatchObject({
      allowed: false,
      because: expect.stringContaining('was good through 2026-03-13'),
    });
    expect(ask({ validFrom: '2026-03-15' })).toMatchObject({
      because: expect.stringContaining('good only from 2026-03-15'),
    });
    expect(() => refusal({ kind: 'transponder_test' }, [], mechanics, '2026-02-29')).toThrow(
      RangeError,
    );
  });
});
