import { expect, it } from 'vitest';
import { packagesFor } from '../features/programme/inspection-packages.ts';

const annual = { id: 'a', title: 'Annual', inspection: 'annual' as const };
const hundred = { id: 'h', title: '100-hour', inspection: 'hundred_hour' as const };
const of = (...asked: ('annual' | 'hundred_hour' | null)[]) =>
  asked.map((inspection) => ({ inspection }));

it('quotes a 100-hour by a package that is one, else by an annual, which counts for it (14 CFR 91.409(b))', () => {
  expect(packagesFor([annual, hundred], of('hundred_hour'))).toEqual([hundred, annual]);
  expect(packagesFor([annual], of('hundred_hour'))).toEqual([annual]);
});
it('never quotes an annual by a 100-hour, and both by an annual alone', () => {
  expect(packagesFor([hundred], of('annual'))).toEqual([]);
  expect(packagesFor([annual, hundred], of('annual', 'hundred_hour', null))).toEqual([annual]);
});
it('quotes no package where none of the lines asks for an inspection', () => {
  expect(packagesFor([annual, hundred], of(null))).toEqual([]);
});
