import { expect, test } from 'vitest';
import { readImportOptions } from '../../scripts/import-history-options.ts';

const at = '/somewhere';

test('a file is looked up from where the command was called', () => {
  expect(readImportOptions(['jobs.csv'], at)).toEqual({
    file: '/somewhere/jobs.csv',
    skipBad: false,
    refused: '/somewhere/jobs.refused.csv',
    shop: undefined,
  });
  expect(readImportOptions(['/else/jobs.CSV', '--skip-bad'], at).refused).toBe(
    '/else/jobs.refused.csv',
  );
});

test('options may stand anywhere, with a blank or an equals sign', () => {
  const wanted = {
    file: '/somewhere/a.csv',
    skipBad: true,
    refused: '/somewhere/out.csv',
    shop: 'My = shop',
  };
  expect(
    readImportOptions(['--skip-bad', '--refused', 'out.csv', 'a.csv', '--shop', 'My = shop'], at),
  ).toEqual(wanted);
  expect(
    readImportOptions(['a.csv', '--shop=My = shop', '--refused=out.csv', '--skip-bad'], at),
  ).toEqual(wanted);
});

test.each([
  [[], 'Which file?'],
  [['a.csv', 'b.csv'], 'One file at a time; got 2.'],
  [['a.csv', '--skip'], '"--skip" is not an option.'],
  [['a.csv', '--shop'], '--shop needs a value after it.'],
  [['a.csv', '--shop', '--skip-bad'], '--shop needs a value after it.'],
  [['a.csv', '--shop=A', '--shop=B'], '--shop was given twice.'],
  [['a.csv', '--refused', 'out.csv'], '--refused only goes with --skip-bad; nothing was imported.'],
])('%j is refused: %s', (args, sentence) => {
  expect(() => readImportOptions(args, at)).toThrow(sentence);
});
