import { expect, test } from 'vitest';
import { stillOpen } from '../features/records/still-open.ts';

const item = (
  position: number,
  state: 'open' | 'in_work' | 'waiting' | 'done' | 'inspected' | 'put_off',
) => ({
  position,
  title: `Task ${position}`,
  state,
});
const book = (needed: boolean, signed: boolean, left: number) => ({
  needed,
  signed,
  left,
  book: { id: 'b', kind: 'airframe' as const, title: 'Airframe' },
});

test('what is open stands in the order in which one does it, each with the first of its kind', () => {
  const rows = stillOpen(
    {
      items: [item(1, 'inspected'), item(2, 'done'), item(3, 'waiting'), item(4, 'open')],
      findings: [
        { number: 1, title: 'Seep', state: 'assessed' },
        { number: 2, title: 'Chafe', state: 'noted' },
      ],
      unclosed: ['“Belly panel”, opened by Ruan Teasel, is not closed', 'another'],
      leakChecks: [
        { kind: 'after_standing', state: 'dry' },
        { kind: 'after_run_up', state: 'leaks' },
      ],
    },
    [book(true, false, 0)],
  );
  expect(rows.map(({ words, href }) => [words, href])).toEqual([
    ['1 finding is not assessed', '#finding-2'],
    ['2 items are not finished', '#item-3'],
    ['1 item waits for initials', '#item-2'],
    ['2 things are not closed', '#open-things'],
    ['1 leak check is not settled', '#leak-checks'],
    ['1 book wants its entry', '#entries'],
  ]);
  expect(rows[1]?.first).toBe('item 3, Task 3');
  expect(rows[3]?.first).toContain('Belly panel');
});

test('nothing is open where everything is inspected or put off, and signed', () => {
  const facts = {
    items: [item(1, 'inspected'), item(2, 'put_off')],
    findings: [],
    unclosed: [],
    leakChecks: [],
  };
  expect(stillOpen(facts, [book(true, true, 0), book(false, false, 0)])).toEqual([]);
  expect(stillOpen(facts, [book(true, true, 1)])).toHaveLength(1);
});
