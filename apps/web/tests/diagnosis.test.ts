import { describe, expect, it } from 'vitest';
import { answerChanges } from '../features/diagnosis/answer-changes.ts';
import { outcomeInput, outcomeWrong } from '../features/diagnosis/outcome-chosen.ts';
import { chanceText } from '../features/diagnosis/shown.ts';

describe('a probability in words', () => {
  it.each([
    [0.652, '65 %'],
    [0.5, '50 %'],
    [0.004, '<1 %'],
    [0, '<1 %'],
    [0.999, '>99 %'],
    [0.994, '99 %'],
  ])('%d is %s', (probability, words) => {
    expect(chanceText(probability)).toBe(words);
  });
});

describe('what is sent after somebody changed what is seen', () => {
  it('is what differs, and null for what was taken back', () => {
    expect(answerChanges({ a: 'x', b: 'y', c: 'z' }, { a: 'x', b: 'w', d: 'v' })).toEqual({
      b: 'w',
      d: 'v',
      c: null,
    });
    expect(answerChanges({ a: 'x' }, { a: 'x' })).toEqual({});
  });
});

describe('what it turned out to be', () => {
  const of = (choice: string, words = '') => outcomeInput('f', 'fluid', { choice, words });

  it('is nothing while nothing is chosen, a cause that is listed, or words', () => {
    expect(of('')).toBeNull();
    expect(of('listed:rocker_cover', 'left over')).toEqual({
      findingId: 'f',
      symptom: 'fluid',
      kind: 'listed',
      cause: 'rocker_cover',
    });
    expect(of('other', 'A split hose')).toEqual({
      findingId: 'f',
      symptom: 'fluid',
      kind: 'other',
      words: 'A split hose',
    });
    expect(of('normal', 'Dew')).toMatchObject({ kind: 'normal', words: 'Dew' });
  });

  it('wants words where it is not listed', () => {
    expect(outcomeWrong({ choice: 'other', words: ' x ' })).toBe('Say in a few words what it was.');
    expect(outcomeWrong({ choice: 'normal', words: '' })).not.toBeNull();
    expect(outcomeWrong({ choice: 'normal', words: 'Dew' })).toBeNull();
    expect(outcomeWrong({ choice: 'listed:tank', words: '' })).toBeNull();
    expect(outcomeWrong({ choice: '', words: '' })).toBeNull();
  });
});
