import { join } from 'node:path';
import { expect, test } from 'vitest';
import { docstringExamples, evaluate } from '../../../tests/support/docstring-examples.ts';
import * as proof from '../src/index.ts';

const examples = docstringExamples(join(import.meta.dirname, '../src'));

test('the docstrings have examples', () => {
  expect(examples.length).toBeGreaterThan(1);
});

test.each(examples)('$file: $call', ({ call, value }) => {
  expect(evaluate(call, { ...proof })).toEqual(evaluate(value, { ...proof }));
});
