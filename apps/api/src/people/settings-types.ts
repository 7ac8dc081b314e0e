import { TaxCategory } from '@fairlead/database';
import { builder } from '../builder.ts';
import { globalId } from '../ids.ts';
import type { LastChange, SettingsChange } from './changes.ts';
import type {
  CertificateOnSheet,
  PersonOnSheet,
  ShopSheet,
  SignInStanding,
} from './load-shop-sheet.ts';
import type { MadeInvitation } from './make-invitation.ts';
import type { DayPresence } from './queries.ts';
import { CertificateType, PersonType, ShopType } from './schema.ts';

export const LabourRateType = builder.prismaNode('LabourRate', {
  id: { field: 'id' },
  description: 'What an hour costs, from a day on.',
  fields: (t) => ({
    kind: t.exposeString('kind', {
      description: 'Whose hour: "mechanic" is the one that quotes and invoices are reckoned with.',
    }),
    rate: t.expose('rate', { type: 'Decimal', description: "In the shop's currency, before tax." }),
    validFrom: t.expose('validFrom', { type: 'Date', description: 'First day.' }),
  }),
});
export const TaxRateType = builder.prismaNode('TaxRate', {
  id: { field: 'id' },
  description: "A line of the shop's own tax table, from a day on.",
  fields: (t) => ({
    category: t.expose('category', { type: TaxCategory, description: 'What is taxed.' }),
    code: t.exposeString('code', { description: 'Category code of EN 16931, such as S.' }),
    rate: t.expose('rate', { type: 'Decimal', description: 'Per cent.' }),
    validFrom: t.expose('validFrom', { type: 'Date', description: 'First day.' }),
  }),
});
export const WeeklyHoursType = builder.prismaNode('WeeklyHours', {
  id: { field: 'id' },
  description: 'When somebody is usually here, or when the shop is open.',
  fields: (t) => ({
    personId: t.id({
      nullable: true,
      description: 'Whose; null: the shop.',
      resolve: ({ personId }) => (personId ? globalId('Person', personId) : null),
    }),
    weekday: t.exposeInt('weekday', { description: '1 is Monday, 7 is Sunday.' }),
    fromMinute: t.exposeInt('fromMinute', { description: 'From, minutes from midnight.' }),
    toMinute: t.exposeInt('toMinute', { description: 'To, minutes from midnight.' }),
  }),
});
export const DayExceptionType = builder.prismaNode('DayException', {
  id: { field: 'id' },
  description: 'Days that are not as the week says.',
  fields: (t) => ({
    personId: t.id({
      nullable: true,
      description: 'Whose; null: the whole shop.',
      resolve: ({ personId }) => (personId ? globalId('Person', personId) : null),
    }),
    firstDay: t.expose('firstDay', { type: 'Date', description: 'First day.' }),
    lastDay: t.expose('lastDay', { type: 'Date', description: 'Last day, which still counts.' }),
    fromMinute: t.exposeInt('fromMinute', {
      nullable: true,
      description: 'From, minutes from midnight; null: closed, or away.',
    }),
    toMinute: t.exposeInt('toMinute', {
      nullable: true,
      description: 'To, minutes from midnight; null: closed, or away.',
    }),
    reason: t.exposeString('reason', { description: 'Why, in a few words.' }),
  }),
});

export const InvitationType = builder.objectRef<MadeInvitation>('Invitation').implement({
  description: 'A link with which somebody chooses their password, once. It is told only now.',
  fields: (t) => ({
    email: t.exposeString('email', { description: 'With which they will sign in.' }),
    path: t.exposeString('path', { description: 'The link, below the address of the shop.' }),
    expiresAt: t.expose('expiresAt', { type: 'DateTime', description: 'Until when it opens.' }),
  }),
});

const LastChangeType = builder.objectRef<LastChange>('LastChange').implement({
  description: 'When something was last changed, and by whom.',
  fields: (t) => ({
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.exposeString('by', {
      nullable: true,
      description: 'Who; null: as the shop was set up.',
    }),
  }),
});
const SettingsChangeType = builder.objectRef<SettingsChange>('SettingsChange').implement({
  description: 'One change of the shop or its people.',
  fields: (t) => ({
    id: t.id({ description: 'Its key.', resolve: ({ id }) => globalId('SettingsChange', id) }),
    at: t.expose('at', { type: 'DateTime', description: 'When.' }),
    by: t.exposeString('by', { description: 'Who did it.' }),
    about: t.exposeString('about', { nullable: true, description: 'Whom; null: the shop.' }),
    words: t.exposeString('words', { description: 'What, in one line.' }),
  }),
});
const SignInType = builder.objectRef<SignInStanding>('SignInStanding').implement({
  description: 'How somebody signs in, or is invited to.',
  fields: (t) => ({
    email: t.exposeString('email', { description: 'The address.' }),
    invitedUntil: t.expose('invitedUntil', {
      type: 'DateTime',
      nullable: true,
      description: 'Until when the invitation opens; null: they sign in.',
    }),
  }),
});
const CertificateOnSheetType = builder
  .objectRef<CertificateOnSheet>('CertificateOnSheet')
  .implement({
    description: 'A certificate, and what rests on it.',
    fields: (t) => ({
      certificate: t.field({
        type: CertificateType,
        description: 'Itself.',
        resolve: ({ row }) => row,
      }),
      restsOnIt: t.exposeStringList('restsOnIt', {
        description: 'What its holder may approve today and could not without it.',
      }),
    }),
  });
const PersonOnSheetType = builder.objectRef<PersonOnSheet>('PersonOnSheet').implement({
  description: 'Somebody of the shop, as the manager sees them.',
  fields: (t) => ({
    person: t.field({ type: PersonType, description: 'Who.', resolve: ({ row }) => row }),
    certificates: t.field({
      type: [CertificateOnSheetType],
      description: 'What they hold and held.',
      resolve: ({ certificates }) => certificates,
    }),
    signIn: t.field({
      type: SignInType,
      nullable: true,
      description: 'Null: they have no way in.',
      resolve: ({ signIn }) => signIn,
    }),
    clockRuns: t.exposeBoolean('clockRuns', { description: 'Their clock runs now.' }),
    lastChange: t.field({
      type: LastChangeType,
      nullable: true,
      description: 'Of themselves, what they hold, or their week.',
      resolve: ({ lastChange }) => lastChange,
    }),
  }),
});
const LabourRateOnSheet = builder
  .objectRef<ShopSheet['labourRates'][number]>('LabourRateOnSheet')
  .implement({
    description: 'A labour rate, and who set it.',
    fields: (t) => ({
      rate: t.field({ type: LabourRateType, description: 'Itself.', resolve: ({ row }) => row }),
      lastChange: t.field({
        type: LastChangeType,
        nullable: true,
        description: 'Who set it, and when.',
        resolve: ({ lastChange }) => lastChange,
      }),
    }),
  });
const TaxRateOnSheet = builder
  .objectRef<ShopSheet['taxRates'][number]>('TaxRateOnSheet')
  .implement({
    description: 'A tax rate, and who set it.',
    fields: (t) => ({
      rate: t.field({ type: TaxRateType, description: 'Itself.', resolve: ({ row }) => row }),
      lastChange: t.field({
        type: LastChangeType,
        nullable: true,
        description: 'Who set it, and when.',
        resolve: ({ lastChange }) => lastChange,
      }),
    }),
  });
const PresentType = builder.objectRef<DayPresence['present'][number]>('PersonPresent').implement({
  description: 'Somebody who is here on a day.',
  fields: (t) => ({
    name: t.exposeString('name', { description: 'Who.' }),
    minutes: t.exposeInt('minutes', { description: 'For how long, minutes.' }),
  }),
});
const AwayType = builder.objectRef<DayPresence['away'][number]>('PersonAway').implement({
  description: 'Somebody who is away on a day.',
  fields: (t) => ({
    name: t.exposeString('name', { description: 'Who.' }),
    reason: t.exposeString('reason', { description: 'Why.' }),
  }),
});
const DayPresenceType = builder.objectRef<DayPresence>('DayPresence').implement({
  description: 'Who of the mechanics and inspectors is here on a day.',
  fields: (t) => ({
    day: t.expose('day', { type: 'Date', description: 'The day.' }),
    closed: t.exposeString('closed', {
      nullable: true,
      description: 'Why the shop is closed, where an exception says so.',
    }),
    present: t.field({
      type: [PresentType],
      description: 'Who is here.',
      resolve: ({ present }) => present,
    }),
    away: t.field({ type: [AwayType], description: 'Who is away.', resolve: ({ away }) => away }),
  }),
});

export const ShopSheetType = builder.objectRef<ShopSheet>('ShopSheet').implement({
  description: "The manager's sheet: what the shop is, who works in it, and what an hour costs.",
  fields: (t) => ({
    shop: t.field({ type: ShopType, description: 'The shop.', resolve: ({ shop }) => shop }),
    currencyStays: t.exposeString('currencyStays', {
      nullable: true,
      description: 'Why the currency cannot change; null: it still can.',
    }),
    lastChange: t.field({
      type: LastChangeType,
      nullable: true,
      description: 'Of the shop itself.',
      resolve: ({ lastChange }) => lastChange,
    }),
    people: t.field({
      type: [PersonOnSheetType],
      description: 'Everybody, those who have left at the end.',
      resolve: ({ people }) => people,
    }),
    labourRates: t.field({
      type: [LabourRateOnSheet],
      description: 'By kind, newest first.',
      resolve: ({ labourRates }) => labourRates,
    }),
    taxRates: t.field({
      type: [TaxRateOnSheet],
      description: 'By what is taxed, newest first.',
      resolve: ({ taxRates }) => taxRates,
    }),
    week: t.field({
      type: [WeeklyHoursType],
      description: "The shop's hours and everybody's.",
      resolve: ({ week }) => week,
    }),
    exceptions: t.field({
      type: [DayExceptionType],
      description: 'From today on, the next first.',
      resolve: ({ exceptions }) => exceptions,
    }),
    ahead: t.field({
      type: [DayPresenceType],
      description: 'The next fourteen days, from today.',
      resolve: ({ ahead }) => ahead,
    }),
    changes: t.field({
      type: [SettingsChangeType],
      description: 'The latest forty changes that people made, newest first.',
      resolve: ({ changes }) => changes,
    }),
    today: t.expose('today', { type: 'Date', description: 'The day that the shop has now.' }),
  }),
});
