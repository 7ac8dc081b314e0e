/** The demo shop's files: complete, and pointing only at what exists. What they come to: demo/load.test.ts. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readDemo } from '../../prisma/demo/data.ts';
import { historyCsv } from '../../prisma/demo/generate-history.ts';

/**
 * The codes used and their titles: FAA, Joint Aircraft System/Component Code Table and Definitions,
 * 2008. "RECEIPROCATING" in 7322 is spelled as in the table as we hold it.
 */
const jascTitles: Record<string, string> = {
  2140: 'HEATING SYSTEM',
  2432: 'BATTERY/CHARGER SYSTEM',
  2434: 'DC GENERATOR-ALTERNATOR',
  2510: 'FLIGHT COMPARTMENT EQUIPMENT',
  2562: 'EMERGENCY LOCATOR BEACON',
  2700: 'FLIGHT CONTROL SYSTEM',
  2821: 'ACFT FUEL FILTER/STRAINER',
  2822: 'FUEL BOOST PUMP',
  3210: 'MAIN LANDING GEAR',
  3222: 'NOSE/TAIL LANDING GEAR STRUT/AXLE',
  3230: 'LANDING GEAR RETRACT/EXTEND SYSTEM',
  3242: 'BRAKE',
  3244: 'TIRE',
  3246: 'WHEEL/SKI/FLOAT',
  5700: 'WING STRUCTURE',
  6110: 'PROPELLER ASSEMBLY',
  6200: 'MAIN ROTOR SYSTEM',
  6210: 'MAIN ROTOR BLADES',
  6220: 'MAIN ROTOR HEAD',
  6230: 'MAIN ROTOR MAST/SWASHPLATE',
  6310: 'ENGINE/TRANSMISSION COUPLING',
  6320: 'MAIN ROTOR GEARBOX',
  6322: 'ROTORCRAFT COOLING FAN SYSTEM',
  6410: 'TAIL ROTOR BLADES',
  6510: 'TAIL ROTOR DRIVE SHAFT',
  6520: 'TAIL ROTOR GEARBOX',
  6710: 'MAIN ROTOR CONTROL',
  6720: 'TAIL ROTOR CONTROL SYSTEM',
  7100: 'POWERPLANT SYSTEM',
  7110: 'ENGINE COWLING SYSTEM',
  7120: 'ENGINE MOUNT SECTION',
  7160: 'ENGINE AIR INTAKE SYSTEM',
  7310: 'ENGINE FUEL DISTRIBUTION',
  7313: 'FUEL INJECTOR NOZZLE',
  7314: 'ENGINE FUEL PUMP',
  7322: 'FUEL CONTROL/RECEIPROCATING ENGINES',
  7414: 'MAGNETO/DISTRIBUTOR',
  7420: 'IGNITION HARNESS (DISTRIBUTION)',
  7421: 'SPARK PLUG/IGNITER',
  7600: 'ENGINE CONTROLS',
  7603: 'POWER LEVER',
  7810: 'ENGINE COLLECTOR/TAILPIPE/NOZZLE',
  7920: 'ENGINE OIL DISTRIBUTION (AIRFRAME)',
  7921: 'ENGINE OIL COOLER',
  8011: 'ENGINE STARTER',
  8530: 'RECIPROCATING ENGINE CYLINDER SECTION',
  8540: 'RECIPROCATING ENGINE REAR SECTION',
  8550: 'RECIPROCATING ENGINE OIL SYSTEM',
};

const demo = new URL('../../prisma/demo/', import.meta.url);
const people = readDemo('people.json');
const { contacts, authorities } = readDemo('contacts.json');
const models = readDemo('models.json');
const aircraft = readDemo('aircraft.json');
const { tasks, cautions, defaultConditions } = readDemo('tasks.json');
const { places } = readDemo('places.json');
const { packages } = readDemo('packages.json');
const { parts, suppliers } = readDemo('parts.json');
const hangar = readDemo('hangar.json');
const { quotes, orders } = readDemo('orders.json');
const history = readFileSync(new URL('history.csv', demo), 'utf8');
const historyRows = history
  .trimEnd()
  .split('\n')
  .slice(1)
  .map((line) => line.split(','));

const keysOf = (list: { key: string }[]): Set<string> => new Set(list.map((item) => item.key));
const personKeys = keysOf(people);
const contactKeys = keysOf(contacts);
const modelKeys = keysOf(models);
const taskKeys = keysOf(tasks);
const partKeys = keysOf(parts);
const standKeys = keysOf(hangar.stands);
const orderKeys = keysOf(orders);
const tails = new Set(aircraft.map((one) => one.registration));
const lots = new Map(parts.flatMap((part) => part.lots.map((lot) => [lot.tag, { part, lot }])));

/** Names in `wanted` that `known` does not hold. */
const unknown = (wanted: Iterable<string | null | undefined>, known: Set<string>): string[] =>
  [...wanted].filter((key): key is string => typeof key === 'string' && !known.has(key));

/** Decimal text with two decimals as cents, exactly. */
const cents = (text: string): bigint => BigInt(text.replace('.', ''));

const findings = orders.flatMap((order) => order.findings);
const offered = [
  ...quotes.flatMap((quote) => quote.revisions),
  ...findings.flatMap((finding) => finding.offered ?? []),
];

describe('what the demo holds', () => {
  test('nine aircraft, six people, sixty tasks, three hundred closed items', () => {
    expect(aircraft).toHaveLength(9);
    expect(people).toHaveLength(6);
    expect(tasks).toHaveLength(60);
    expect(historyRows).toHaveLength(300);
    expect([tails.size, personKeys.size, taskKeys.size]).toEqual([9, 6, 60]);
  });

  test('one inspection is open and one unairworthy finding waits for its owner', () => {
    const waiting = findings.filter((finding) => finding.offered && !finding.decision);
    expect(waiting.map((finding) => [finding.jasc, finding.assessed?.class])).toEqual([
      ['7810', 'unairworthy'],
    ]);
    expect(waiting[0]?.photos.length).toBeGreaterThanOrEqual(1);
    const place = places.find(
      (one) => one.task === 'exhaust-collector-replace' && one.model === 'dipper-2',
    );
    expect(place?.conditions.clearanceMm).toBe(95);
  });

  test('addresses are example domains and registrations are ours', () => {
    for (const { email } of [...people, ...contacts, ...suppliers]) {
      expect(email).toMatch(/^[a-z.]+@[a-z]+\.example$/);
    }
    for (const tail of tails) expect(tail).toMatch(/^QQ-\d{3}$/);
  });
});

describe('every key resolves', () => {
  test('tasks, places, packages, contacts, hangar, parts', () => {
    expect(
      unknown(
        tasks.flatMap((task) => task.models),
        modelKeys,
      ),
    ).toEqual([]);
    expect(
      unknown(
        tasks.flatMap((task) => task.cautions),
        new Set(Object.keys(cautions)),
      ),
    ).toEqual([]);
    expect(
      unknown(
        aircraft.map((one) => one.model),
        modelKeys,
      ),
    ).toEqual([]);
    expect(
      unknown(
        people.map((person) => person.supervisor),
        personKeys,
      ),
    ).toEqual([]);
    expect(
      unknown(
        contacts.map((contact) => contact.of),
        contactKeys,
      ),
    ).toEqual([]);
    expect(
      unknown(
        authorities.map((one) => one.contact),
        contactKeys,
      ),
    ).toEqual([]);
    expect(
      unknown(
        authorities.map((one) => one.aircraft),
        tails,
      ),
    ).toEqual([]);
    expect(unknown(tails, new Set(authorities.map((one) => one.aircraft)))).toEqual([]);
    for (const { models: on, tasks: list, parts: needed, likelyFindings } of packages) {
      expect(unknown([...list, ...likelyFindings], taskKeys)).toEqual([]);
      expect(
        unknown(
          needed.map((one) => one.part),
          partKeys,
        ),
      ).toEqual([]);
      for (const key of [...list]) {
        expect(unknown(on, new Set(tasks.find((task) => task.key === key)?.models))).toEqual([]);
      }
    }
    for (const place of places) {
      expect(tasks.find((task) => task.key === place.task)?.models).toContain(place.model);
    }
    const supplierNames = new Set(suppliers.map((one) => one.name));
    expect(
      unknown(
        [...lots.values()].map(({ lot }) => lot.supplier),
        supplierNames,
      ),
    ).toEqual([]);
    expect(lots.size).toBe(parts.reduce((sum, part) => sum + part.lots.length, 0));
    const stays = [...hangar.occupancy, ...hangar.plannedOccupancy];
    expect(
      unknown(
        stays.map((stay) => stay.stand),
        standKeys,
      ),
    ).toEqual([]);
    expect(
      unknown(
        stays.map((stay) => stay.aircraft),
        tails,
      ),
    ).toEqual([]);
    expect(
      unknown(
        stays.map((stay) => stay.order),
        orderKeys,
      ),
    ).toEqual([]);
  });

  test('quotes and orders', () => {
    const lines = offered.flatMap((one) => one.lines);
    for (const line of lines) {
      if (line.kind === 'package') expect(keysOf(packages)).toContain(line.package);
      if (line.kind === 'task') expect(taskKeys).toContain(line.task);
      if (line.kind === 'part') expect(partKeys).toContain(line.part);
    }
    expect(
      unknown(
        quotes.map((quote) => quote.aircraft),
        tails,
      ),
    ).toEqual([]);
    expect(
      unknown(
        orders.map((order) => order.quote),
        keysOf(quotes),
      ),
    ).toEqual([]);
    expect(
      unknown(
        orders.map((order) => order.package),
        keysOf(packages),
      ),
    ).toEqual([]);
    for (const order of orders) {
      const items = keysOf(order.items);
      expect(items.size).toBe(order.items.length);
      expect(
        unknown(
          order.items.map((item) => item.task),
          taskKeys,
        ),
      ).toEqual([]);
      expect(
        unknown(
          order.items.map((item) => item.finding),
          keysOf(order.findings),
        ),
      ).toEqual([]);
      expect(
        unknown(
          order.stretches.map((stretch) => stretch.item),
          items,
        ),
      ).toEqual([]);
      expect(
        unknown(
          order.findings.map((one) => one.foundDuring),
          items,
        ),
      ).toEqual([]);
      expect(
        unknown(
          order.partsUsed.map((used) => used.item),
          items,
        ),
      ).toEqual([]);
      const squawks = keysOf(order.arrival?.squawks ?? []);
      expect(
        unknown(
          order.findings.map((one) => one.squawk),
          squawks,
        ),
      ).toEqual([]);
      expect(
        unknown(
          order.findings.map((one) => one.task),
          taskKeys,
        ),
      ).toEqual([]);
      const staff = [
        order.arrival?.receivedBy,
        order.release?.by,
        order.invoice?.by,
        ...order.stretches.map((stretch) => stretch.person),
        ...order.items.flatMap((item) => [item.done?.by, item.inspected?.by]),
        ...order.findings.flatMap((one) => [one.noted.by, one.assessed?.by, one.offered?.by]),
      ];
      expect(unknown(staff, personKeys)).toEqual([]);
      const outside = [
        order.arrival?.handedOverBy,
        ...order.findings.flatMap((one) => [one.offered?.to, one.decision?.by]),
      ];
      expect(unknown(outside, contactKeys)).toEqual([]);
    }
  });

  test('history: task, code, standard, model, registration and people are those of the files', () => {
    for (const [, task, jasc, standard, model, tail, crew] of historyRows) {
      const known = tasks.find((one) => one.key === task);
      expect([known?.jasc, known?.standardHours]).toEqual([jasc, standard]);
      const kind = models.find((one) => `${one.maker} ${one.name}` === model)?.key;
      expect(known?.models).toContain(kind);
      expect(aircraft.find((one) => one.registration === tail)?.model).toBe(kind);
      const shares = (crew ?? '').split(';').map((part) => part.split(':'));
      expect(
        unknown(
          shares.map(([person]) => person),
          new Set(people.map((one) => one.name)),
        ),
      ).toEqual([]);
      const sum = shares.reduce((total, [, share]) => total + Number(share ?? 1), 0);
      expect(sum).toBeCloseTo(1, 12);
    }
  });
});

describe('what the trade would object to', () => {
  test('every JASC code is one of the table, with its title typed here', () => {
    const used = [...tasks, ...findings].map((one) => one.jasc);
    expect([...new Set(used)].filter((code) => !(code in jascTitles))).toEqual([]);
    expect(Object.keys(jascTitles).filter((code) => !used.includes(code))).toEqual([]);
  });

  test('standard hours between 0.3 and 12, in tenths; access conditions within what can be', () => {
    for (const { standardHours, statedFor } of tasks) {
      expect(standardHours).toMatch(/^\d+\.\d$/);
      expect(Number(standardHours)).toBeGreaterThanOrEqual(0.3);
      expect(Number(standardHours)).toBeLessThanOrEqual(12);
      const stated = { ...defaultConditions, ...statedFor };
      expect(stated.clearanceMm).toBeGreaterThanOrEqual(60);
      expect(stated.swingDeg).toBeGreaterThanOrEqual(15);
    }
  });

  test('an apprentice without certificate clocks no inspection (14 CFR 43.3(d)) and signs nothing', () => {
    const learners = new Set(
      people.filter((one) => one.roles.includes('apprentice')).map((one) => one.key),
    );
    const inspects = /-(inspect|check|test)$/;
    for (const order of orders) {
      expect(learners.has(order.release?.by ?? '')).toBe(false);
      for (const { person, item } of order.stretches) {
        const task = order.items.find((one) => one.key === item)?.task ?? '';
        expect([person, learners.has(person) && inspects.test(task)]).toEqual([person, false]);
      }
    }
    for (const [, task, , , , , crew] of historyRows) {
      if (inspects.test(task ?? '')) expect(crew).not.toMatch(/Jory/);
    }
  });

  test('nobody works on two items at once, and nothing is clocked after the day before the demo', () => {
    const stretches = orders.flatMap((order) => order.stretches);
    for (const { key } of people) {
      const own = stretches
        .filter((one) => one.person === key)
        .map((one) => [`${one.day + 100} ${one.from}`, `${one.day + 100} ${one.to}`] as const)
        .sort(([a], [b]) => (a < b ? -1 : 1));
      own.forEach(([from, to], index) => {
        expect(from < to).toBe(true);
        const next = own[index + 1];
        if (next) expect(to <= next[0]).toBe(true);
      });
    }
    expect(stretches.every((one) => one.day < 0)).toBe(true);
  });

  test('no component is past its life limit, and no lot gives more than it received', () => {
    for (const one of aircraft) {
      for (const { lifeHours, fitted, sinceNewAtFitting } of one.components) {
        const used =
          Number(sinceNewAtFitting) + Number(one.timeInService) - Number(fitted.timeInService);
        expect(used).toBeGreaterThanOrEqual(0);
        expect(used).toBeLessThan(Number(lifeHours ?? Infinity));
      }
      const [meter] = one.meters;
      const derived = Number(meter?.timeInServiceAtZero) + Number(meter?.reading);
      expect(derived).toBeCloseTo(Number(one.timeInService), 9);
    }
    const left = new Map([...lots].map(([tag, { lot }]) => [tag, Number(lot.quantity)]));
    for (const { part, tag, quantity } of orders.flatMap((order) => order.partsUsed)) {
      expect(lots.get(tag)?.part.key).toBe(part);
      left.set(tag, (left.get(tag) ?? 0) - Number(quantity));
    }
    expect([...left.values()].every((quantity) => quantity >= 0)).toBe(true);
  });
});

describe('authority', () => {
  test('whoever said yes was entitled to that ceiling', () => {
    for (const { aircraft: tail, authorisation } of quotes) {
      if (!authorisation) continue;
      const right = authorities.find(
        (one) => one.aircraft === tail && one.contact === authorisation.by,
      );
      expect(right?.mayAuthorise).not.toBe('none');
      if (right?.mayAuthorise === 'any') continue;
      expect(cents(right?.upTo ?? '0') >= cents(authorisation.ceiling)).toBe(true);
    }
  });
});

describe('the floor', () => {
  test('stands lie inside the hangar and beside each other', () => {
    const areas = [...hangar.stands, ...hangar.fixtures];
    areas.forEach((a, index) => {
      expect(a.xM + a.widthM).toBeLessThanOrEqual(hangar.widthM);
      expect(a.yM + a.depthM).toBeLessThanOrEqual(hangar.depthM);
      for (const b of areas.slice(index + 1)) {
        const apart =
          a.xM + a.widthM <= b.xM ||
          b.xM + b.widthM <= a.xM ||
          a.yM + a.depthM <= b.yM ||
          b.yM + b.depthM <= a.yM;
        expect(apart).toBe(true);
      }
    });
  });

  test('every stay fits its stand, and the door, with the clearance of the shop', () => {
    const spare = 2 * hangar.clearanceM.besideAircraft;
    for (const stay of [...hangar.occupancy, ...hangar.plannedOccupancy]) {
      const stand = hangar.stands.find((one) => one.key === stay.stand);
      const key = aircraft.find((one) => one.registration === stay.aircraft)?.model;
      const parked = models.find((one) => one.key === key)?.parkedMm;
      const [width, length, tall] = [parked?.width, parked?.length, parked?.height].map(
        (mm) => (mm ?? Infinity) / 1000,
      );
      expect((width ?? Infinity) + spare).toBeLessThanOrEqual(stand?.widthM ?? 0);
      expect((length ?? Infinity) + spare).toBeLessThanOrEqual(stand?.depthM ?? 0);
      expect((width ?? Infinity) + spare).toBeLessThanOrEqual(hangar.door.toM - hangar.door.fromM);
      expect(tall).toBeLessThan(hangar.door.heightM);
    }
  });
});

describe('what is generated', () => {
  test('history.csv is what its generator writes, byte for byte', () => {
    expect(history).toBe(historyCsv());
  });

  test('history spans two years up to 20 November 2026, in order, a few rows censored', () => {
    const dates = historyRows.map(([completed]) => completed ?? '');
    expect(dates).toEqual([...dates].sort());
    expect((dates[0] ?? '') >= '2024-11-19' && (dates[0] ?? '') < '2025-01-01').toBe(true);
    expect((dates.at(-1) ?? '') < '2026-11-20' && (dates.at(-1) ?? '') > '2026-10-20').toBe(true);
    const censored = historyRows.filter((row) => row[8] === '1').length;
    expect(censored).toBeGreaterThanOrEqual(2);
    expect(censored).toBeLessThanOrEqual(10);
  });

  test('every picture named exists, none is larger than 80 kB', () => {
    const files = readdirSync(new URL('pictures/', demo));
    expect(files.length).toBeGreaterThanOrEqual(5);
    for (const file of files) {
      expect(statSync(new URL(`pictures/${file}`, demo)).size).toBeLessThanOrEqual(80_000);
    }
    const named = findings.flatMap((finding) => finding.photos.map((photo) => photo.file));
    expect(unknown(named, new Set(files))).toEqual([]);
  });
});
