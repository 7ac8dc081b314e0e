import { BillingRounding, Capacity, CertificateKind, Role, ShopStanding } from '@fairlead/database';
import { builder } from '../builder.ts';
import './contact-schema.ts';
import { addressColumns, addressOf, PostalAddressType } from '../postal-address.ts';

builder.enumType(Role, {
  name: 'Role',
  description: 'What a person does in the shop.',
  values: {
    front_desk: { description: 'Quotes, sends, records answers, invoices.' },
    mechanic: { description: 'Works on aircraft and clocks the time.' },
    inspector: { description: 'Assesses findings, initials items, signs entries.' },
    manager: { description: 'Sees the whole shop and sets its rules.' },
  },
});
builder.enumType(ShopStanding, {
  name: 'ShopStanding',
  description:
    "On whose certificates work is approved: its mechanics', or its own as a repair station.",
  values: {
    mechanics: {
      description: 'Its mechanics and inspectors approve work on their own certificates.',
    },
    repair_station: { description: 'It is a certificated repair station (14 CFR part 145).' },
  },
});
builder.enumType(BillingRounding, {
  name: 'BillingRounding',
  description: 'How clocked time is brought to whole billing steps.',
  values: {
    up: { description: 'Up to the next step.' },
    nearest: { description: 'To the nearest step, half a step up.' },
  },
});
builder.enumType(CertificateKind, {
  name: 'CertificateKind',
  description: 'Kind of certificate, rating or authorization.',
  values: {
    mechanic_airframe: { description: 'Mechanic certificate with airframe rating (14 CFR 65.85).' },
    mechanic_powerplant: {
      description: 'Mechanic certificate with powerplant rating (14 CFR 65.87).',
    },
    inspection_authorization: { description: 'Inspection authorization (14 CFR 65.91).' },
    repairman: { description: 'Repairman certificate (14 CFR 65.101).' },
    repair_station_inspector: { description: 'Inspector of a repair station (14 CFR 145.155).' },
    private_pilot: { description: 'Pilot certificate, private or higher (14 CFR 43.3(g)).' },
  },
});
builder.enumType(Capacity, {
  name: 'Capacity',
  description: 'What a contact is to an aircraft.',
  values: {
    owner: { description: 'Owns the aircraft.' },
    operator: { description: 'Operates it.' },
    payer: { description: 'Pays for the work.' },
  },
});

export const ShopType = builder.prismaNode('Shop', {
  id: { field: 'id' },
  description: 'The business.',
  fields: (t) => ({
    name: t.exposeString('name', { description: 'Its name.' }),
    place: t.exposeString('place', { description: 'Where it is.' }),
    postalAddress: t.field({
      type: PostalAddressType,
      nullable: true,
      description: 'Where its post goes; it is the address of its invoices.',
      select: addressColumns,
      resolve: addressOf,
    }),
    email: t.exposeString('email', {
      nullable: true,
      description: 'Where mail to the front desk goes, and answers to mail of the shop.',
    }),
    vatNumber: t.exposeString('vatNumber', {
      nullable: true,
      description: 'Number of its VAT registration (EN 16931, BT-31).',
    }),
    taxNumber: t.exposeString('taxNumber', {
      nullable: true,
      description: 'Number of another registration for tax (BT-32).',
    }),
    registrationNumber: t.exposeString('registrationNumber', {
      nullable: true,
      description: 'Number of the registration of the business itself (BT-30).',
    }),
    exemptionReason: t.exposeString('exemptionReason', {
      nullable: true,
      description: 'Why tax category E is not taxed, in words for its invoices (BT-120).',
    }),
    timeZone: t.exposeString('timeZone', {
      description: 'IANA time zone in which its days begin.',
    }),
    currency: t.exposeString('currency', {
      description: 'ISO 4217 code of every amount of the shop.',
    }),
    standing: t.expose('standing', {
      type: ShopStanding,
      description: 'On whose certificates work is approved.',
    }),
    certificateNumber: t.exposeString('certificateNumber', {
      nullable: true,
      description: 'Number of its own certificate; null where it is no repair station.',
    }),
    billingRounding: t.expose('billingRounding', {
      type: BillingRounding,
      description: 'How clocked time is brought to whole steps.',
    }),
    version: t.exposeInt('version', {
      description: 'Counted at every change; whoever saves says which one they read.',
    }),
    clearanceMm: t.exposeInt('clearanceMm', {
      description: 'Clearance that the shop keeps around a parked aircraft, millimetres.',
    }),
    billingStep: t.expose('billingStep', {
      type: 'Decimal',
      description: 'Clocked time is billed in steps of this many hours.',
    }),
    billingMinimum: t.expose('billingMinimum', {
      type: 'Decimal',
      nullable: true,
      description:
        'The fewest hours billed of an item once any were clocked; null: there is no minimum.',
    }),
    overrunMinor: t.expose('overrunMinor', {
      type: 'Minor',
      nullable: true,
      description:
        "How far past the owner's yes may be worked and billed without asking, net; null: no sum limits it.",
    }),
    overrunPercent: t.expose('overrunPercent', {
      type: 'Decimal',
      nullable: true,
      description:
        'The same in per cent of what was agreed; the smaller of both holds. Both null: not at all.',
    }),
    timeInServiceBasis: t.exposeString('timeInServiceBasis', {
      description: 'Which meter time in service is derived from (14 CFR 1.1).',
    }),
  }),
});

export const CertificateType = builder.prismaNode('Certificate', {
  id: { field: 'id' },
  description: 'A certificate, rating or authorization of a person.',
  fields: (t) => ({
    kind: t.expose('kind', { type: CertificateKind, description: 'Its kind.' }),
    number: t.exposeString('number', { description: 'Its number.' }),
    validFrom: t.expose('validFrom', { type: 'Date', description: 'First day.' }),
    validUntil: t.expose('validUntil', {
      type: 'Date',
      nullable: true,
      description: 'Last day; null where it does not lapse by itself.',
    }),
  }),
});

export const PersonType = builder.prismaNode('Person', {
  id: { field: 'id' },
  description: 'Somebody who works in the shop.',
  fields: (t) => ({
    name: t.exposeString('name', { description: 'Full name.' }),
    initials: t.exposeString('initials', { description: 'Initials, unique in the shop.' }),
    roles: t.expose('roles', { type: [Role], description: 'What they do.' }),
    apprentice: t.exposeBoolean('apprentice', {
      description: 'Works under supervision (14 CFR 43.3(d)).',
    }),
    active: t.exposeBoolean('active', { description: 'Still works here.' }),
    version: t.exposeInt('version', {
      description: 'Counted at every change; whoever saves says which one they read.',
    }),
    certificates: t.relation('certificates', {
      description: 'What they hold.',
      query: { orderBy: { kind: 'asc' } },
    }),
  }),
});

builder.prismaNode('Contact', {
  id: { field: 'id' },
  description: 'Somebody outside the shop: owner, operator, payer.',
  fields: (t) => ({
    name: t.exposeString('name', { description: 'Name of the person or company.' }),
    email: t.exposeString('email', { nullable: true, description: 'Address for mail.' }),
    phone: t.exposeString('phone', { nullable: true, description: 'Telephone.' }),
    postalAddress: t.field({
      type: PostalAddressType,
      nullable: true,
      description: 'Where post and invoices go.',
      select: addressColumns,
      resolve: addressOf,
    }),
  }),
});

builder.prismaNode('AircraftContact', {
  id: { field: 'id' },
  description: 'What a contact is to an aircraft, and how much they may authorise.',
  fields: (t) => ({
    capacity: t.expose('capacity', { type: Capacity, description: 'Owner, operator or payer.' }),
    contact: t.relation('contact', { description: 'Who.' }),
    mayAuthorise: t.expose('mayAuthoriseMinor', {
      type: 'Minor',
      nullable: true,
      description: 'Up to how much, net; null: no limit was given.',
    }),
  }),
});

const Viewer = builder.objectRef<{ personId: string; shared: boolean }>('Viewer').implement({
  description: 'The person signed in.',
  fields: (t) => ({
    person: t.prismaField({
      type: 'Person',
      description: 'As the shop knows them.',
      resolve: (query, { personId }, _, { read }) =>
        read.person.findUniqueOrThrow({ ...query, where: { id: personId } }),
    }),
    shop: t.prismaField({
      type: 'Shop',
      description: 'Where they work.',
      resolve: (query, _viewer, _, { read }) => read.shop.findFirstOrThrow({ ...query }),
    }),
    shared: t.exposeBoolean('shared', {
      description:
        'Whether they came by PIN or badge on a shared device, where they are a mechanic and nothing more.',
    }),
  }),
});

builder.queryFields((t) => ({
  viewer: t.field({
    type: Viewer,
    nullable: true,
    description: 'The person signed in; null where nobody is.',
    resolve: (_, __, { viewer }) => viewer,
  }),
  people: t.prismaField({
    type: ['Person'],
    description: 'Everybody who works here.',
    resolve: (query, _, __, { read }) =>
      read.person.findMany({ ...query, where: { active: true }, orderBy: { name: 'asc' } }),
  }),
}));
