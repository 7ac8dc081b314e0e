import type { AircraftKind, InspectionKind, Prisma, Tx } from '@fairlead/database';
import { currency, parseAmount } from '@fairlead/money';
import { type Conditions, type DemoPackage, readDemo } from '../../../../prisma/demo/data.ts';
import { newId } from '../new-id.ts';
import type { DemoClock } from './demo-clock.ts';
import { Keys } from './keys.ts';
import { kindOfModel } from './lay-out-fleet.ts';

export interface Catalogue {
  tasks: Keys;
  packages: Keys;
  parts: Keys;
  /** By the number of the tag that they came with. */
  lots: Keys;
}

/** Tasks with how they are got at on each model, packages, parts, and the lots on the shelves. */
export async function layOutCatalogue(
  tx: Tx,
  shopId: string,
  models: Keys,
  people: Keys,
  clock: DemoClock,
): Promise<Catalogue> {
  const tasks = await layOutTasks(tx, shopId, models);
  const packages = await layOutPackages(tx, shopId, clock, models, tasks);
  const [parts, lots] = [new Keys(), new Keys()];
  const all = readDemo('parts.json').parts;
  const money = currency(readDemo('shop.json').currency);
  await tx.part.createMany({
    data: all.map((part) => ({
      id: parts.make(part.key),
      shopId,
      number: part.number,
      title: part.title,
      unit: part.unit,
      unitPrice: part.price,
      category: 'parts',
      coreChargeMinor: part.coreCharge ? parseAmount(part.coreCharge, money) : null,
      reorderPoint: part.reorderPoint ?? null,
    })),
  });
  await tx.partRelation.createMany({
    data: all.flatMap(({ key, instead }) =>
      instead
        ? [
            {
              partId: parts.of(key),
              insteadId: parts.of(instead.part),
              kind: instead.kind,
              source: instead.source,
              at: clock.at({ day: -60, time: '10:00' }),
              byId: people.of(instead.by),
            },
          ]
        : [],
    ),
  });
  const received = all.flatMap((part) =>
    part.lots.map((lot) => ({ ...lot, id: lots.make(lot.tag), partId: parts.of(part.key) })),
  );
  await tx.lot.createMany({
    data: received.map((lot) => ({
      id: lot.id,
      partId: lot.partId,
      supplier: lot.supplier,
      batch: lot.batch,
      tag: lot.tag,
      receivedOn: clock.day(lot.received),
      shelfLifeUntil: lot.useBefore ? clock.day(lot.useBefore) : null,
      unitCost: lot.unitCost,
      bin: lot.place,
    })),
  });
  await tx.stockMovement.createMany({
    data: received.map((lot) => ({
      lotId: lot.id,
      kind: 'receive',
      quantity: lot.quantity,
      reason: `from ${lot.supplier}`,
      at: clock.at({ time: '09:00', ...lot.received }),
    })),
  });
  return { tasks, packages, parts, lots };
}

async function layOutTasks(tx: Tx, shopId: string, models: Keys): Promise<Keys> {
  const { tasks, cautions, defaultConditions } = readDemo('tasks.json');
  const { places } = readDemo('places.json');
  const { checklists } = readDemo('care.json');
  const keys = new Keys();
  const access = new Map<string, Prisma.AccessCreateManyInput & { id: string }>();
  const accessOf = (conditions: Conditions): string => {
    const key = Object.entries(conditions).sort().join();
    const row = access.get(key) ?? { id: newId(), shopId, ...conditions };
    access.set(key, row);
    return row.id;
  };
  const rows = tasks.map((task) => {
    const stated = { ...defaultConditions, ...task.statedFor };
    return {
      task: {
        id: keys.make(task.key),
        shopId,
        key: task.key,
        title: task.title,
        jasc: task.jasc,
        standardHours: task.standardHours,
        standardAccessId: accessOf(stated),
        critical: task.critical,
        cautions: task.cautions.map((caution) => cautions[caution] ?? caution),
        reference: task.reference,
        checklist: checklists[task.key] ?? [],
        paragraphs: task.paragraphs ?? [],
      },
      places: task.models.map((model) => ({
        taskId: keys.of(task.key),
        modelId: models.of(model),
        accessId: accessOf({
          ...stated,
          ...places.find((place) => place.task === task.key && place.model === model)?.conditions,
        }),
      })),
    };
  });
  await tx.access.createMany({ data: [...access.values()] });
  await tx.task.createMany({ data: rows.map(({ task }) => task) });
  await tx.taskPlace.createMany({ data: rows.flatMap((row) => row.places) });
  return keys;
}

/** Some months ago, so that the demo's data are current. */
const DATA_READ = { day: -120 };

async function layOutPackages(
  tx: Tx,
  shopId: string,
  clock: DemoClock,
  models: Keys,
  tasks: Keys,
): Promise<Keys> {
  const { packages } = readDemo('packages.json');
  const money = currency(readDemo('shop.json').currency);
  const keys = new Keys();
  await tx.package.createMany({
    data: packages.map((pack) => ({
      id: keys.make(pack.key),
      shopId,
      key: pack.key,
      title: pack.title,
      inspection: inspectionOf(pack),
      ...soldFor(pack, models),
      priceMinor: parseAmount(pack.fixedPriceLabour, money),
      madeFrom: pack.inspection ? '14 CFR part 43 appendix D; rotorcraft 43.15(b)' : '',
      madeFromOn: pack.inspection ? clock.day(DATA_READ) : null,
    })),
  });
  await tx.packageTask.createMany({
    data: packages.flatMap((pack) =>
      pack.tasks.map((task, index) => ({
        packageId: keys.of(pack.key),
        taskId: tasks.of(task),
        position: index + 1,
      })),
    ),
  });
  return keys;
}

const inspectionOf = ({ inspection }: DemoPackage): InspectionKind | null =>
  inspection === '100-hour' ? 'hundred_hour' : (inspection as InspectionKind | null);

/** One model, or one kind of aircraft, or any. */
function soldFor(
  { models: on }: DemoPackage,
  models: Keys,
): { modelId: string | null; modelKind: AircraftKind | null } {
  const [only] = on;
  if (only !== undefined && on.length === 1) return { modelId: models.of(only), modelKind: null };
  const kinds = new Set(
    readDemo('models.json')
      .filter(({ key }) => on.includes(key))
      .map(kindOfModel),
  );
  const [kind] = kinds;
  return { modelId: null, modelKind: kinds.size === 1 && kind ? kind : null };
}
