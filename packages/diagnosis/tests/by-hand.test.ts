import { describe, expect, test } from 'vitest';
import {
  learn,
  likelihood,
  nextChecks,
  posterior,
  reasonsOf,
  suggest,
  weightAfter,
} from '../src/index.ts';
import { symptom, twoCauses } from './two-causes.ts';

const [a, b] = symptom.causes as [(typeof symptom.causes)[0], (typeof symptom.causes)[0]];
const seen = (answers: Record<string, string>) => ({ symptom: 's', seen: answers });

describe('Bayes by hand', () => {
  test('even causes and 80 against 20: four to one', () => {
    const { probabilities } = posterior(twoCauses, seen({ tells: 'yes' }));
    expect(probabilities[0]).toBeCloseTo(0.8, 12);
    expect(probabilities[1]).toBeCloseTo(0.2, 12);
    const [reason] = reasonsOf(twoCauses, seen({ tells: 'yes' })).get('a')!;
    expect(reason?.bits).toBeCloseTo(2, 12);
    expect(reason).toMatchObject({
      speaks: 'for',
      sentence: 'It is: about 4 times as likely with this cause as with the others.',
      source: 'common practice, no source',
    });
    expect(reasonsOf(twoCauses, seen({ tells: 'yes' })).get('b')![0]).toMatchObject({
      speaks: 'against',
      sentence: 'It is: about 4 times less likely with this cause than with the others.',
    });
  });

  test('what depends on each other is taken jointly: parent and child alike is 9 to 5', () => {
    expect(likelihood(twoCauses, symptom, a, { parent: 'yes', child: 'yes' })).toBeCloseTo(
      0.45,
      12,
    );
    expect(likelihood(twoCauses, symptom, b, { parent: 'yes', child: 'yes' })).toBeCloseTo(
      0.25,
      12,
    );
    // Alone, neither tells anything: the child is as often yes as no under either cause.
    for (const alone of [{ parent: 'yes' }, { child: 'yes' }])
      expect(posterior(twoCauses, seen(alone)).probabilities[0]).toBeCloseTo(0.5, 12);
  });

  test('the expected information of the check is 1 − H(0.8) bits, for ten minutes', () => {
    const [best] = nextChecks(twoCauses, seen({}));
    expect(best?.question).toBe('tells');
    expect(best?.bits).toBeCloseTo(0.2780719051126377, 12);
    expect(best?.bitsPerMinute).toBeCloseTo(0.02780719051126377, 12);
    for (const { probability } of best!.outcomes) expect(probability).toBeCloseTo(0.5, 12);
    expect(best?.outcomes[0]?.points.probability).toBeCloseTo(0.8, 12);
    // The child alone tells nothing; once its parent is known, it does: 1 bit less the two that are left.
    expect(nextChecks(twoCauses, seen({})).map(({ question }) => question)).toEqual(['tells']);
    const after = nextChecks(twoCauses, seen({ parent: 'yes' }));
    expect(after[0]?.question).toBe('child');
    // H(0.7) − (H(0.9) + H(0.5)) / 2
    expect(after[0]?.bits).toBeCloseTo(0.8812908992306926 - (0.4689955935892812 + 1) / 2, 12);
  });

  test('nothing stands out at one half, and a sentence says what is needed', () => {
    expect(suggest(twoCauses, seen({}))).toMatchObject({
      standing: 'unsure',
      says: 'Not known: nothing was looked at yet, and the likeliest has 50 %; more than 50 % is needed to say one.',
    });
    expect(suggest(twoCauses, seen({ tells: 'yes' }))).toMatchObject({
      standing: 'stands_out',
      says: 'Most likely: A (80 %).',
    });
  });
});

describe('learning by hand', () => {
  const closed = (turnedOut: string, answers: Record<string, string>, yearsAgo = 0) => ({
    symptom: 's',
    seen: answers,
    turnedOut,
    yearsAgo,
  });

  test('twenty cases are assumed: ten closed for A make it 20 to 10', () => {
    const learnt = learn(
      twoCauses,
      Array.from({ length: 10 }, () => closed('a', {})),
    );
    expect(posterior(learnt, seen({})).probabilities[0]).toBeCloseTo(20 / 30, 12);
    expect(suggest(learnt, seen({})).restsOn).toBe(
      'Rests on the program’s tables, which count as 20 cases, and on 10 closed findings of this shop, which count as 10 (half after 6 years).',
    );
  });

  test('a row weighs twelve cases: six closed that were not so take 80 % to 9.6 of 18', () => {
    const learnt = learn(
      twoCauses,
      Array.from({ length: 6 }, () => closed('a', { tells: 'no' })),
    );
    expect(likelihood(learnt, symptom, a, { tells: 'yes' })).toBeCloseTo(9.6 / 18, 12);
    expect(likelihood(learnt, symptom, b, { tells: 'yes' })).toBeCloseTo(0.2, 12);
  });

  test('six years old counts half', () => {
    expect(weightAfter(6)).toBe(0.5);
    const learnt = learn(twoCauses, [closed('a', {}, 6)]);
    expect(posterior(learnt, seen({})).probabilities[0]).toBeCloseTo(10.5 / 20.5, 12);
  });

  test('an answer whose parent was not seen is not guessed at', () => {
    const learnt = learn(twoCauses, [closed('a', { child: 'no' })]);
    expect(learnt.learnt.answers).toEqual({});
    expect(learnt.learnt.causes).toEqual({ 's a': 1 });
  });

  test('what is given is refused where it cannot be, and never changed', () => {
    expect(() => learn(twoCauses, [closed('c', {})])).toThrow('"S" has no cause "c"; it has a, b.');
    expect(() => learn(twoCauses, [closed('a', { tells: 'maybe' })])).toThrow(
      '"Tells?" cannot be answered "maybe"; it takes yes, no.',
    );
    expect(() => learn(twoCauses, [closed('a', {}, -1)])).toThrow(
      'A closed finding is -1 years old; needed is 0 or more.',
    );
    expect(() => posterior(twoCauses, { symptom: 'x', seen: {} })).toThrow(
      'There is no symptom "x"; there are s.',
    );
    expect(() => posterior(twoCauses, seen({ other: 'yes' }))).toThrow(
      '"S" has no question "other"',
    );
    const frozen = Object.freeze([Object.freeze(closed('a', Object.freeze({ tells: 'yes' })))]);
    const before = JSON.stringify(twoCauses);
    learn(twoCauses, frozen);
    expect(JSON.stringify(twoCauses)).toBe(before);
  });
});
