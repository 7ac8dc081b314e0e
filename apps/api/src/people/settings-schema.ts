import { builder } from '../builder.ts';
import { Refused } from '../errors.ts';
import { keyOf } from '../ids.ts';
import { addException } from './add-exception.ts';
import { addLabourRate, addTaxRate } from './add-rate.ts';
import { changeShop } from './change-shop.ts';
import { loadShopSheet } from './load-shop-sheet.ts';
import './people-mutations.ts';
import './work-kind-schema.ts';
import { removeException } from './remove-exception.ts';
import { setWeek } from './set-week.ts';
import {
  AddExceptionInput,
  AddLabourRateInput,
  AddTaxRateInput,
  ChangeShopInput,
  RemoveExceptionInput,
  SetWeekInput,
} from './settings-inputs.ts';
import { ShopSheetType, WeeklyHoursType } from './settings-types.ts';

const WeekSet = builder.objectRef<{ personId: string | null }>('WeekSet').implement({
  description: 'A week that was set.',
  fields: (t) => ({
    hours: t.field({
      type: [WeeklyHoursType],
      description: 'Its pieces, in order.',
      resolve: ({ personId }, _, { read }) =>
        read.weeklyHours.findMany({
          where: { personId },
          orderBy: [{ weekday: 'asc' }, { fromMinute: 'asc' }],
        }),
    }),
  }),
});
const ExceptionTakenBack = builder
  .objectRef<{ exceptionId: string }>('ExceptionTakenBack')
  .implement({
    description: 'An exception that was taken back.',
    fields: (t) => ({ exceptionId: t.exposeID('exceptionId', { description: 'Which.' }) }),
  });

builder.queryFields((t) => ({
  shopSheet: t.field({
    type: ShopSheetType,
    errors: {},
    description: 'The sheet of the shop, for its manager.',
    resolve: (_, __, context) => loadShopSheet(context),
  }),
}));

/** Both ends of the hours, or neither. */
function bothOrNeither(from: number | null | undefined, to: number | null | undefined) {
  if (typeof from === 'number' && typeof to === 'number') return { fromMinute: from, toMinute: to };
  if (typeof from !== 'number' && typeof to !== 'number') return null;
  throw new Refused(
    'BAD_INPUT',
    'Hours were given with one end only: needed are fromMinute and toMinute, or neither for closed or away.',
    'toMinute',
  );
}

builder.mutationFields((t) => ({
  changeShop: t.prismaField({
    type: 'Shop',
    errors: {},
    description: 'Sets what the shop is and how it reckons, from now on. For the manager.',
    args: { input: t.arg({ type: ChangeShopInput, required: true, description: 'All of it.' }) },
    resolve: async (query, _, { input }, context) => {
      const { certificateNumber = null, ...given } = input;
      const id = await changeShop(context, { ...given, certificateNumber });
      return context.read.shop.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  addLabourRate: t.prismaField({
    type: 'LabourRate',
    errors: {},
    description: 'A new price of an hour, from a day on; what was quoted keeps its own.',
    args: { input: t.arg({ type: AddLabourRateInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const { replacesId, ...given } = input;
      const id = await addLabourRate(context, {
        ...given,
        replacesId: replacesId ? keyOf('LabourRate', replacesId, 'replacesId') : null,
      });
      return context.read.labourRate.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  addTaxRate: t.prismaField({
    type: 'TaxRate',
    errors: {},
    description: "A new line of the shop's own tax table, from a day on.",
    args: { input: t.arg({ type: AddTaxRateInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const { replacesId, ...given } = input;
      const id = await addTaxRate(context, {
        ...given,
        replacesId: replacesId ? keyOf('TaxRate', replacesId, 'replacesId') : null,
      });
      return context.read.taxRate.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  setWeek: t.field({
    type: WeekSet,
    errors: {},
    description: "Sets somebody's week, or the hours in which the shop is open.",
    args: { input: t.arg({ type: SetWeekInput, required: true, description: 'Whose, and when.' }) },
    resolve: async (_, { input }, context) => {
      const personId = input.personId ? keyOf('Person', input.personId, 'personId') : null;
      await setWeek(context, { ...input, personId });
      return { personId };
    },
  }),
  addException: t.prismaField({
    type: 'DayException',
    errors: {},
    description: 'Days on which the shop is closed, somebody is away, or hours differ.',
    args: { input: t.arg({ type: AddExceptionInput, required: true, description: 'Which.' }) },
    resolve: async (query, _, { input }, context) => {
      const id = await addException(context, {
        personId: input.personId ? keyOf('Person', input.personId, 'personId') : null,
        firstDay: input.firstDay,
        lastDay: input.lastDay,
        reason: input.reason,
        hours: bothOrNeither(input.fromMinute, input.toMinute),
      });
      return context.read.dayException.findUniqueOrThrow({ ...query, where: { id } });
    },
  }),
  removeException: t.field({
    type: ExceptionTakenBack,
    errors: {},
    description: 'Takes an exception back: the days are as the week says again.',
    args: { input: t.arg({ type: RemoveExceptionInput, required: true, description: 'Which.' }) },
    resolve: async (_, { input: { exceptionId } }, context) => {
      await removeException(context, keyOf('DayException', exceptionId, 'exceptionId'));
      return { exceptionId };
    },
  }),
}));
