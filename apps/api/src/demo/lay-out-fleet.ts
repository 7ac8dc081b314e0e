import { hundredths, parseHours } from '@fairlead/airworthiness';
import type { AircraftKind, ComponentKind, Meter, RecordBookKind, Tx } from '@fairlead/database';
import { type DemoAircraft, type DemoModel, readDemo } from '../../../../prisma/demo/data.ts';
import type { DemoClock } from './demo-clock.ts';
import { Keys } from './keys.ts';

const kinds: Record<string, AircraftKind> = {
  'two-seat-helicopter': 'helicopter_two_seat',
  'four-seat-helicopter': 'helicopter_four_seat',
  'high-wing-single': 'airplane_single',
  'low-wing-twin': 'airplane_twin',
};
const componentKinds: Record<string, ComponentKind> = {
  engine: 'engine',
  propeller: 'propeller',
  'main-rotor-blade': 'rotor',
  'tail-rotor-gearbox': 'gearbox',
  'drive-belt-set': 'accessory',
};
export const meterOf = (key: string): Meter => (key === 'engine-on' ? 'engine_on' : (key as Meter));
export const kindOfModel = (model: DemoModel): AircraftKind => known(kinds, model.kind);

function known<Value>(table: Record<string, Value>, key: string): Value {
  const value = table[key];
  if (value === undefined)
    throw new RangeError(
      `The demo has no word for "${key}": give one of ${Object.keys(table).join(', ')}`,
    );
  return value;
}

const capitalised = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);
const asHundredths = (text: string) => Number(parseHours(text));

export interface Fleet {
  models: Keys;
  aircraft: Keys;
  /** By registration and kind: "QQ-163 engine". */
  books: Keys;
}

/** Models, tails, their record books, components and meter readings up to now. */
export async function layOutFleet(tx: Tx, shopId: string, clock: DemoClock): Promise<Fleet> {
  const [models, aircraft, books] = [new Keys(), new Keys(), new Keys()];
  await tx.aircraftModel.createMany({
    data: readDemo('models.json').map((model) => {
      const { dimensionsMm: size, parkedMm } = model;
      return {
        id: models.make(model.key),
        shopId,
        maker: model.maker,
        name: model.name,
        kind: kindOfModel(model),
        // Foremost to rearmost point of the airframe: the main rotor is the span.
        lengthMm: size['fuselageLength'] ?? size['length'] ?? 0,
        spanMm: size['rotorDiameter'] ?? size['span'] ?? 0,
        heightMm: size['height'] ?? 0,
        parkedLengthMm: parkedMm.length,
        parkedWidthMm: parkedMm.width,
      };
    }),
  });
  const tails = readDemo('aircraft.json');
  await tx.aircraft.createMany({
    data: tails.map((tail) => ({
      id: aircraft.make(tail.registration),
      shopId,
      modelId: models.of(tail.model),
      registration: tail.registration,
      serial: tail.serial,
      year: clock.day({ day: 0 }).getUTCFullYear() - tail.builtYearsAgo,
    })),
  });
  await tx.recordBook.createMany({
    data: tails.flatMap((tail) =>
      tail.recordBooks.map(({ kind, position }) => {
        const title = capitalised(position ?? kind);
        return {
          id: books.make(`${tail.registration} ${position ?? kind}`),
          aircraftId: aircraft.of(tail.registration),
          kind: kind as RecordBookKind,
          title,
        };
      }),
    ),
  });
  await layOutComponents(tx, shopId, tails, aircraft, clock);
  await tx.meterReading.createMany({
    data: tails.flatMap((tail) =>
      readingsOf(tail, clock).map((reading) => ({
        ...reading,
        aircraftId: aircraft.of(tail.registration),
      })),
    ),
  });
  return { models, aircraft, books };
}

async function layOutComponents(
  tx: Tx,
  shopId: string,
  tails: readonly DemoAircraft[],
  aircraft: Keys,
  clock: DemoClock,
): Promise<void> {
  const ids = new Keys();
  const all = tails.flatMap((tail) =>
    tail.components.map((component) => ({ tail: tail.registration, component })),
  );
  await tx.component.createMany({
    data: all.map(({ component }) => ({
      id: ids.make(`${component.partNumber} ${component.serial}`),
      shopId,
      kind: known(componentKinds, component.kind),
      title: capitalised(component.kind.replaceAll('-', ' ')),
      partNumber: component.partNumber,
      serial: component.serial,
      tisHundredths: asHundredths(component.sinceNewAtFitting),
      lifeLimitHundredths:
        component.lifeHours === undefined ? null : asHundredths(component.lifeHours),
    })),
  });
  await tx.componentFitting.createMany({
    data: all.map(({ tail, component }) => ({
      componentId: ids.of(`${component.partNumber} ${component.serial}`),
      aircraftId: aircraft.of(tail),
      position: component.position,
      fittedAt: clock.at(component.fitted),
      aircraftTisHundredths: asHundredths(component.fitted.timeInService),
    })),
  });
}

/** Readings at past inspections and the last one before now; what is read at an arrival comes with the arrival. */
function readingsOf({ registration, meters, inspections }: DemoAircraft, clock: DemoClock) {
  const arrivals = readDemo('orders.json').orders.flatMap(({ aircraft, arrival }) =>
    arrival && aircraft === registration ? [arrival.at.day] : [],
  );
  return meters.flatMap(({ key, reading, timeInServiceAtZero, at }) => {
    const zero = asHundredths(timeInServiceAtZero);
    const past = inspections
      .map(({ day, timeInService }) => ({
        at: clock.at({ day, time: '16:00' }),
        tis: asHundredths(timeInService),
      }))
      .filter(({ tis }) => tis >= zero);
    const last = arrivals.includes(at.day)
      ? []
      : [{ at: clock.at(at), tis: hundredths(zero + asHundredths(reading)) }];
    return [...past, ...last].map((read) => ({
      meter: meterOf(key),
      readingHundredths: read.tis - zero,
      tisHundredths: read.tis,
      readAt: read.at,
    }));
  });
}
