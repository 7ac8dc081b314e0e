import type { AccessCondition, AccessFactor, AccessPriors, FactorRange } from '@fairlead/labour';
import { builder } from '../builder.ts';
import { type AccessStep, CONDITION_WORDS, stepsOf } from './access-table.ts';

export const AccessConditionEnum = builder.enumType('AccessCondition', {
  description: 'What makes a place hard to work in.',
  values: {
    clearance: { value: 'clearanceMm', description: 'Room for hand and tool.' },
    sight: { value: 'sight', description: 'How the work is seen.' },
    posture: { value: 'posture', description: 'How one stands, kneels or lies at it.' },
    reach: { value: 'reach', description: 'How far in it is.' },
    swing: { value: 'swingDeg', description: 'How far a tool can be swung.' },
    held: { value: 'held', description: 'Held against spring, cam or weight while fastening.' },
    locked: { value: 'lockedFasteners', description: 'Lockwire, cotters, tabs.' },
  } satisfies Record<string, { value: AccessCondition; description: string }>,
});

const FactorRangeType = builder.objectRef<FactorRange>('FactorRange').implement({
  description: 'What hours are multiplied by, and where that lies nine times in ten.',
  fields: (t) => ({
    factor: t.exposeFloat('factor', { description: 'In the middle: 1.26 is a quarter more.' }),
    from: t.exposeFloat('from', { description: 'Lower end of the 90 % interval.' }),
    to: t.exposeFloat('to', { description: 'Upper end of the 90 % interval.' }),
  }),
});

/** In two decimals, as it is shown: whether the shop's own jobs have said anything. */
const shown = ({ factor, from, to }: FactorRange) =>
  [factor, from, to].map((value) => value.toFixed(2)).join(' ');

export const AccessFactorType = builder.objectRef<AccessFactor>('AccessFactor').implement({
  description:
    'What one level of a condition does to hours, against the best level: as believed before, and as this shop’s jobs have moved it.',
  fields: (t) => ({
    condition: t.expose('condition', {
      type: AccessConditionEnum,
      description: 'Which condition.',
    }),
    conditionWords: t.string({
      description: 'What the condition is called.',
      resolve: ({ condition }) => CONDITION_WORDS[condition],
    }),
    words: t.exposeString('words', { description: 'What the level is called.' }),
    prior: t.expose('prior', {
      type: FactorRangeType,
      description: 'From the table that the model was fitted with, before any job was seen.',
    }),
    posterior: t.expose('posterior', {
      type: FactorRangeType,
      description: 'After what the shop has clocked.',
    }),
    items: t.exposeInt('items', {
      description:
        'Finished items at this level or a worse one, which tell of the last step to it.',
    }),
    sentence: t.string({
      description: 'Both in words.',
      resolve: ({ prior, posterior, items }) => {
        const jobs = `${items} ${items === 1 ? 'job' : 'jobs'}`;
        if (shown(prior) === shown(posterior))
          return items === 0
            ? `×${prior.factor.toFixed(2)} is believed; no job has told otherwise yet.`
            : `×${prior.factor.toFixed(2)} is believed, and ${jobs} moved it by less than shows.`;
        return `×${prior.factor.toFixed(2)} was believed; ${jobs} and what is shared with them make it ×${posterior.factor.toFixed(2)}, nine in ten between ×${posterior.from.toFixed(2)} and ×${posterior.to.toFixed(2)}.`;
      },
    }),
  }),
});

const AccessStepType = builder.objectRef<AccessStep>('AccessStep').implement({
  description: 'One step of a condition for the worse: what the table believes of it.',
  fields: (t) => ({
    condition: t.expose('condition', {
      type: AccessConditionEnum,
      description: 'Which condition.',
    }),
    conditionWords: t.string({
      description: 'What the condition is called.',
      resolve: ({ condition }) => CONDITION_WORDS[condition],
    }),
    step: t.exposeInt('step', { description: 'Counted from 1, the first for the worse.' }),
    words: t.exposeString('words', { description: 'The level that it leads to.' }),
    factor: t.exposeFloat('factor', {
      description: 'What it multiplies hours by, on top of the step before; 1 or more.',
    }),
    giveOrTake: t.exposeFloat('giveOrTake', {
      description: 'How sure: nine in ten lie between factor ÷ this and factor × this.',
    }),
  }),
});

/** A table with what it changed, or the program's own. */
export interface AccessTable {
  revision: number;
  access: AccessPriors;
  savedAt: Date | null;
  savedBy: string | null;
  reason: string;
  changes: readonly string[];
}

export const AccessTableType = builder.objectRef<AccessTable>('AccessTable').implement({
  description: 'What the shop believes that places cost, before its jobs are asked: one revision.',
  fields: (t) => ({
    revision: t.exposeInt('revision', { description: '0 is the program’s own table.' }),
    savedBy: t.exposeString('savedBy', {
      nullable: true,
      description: 'Who saved it; null for the program’s own.',
    }),
    savedAt: t.expose('savedAt', {
      type: 'DateTime',
      nullable: true,
      description: 'When; null for the program’s own.',
    }),
    reason: t.exposeString('reason', { description: 'Why, in the manager’s words.' }),
    changes: t.exposeStringList('changes', {
      description: 'What it says otherwise than the revision before, a sentence a step.',
    }),
    steps: t.field({
      type: [AccessStepType],
      description: 'All of it, in order.',
      resolve: ({ access }) => stepsOf(access),
    }),
  }),
});

export const AccessStepInput = builder.inputType('AccessStepInput', {
  description: 'One step for the worse.',
  fields: (t) => ({
    condition: t.field({
      type: AccessConditionEnum,
      required: true,
      description: 'Of which condition.',
    }),
    step: t.int({ required: true, description: 'Counted from 1.' }),
    factor: t.float({ required: true, description: '1 to 10, on top of the step before.' }),
    giveOrTake: t.float({
      required: true,
      description: '1.01 to 10: nine in ten lie between factor ÷ this and factor × this.',
    }),
  }),
});
