import {
  type GraphQLField,
  type GraphQLInputType,
  getNamedType,
  isEnumType,
  isInputObjectType,
  isListType,
  isNonNullType,
  isObjectType,
  isUnionType,
} from 'graphql';

/** Small seeded generator (mulberry-style mixing of a counter), so that a failing input can be had again. */
export function seeded(seed: number) {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x21f0aaad);
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
    return ((mixed ^ (mixed >>> 15)) >>> 0) / 2 ** 32;
  };
  const pick = <T>(from: readonly T[]): T => from[Math.floor(next() * from.length)] as T;
  return { next, pick, chance: (p: number) => next() < p };
}
export type Dice = ReturnType<typeof seeded>;

const texts = [
  '',
  ' ',
  'plain words',
  'Ünïcödé ✈ 修理 🛩',
  '<script>alert(1)</script>',
  "'; DROP TABLE shop; --",
  '\u0000',
  'a\u0000b',
  '\ud800',
  '\u202Ereversed',
  '../../etc/passwd',
  '${7*7}',
  '{{7*7}}',
  '%s%n',
  'x'.repeat(300),
  'y'.repeat(10_001),
  '\r\n\t',
  '0',
  'null',
  '2031-05-04',
  '2031-05-04T08:00:00Z',
];
const whole = [0, 1, -1, 2, 3, 100, 2 ** 31 - 1, -(2 ** 31), 2 ** 31, 1e15, 0.5, '1', 'one', true];
const decimals = [
  '0',
  '1',
  '-1',
  '0.1',
  '3.25',
  '999999999',
  '999999999.999999',
  '1000000000',
  '1e9',
  'NaN',
  'Infinity',
  '',
  '1,5',
  ' 1',
  '0x10',
  1,
  null,
  '--1',
  '.5',
];
const amounts = [
  '0',
  '1',
  '-1',
  '10000',
  '999999999999999',
  '9999999999999999',
  '1.5',
  '',
  'abc',
  '-999999999999999',
  5,
  '9223372036854775808',
];
const days = [
  '2031-05-04',
  '2026-02-29',
  '2024-02-29',
  '0000-00-00',
  '9999-12-31',
  '1899-12-31',
  '2200-12-31',
  '2031-13-01',
  'yesterday',
  '',
  20310504,
  '2031-5-4',
];
const instants = [
  '2031-05-04T08:00:00Z',
  '2026-11-25T08:00:00+02:00',
  '2031-05-04T25:00:00Z',
  '2031-05-04',
  '0001-01-01T00:00:00Z',
  '2200-01-01T00:00:00Z',
  'now',
  '',
  0,
  '2031-02-30T08:00:00Z',
];

export interface Ids {
  /** Global ids of this shop and of another, by type name. */
  ours: Record<string, string>;
  theirs: Record<string, string>;
}

/** The type that an argument called like this wants the id of: `aircraftId` wants an Aircraft. */
const typeOfId: Record<string, string> = {
  aircraftId: 'Aircraft',
  contactId: 'Contact',
  taskId: 'Task',
  partId: 'Part',
  packageId: 'Package',
  quoteId: 'Quote',
  findingId: 'Finding',
  orderId: 'WorkOrder',
  itemId: 'WorkItem',
  bookId: 'RecordBook',
  invoiceId: 'Invoice',
  standId: 'Stand',
  lotId: 'Lot',
  eventId: 'ClockEvent',
  photoIds: 'Photo',
  photoId: 'Photo',
  stayId: 'Stay',
  personId: 'Person',
  correctsId: 'RecordEntry',
};

/** A value of the type, or of something quite else. */
export function nonsense(
  dice: Dice,
  type: GraphQLInputType,
  name: string,
  ids: Ids,
  depth = 0,
): unknown {
  if (isNonNullType(type))
    return dice.chance(0.04) ? null : nonsense(dice, type.ofType, name, ids, depth);
  if (dice.chance(0.08)) return null;
  if (dice.chance(0.03)) return dice.pick<unknown>([texts[4], 7, [], {}, [[]], true, { a: 1 }]);
  if (isListType(type))
    return Array.from({ length: dice.pick([0, 1, 1, 2, 3, 40]) }, () =>
      nonsense(dice, type.ofType, name, ids, depth + 1),
    );
  if (isEnumType(type)) return dice.chance(0.1) ? 'NOT_A_VALUE' : dice.pick(type.getValues()).name;
  if (isInputObjectType(type)) {
    if (depth > 4) return {};
    const given: Record<string, unknown> = dice.chance(0.03) ? { unheardOf: 1 } : {};
    for (const field of Object.values(type.getFields())) {
      if (dice.chance(isNonNullType(field.type) ? 0.03 : 0.4)) continue;
      given[field.name] = nonsense(dice, field.type, field.name, ids, depth + 1);
    }
    return given;
  }
  switch (type.name) {
    case 'ID': {
      const wanted = typeOfId[name] ?? dice.pick(Object.keys(ids.ours));
      if (dice.chance(0.65)) return ids.ours[wanted] ?? dice.pick(Object.values(ids.ours));
      return dice.pick<unknown>([
        ids.theirs[wanted] ?? '',
        dice.pick(Object.values(ids.ours)),
        '',
        'x',
        '🛩',
        12,
        Buffer.from('Task:1').toString('base64url'),
        Buffer.from(`${wanted}:00000000-0000-0000-0000-000000000000`).toString('base64url'),
        Buffer.from("Task:' OR 1=1").toString('base64url'),
      ]);
    }
    case 'Int':
      return dice.pick<unknown>(whole);
    case 'Float':
      return dice.pick<unknown>([...whole, 1e308, 0.1]);
    case 'Boolean':
      return dice.pick<unknown>([true, false, true, false, 'yes', 1]);
    case 'Minor':
      return dice.pick<unknown>(amounts);
    case 'Decimal':
      return dice.pick<unknown>(decimals);
    case 'Date':
      return dice.pick<unknown>(days);
    case 'DateTime':
      return dice.pick<unknown>(instants);
    default:
      return name.toLowerCase().endsWith('eventid') && dice.chance(0.8)
        ? crypto.randomUUID()
        : dice.pick<unknown>(texts);
  }
}

/** One request for a root field with nonsense for its arguments, and everything read that needs no argument. */
export function request(
  dice: Dice,
  operation: 'query' | 'mutation',
  field: GraphQLField<unknown, unknown>,
  ids: Ids,
) {
  const declared = field.args.map(({ name, type }) => `$${name}: ${String(type)}`).join(', ');
  const passed = field.args.map(({ name }) => `${name}: $${name}`).join(', ');
  const variables: Record<string, unknown> = {};
  for (const { name, type } of field.args)
    if (!dice.chance(0.03)) variables[name] = nonsense(dice, type, name, ids);
  const query = `${operation} ${declared && `(${declared})`} { ${field.name}${passed && `(${passed})`} ${selectionOf(getNamedType(field.type))} }`;
  return { query, variables };
}

function selectionOf(type: ReturnType<typeof getNamedType>): string {
  if (isUnionType(type))
    return `{ __typename ${type
      .getTypes()
      .map((member) => `... on ${member.name} ${selectionOf(member)}`)
      .join(' ')} }`;
  if (!isObjectType(type)) return type && 'getFields' in type ? '{ __typename }' : '';
  const scalars = Object.values(type.getFields()).filter(
    ({ type: of, args }) =>
      args.length === 0 &&
      !('getFields' in (getNamedType(of) ?? {})) &&
      !isUnionType(getNamedType(of)),
  );
  return `{ __typename ${scalars.map(({ name }) => `${type.name}_${name}: ${name}`).join(' ')} }`;
}
