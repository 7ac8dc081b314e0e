/** The demo shop's files: complete, and pointing only at what exists. */
import { describe, expect, test } from 'vitest';
import {
  aircraft,
  authorities,
  cautions,
  contactKeys,
  contacts,
  findings,
  hangar,
  historyRows,
  keysOf,
  lots,
  modelKeys,
  models,
  offered,
  orderKeys,
  orders,
  packages,
  partKeys,
  parts,
  people,
  personKeys,
  places,
  quotes,
  standKeys,
  suppliers,
  tails,
  taskKeys,
  tasks,
  unknown,
} from './demo-files.ts';

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
    for (const { models: on, tasks: list, parts: needed, toldFindings } of packages) {
      expect(unknown([...list, ...toldFindings.map(({ task }) => task)], taskKeys)).toEqual([]);
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
