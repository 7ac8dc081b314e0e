import {
  BillingRounding,
  CertificateKind,
  Role,
  ShopStanding,
  TaxCategory,
} from '@fairlead/database';
import { builder } from '../builder.ts';
import { PostalAddressInput } from '../postal-address.ts';

const version = 'The version that was read; refused where somebody came first.';
const stays = 'Left out: stays as it is; null: none.';
const fromMinute = 'From, minutes from midnight.';
const toMinute = 'To, minutes from midnight.';

export const ChangeShopInput = builder.inputType('ChangeShopInput', {
  description: 'What the shop is and how it reckons.',
  fields: (t) => ({
    expectedVersion: t.int({ required: true, description: version }),
    name: t.string({ required: true, description: 'Its name, 1 to 120 characters.' }),
    place: t.string({ required: true, description: 'Where it is, 1 to 300 characters.' }),
    postalAddress: t.field({
      type: PostalAddressInput,
      description: `Where its post goes. ${stays}`,
    }),
    email: t.string({ description: `Where mail to the front desk goes. ${stays}` }),
    vatNumber: t.string({ description: `With its country before it. ${stays}` }),
    taxNumber: t.string({ description: `Of another registration for tax. ${stays}` }),
    registrationNumber: t.string({ description: `Of the business itself. ${stays}` }),
    exemptionReason: t.string({
      description: `Why tax category E is not taxed, for its invoices. ${stays}`,
    }),
    timeZone: t.string({ required: true, description: 'IANA time zone, such as UTC.' }),
    currency: t.string({
      required: true,
      description: 'ISO 4217 code; stays once something was quoted.',
    }),
    standing: t.field({
      type: ShopStanding,
      required: true,
      description: 'On whose certificates work is approved.',
    }),
    certificateNumber: t.string({ description: 'Of a repair station, which needs it.' }),
    clearanceMm: t.int({
      required: true,
      description: 'Around a parked aircraft, 0 to 20,000 mm.',
    }),
    billingStep: t.field({
      type: 'Decimal',
      required: true,
      description: 'Hours, more than 0 to 8, two decimals.',
    }),
    billingRounding: t.field({
      type: BillingRounding,
      required: true,
      description: 'How time is brought to whole steps.',
    }),
    billingMinimum: t.field({
      type: 'Decimal',
      description: `The fewest hours billed of an item once any were clocked, more than 0 to 8, two decimals; null: no minimum. ${stays}`,
    }),
    overrunMinor: t.field({
      type: 'Minor',
      description: `How far past the owner's yes may be worked and billed without asking, net, more than 0; null: no sum. ${stays}`,
    }),
    overrunPercent: t.field({
      type: 'Decimal',
      description: `The same in per cent of what was agreed, more than 0 to 100, two decimals; null: no share. The smaller of both holds; with neither, nothing may. ${stays}`,
    }),
    timeInServiceBasis: t.string({
      required: true,
      description: 'Which meter time in service is derived from, 3 to 300 characters.',
    }),
  }),
});
export const SetContactAddressInput = builder.inputType('SetContactAddressInput', {
  description: "Where a contact's post and invoices go.",
  fields: (t) => ({
    contactId: t.id({ required: true, description: 'Whose.' }),
    postalAddress: t.field({ type: PostalAddressInput, description: 'Left out: none any more.' }),
  }),
});
export const SetContactEmailInput = builder.inputType('SetContactEmailInput', {
  description: "Where a contact's mail goes.",
  fields: (t) => ({
    contactId: t.id({ required: true, description: 'Whose.' }),
    email: t.string({ description: 'One e-mail address; left out: none any more.' }),
  }),
});
export const AddPersonInput = builder.inputType('AddPersonInput', {
  description: 'Somebody who begins to work here.',
  fields: (t) => ({
    name: t.string({ required: true, description: 'Full name, 1 to 120 characters.' }),
    initials: t.string({ required: true, description: 'Their own in the shop, 1 to 5.' }),
    roles: t.field({ type: [Role], required: true, description: 'At least one.' }),
    apprentice: t.boolean({ required: true, description: 'Works under supervision.' }),
    email: t.string({ description: 'With which they sign in; left out: no sign-in yet.' }),
  }),
});
export const InvitePersonInput = builder.inputType('InvitePersonInput', {
  description: 'A new invitation; an earlier one opens nothing any more.',
  fields: (t) => ({
    personId: t.id({ required: true, description: 'Who.' }),
    email: t.string({ required: true, description: 'With which they will sign in.' }),
    byMail: t.boolean({ description: 'Whether it is mailed to them too.' }),
  }),
});
export const ChangePersonInput = builder.inputType('ChangePersonInput', {
  description: 'What somebody is in the shop.',
  fields: (t) => ({
    personId: t.id({ required: true, description: 'Who.' }),
    expectedVersion: t.int({ required: true, description: version }),
    name: t.string({ required: true, description: 'Full name, 1 to 120 characters.' }),
    initials: t.string({ required: true, description: 'Their own in the shop, 1 to 5.' }),
    roles: t.field({ type: [Role], required: true, description: 'At least one.' }),
    apprentice: t.boolean({ required: true, description: 'Works under supervision.' }),
  }),
});
export const PersonAsReadInput = builder.inputType('PersonAsReadInput', {
  description: 'Somebody, as they were read.',
  fields: (t) => ({
    personId: t.id({ required: true, description: 'Who.' }),
    expectedVersion: t.int({ required: true, description: version }),
  }),
});
export const AddCertificateInput = builder.inputType('AddCertificateInput', {
  description: 'What somebody holds.',
  fields: (t) => ({
    personId: t.id({ required: true, description: 'Who.' }),
    kind: t.field({ type: CertificateKind, required: true, description: 'Its kind.' }),
    number: t.string({ required: true, description: 'Its number, 1 to 60 characters.' }),
    validFrom: t.field({ type: 'Date', required: true, description: 'First day.' }),
    validUntil: t.field({ type: 'Date', description: 'Last day; left out: does not lapse.' }),
  }),
});
export const EndCertificateInput = builder.inputType('EndCertificateInput', {
  description: 'The last day of a certificate.',
  fields: (t) => ({
    certificateId: t.id({ required: true, description: 'Which.' }),
    lastDay: t.field({ type: 'Date', required: true, description: 'Which still counts.' }),
  }),
});
export const AddLabourRateInput = builder.inputType('AddLabourRateInput', {
  description: 'What an hour costs, from a day on.',
  fields: (t) => ({
    kind: t.string({ required: true, description: 'Whose hour, such as mechanic.' }),
    rate: t.field({ type: 'Decimal', required: true, description: 'Before tax, 0 to 99,999.' }),
    validFrom: t.field({ type: 'Date', required: true, description: 'Today or later.' }),
    replacesId: t.id({ description: 'The rate of the same day that it puts right.' }),
  }),
});
export const AddTaxRateInput = builder.inputType('AddTaxRateInput', {
  description: 'What is taxed how, from a day on.',
  fields: (t) => ({
    category: t.field({ type: TaxCategory, required: true, description: 'What is taxed.' }),
    code: t.string({ required: true, description: 'Category code of EN 16931, such as S.' }),
    rate: t.field({ type: 'Decimal', required: true, description: 'Per cent, 0 to 100.' }),
    validFrom: t.field({ type: 'Date', required: true, description: 'Today or later.' }),
    replacesId: t.id({ description: 'The rate of the same day that it puts right.' }),
  }),
});
const WeekHoursInput = builder.inputType('WeekHoursInput', {
  description: 'One piece of a week.',
  fields: (t) => ({
    weekday: t.int({ required: true, description: '1 is Monday, 7 is Sunday.' }),
    fromMinute: t.int({ required: true, description: fromMinute }),
    toMinute: t.int({ required: true, description: toMinute }),
  }),
});
export const SetWeekInput = builder.inputType('SetWeekInput', {
  description: 'A week in place of the one before.',
  fields: (t) => ({
    personId: t.id({ description: 'Whose; left out: when the shop is open.' }),
    expectedVersion: t.int({ required: true, description: `${version} Of the person or shop.` }),
    hours: t.field({
      type: [WeekHoursInput],
      required: true,
      description: 'At most 28 pieces; none: nothing is said.',
    }),
  }),
});
export const AddExceptionInput = builder.inputType('AddExceptionInput', {
  description: 'Days that are not as the week says.',
  fields: (t) => ({
    personId: t.id({ description: 'Whose; left out: the whole shop.' }),
    firstDay: t.field({ type: 'Date', required: true, description: 'First day.' }),
    lastDay: t.field({ type: 'Date', required: true, description: 'Last day, which counts.' }),
    fromMinute: t.int({ description: `${fromMinute} Left out with toMinute: closed, or away.` }),
    toMinute: t.int({ description: `${toMinute} Left out with fromMinute: closed, or away.` }),
    reason: t.string({ required: true, description: 'Why, 1 to 200 characters.' }),
  }),
});
export const RemoveExceptionInput = builder.inputType('RemoveExceptionInput', {
  description: 'An exception that is taken back.',
  fields: (t) => ({ exceptionId: t.id({ required: true, description: 'Which.' }) }),
});
