import { describe, expect, test } from 'vitest';
import { hazards, sources, tables } from '../src/index.ts';
import { chancesOf, contextOf } from '../src/tables.ts';

const sum = (values: readonly number[]) => values.reduce((total, one) => total + one, 0);

describe.each(tables.symptoms)('the table of "$name"', (symptom) => {
  const { questions, causes } = symptom;
  const asked = (id: string) => questions.find((question) => question.id === id);

  test('has names of its own, and ends with something else', () => {
    for (const ids of [questions, causes].map((all) => all.map(({ id }) => id)))
      expect(new Set(ids).size).toBe(ids.length);
    for (const { answers } of questions)
      expect(new Set(answers.map(({ id }) => id)).size).toBe(answers.length);
    expect(causes.at(-1)?.kind).toBe('something_else');
    expect(causes.filter(({ kind }) => kind === 'something_else')).toHaveLength(1);
    expect(causes.at(-1)?.rows).toEqual([]);
  });

  test('says what is usual, in sums of 100 over its own answers', () => {
    for (const { answers, usual, usualGiven = {}, given } of questions) {
      for (const shares of [usual, ...Object.values(usualGiven)]) {
        expect(sum(Object.values(shares))).toBeCloseTo(100, 9);
        expect(Object.keys(shares).toSorted()).toEqual(answers.map(({ id }) => id).toSorted());
        for (const share of Object.values(shares)) expect(share).toBeGreaterThan(0);
      }
      const parent = given === undefined ? undefined : asked(given);
      if (given !== undefined) expect(parent).toBeDefined();
      for (const on of Object.keys(usualGiven))
        expect(parent?.answers.map(({ id }) => id)).toContain(on);
    }
  });

  test('has rows on questions and answers that there are, each with its source', () => {
    for (const { rows, source } of causes) {
      expect(Object.keys(sources)).toContain(source);
      for (const [id, shares, from, on] of rows) {
        const question = asked(id);
        expect(question, id).toBeDefined();
        for (const answer of Object.keys(shares))
          expect(
            question?.answers.map((one) => one.id),
            id,
          ).toContain(answer);
        expect(Object.keys(sources)).toContain(from);
        if (on !== undefined)
          expect(asked(question?.given ?? '')?.answers.map((one) => one.id)).toContain(on);
      }
    }
  });

  test('rules nothing out: every answer has a chance under every cause, and they sum to 1', () => {
    for (const cause of causes)
      for (const question of questions) {
        const parents = question.given ? (asked(question.given)?.answers ?? []) : [];
        for (const given of ['', ...parents.map(({ id }) => id)]) {
          const chances = chancesOf(tables, symptom, cause, question, given);
          expect(sum(chances)).toBeCloseTo(1, 9);
          for (const chance of chances) expect(chance).toBeGreaterThan(0.0001);
          expect(['', given]).toContain(contextOf(cause, question, given));
        }
      }
  });

  test('has work with a JASC code for every fault, and none where nothing is wrong', () => {
    for (const { kind, work } of causes)
      if (kind === 'fault') expect(work?.jasc).toMatch(/^\d{4}$/);
      else expect(work).toBeNull();
  });

  test('describes every check, with its minutes', () => {
    for (const { kind, how, minutes, hazards: dangers = [] } of questions) {
      expect(minutes).toBeGreaterThan(0);
      expect(how === undefined).toBe(kind === 'look');
      for (const danger of dangers) expect(hazards[danger].length).toBeGreaterThan(20);
    }
  });
});
