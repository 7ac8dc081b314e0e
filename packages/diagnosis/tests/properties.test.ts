import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  answersInOrder,
  type Knowledge,
  learn,
  nextChecks,
  nextQuestion,
  posterior,
  reasonsOf,
  type Seen,
  type Sighting,
  type Symptom,
  suggest,
  tables,
} from '../src/index.ts';

const aircraft = fc.constantFrom('helicopter' as const, 'airplane' as const, undefined);

/** Answers to any of a symptom's questions, left out at will. */
const seenOf = (symptom: Symptom): fc.Arbitrary<Seen> =>
  fc
    .record(
      Object.fromEntries(
        symptom.questions.map(({ id, answers }) => [
          id,
          fc.option(fc.constantFrom(...answers.map((answer) => answer.id)), {
            nil: undefined,
            freq: 1,
          }),
        ]),
      ),
    )
    .map((all) =>
      Object.fromEntries(
        Object.entries(all).filter((entry): entry is [string, string] => entry[1] !== undefined),
      ),
    );

const symptom = fc.constantFrom(...tables.symptoms);
const sighting: fc.Arbitrary<Sighting> = fc
  .tuple(symptom, aircraft)
  .chain(([one, kind]) => seenOf(one).map((seen) => ({ symptom: one.id, seen, aircraft: kind })));

/** A sighting and what a shop of some closed findings of the same symptom knows. */
const learned = sighting.chain((one) => {
  const table = tables.symptoms.find(({ id }) => id === one.symptom)!;
  return fc
    .array(
      fc.record({
        symptom: fc.constant(table.id),
        seen: seenOf(table),
        turnedOut: fc.constantFrom(...table.causes.map(({ id }) => id)),
        yearsAgo: fc.double({ min: 0, max: 30, noNaN: true }),
      }),
      { maxLength: 12 },
    )
    .map((cases) => ({ sighting: one, table, knowledge: learn(tables, cases) }));
});

const chance = (knowledge: Knowledge, one: Sighting, cause: string) => {
  const { causes, probabilities } = posterior(knowledge, one);
  return probabilities[causes.findIndex(({ id }) => id === cause)] ?? 0;
};

describe('whatever is seen', () => {
  test('the probabilities of the causes sum to 1', () => {
    fc.assert(
      fc.property(learned, ({ sighting: one, knowledge }) => {
        const { causes } = suggest(knowledge, one);
        expect(causes.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
        for (const { probability } of causes) expect(probability).toBeGreaterThan(0);
      }),
      { numRuns: 40 },
    );
  });

  test('the order in which it was seen does not matter', () => {
    fc.assert(
      fc.property(learned, ({ sighting: one, knowledge }) => {
        const turned = { ...one, seen: Object.fromEntries(Object.entries(one.seen).toReversed()) };
        expect(posterior(knowledge, turned).probabilities).toEqual(
          posterior(knowledge, one).probabilities,
        );
        const [first] = posterior(knowledge, one).causes;
        const bits = (of: Sighting) =>
          Object.fromEntries(
            (reasonsOf(knowledge, of).get(first!.id) ?? []).map((reason) => [
              reason.question,
              reason.bits,
            ]),
          );
        expect(bits(turned)).toEqual(bits(one));
      }),
      { numRuns: 40 },
    );
  });

  test('an answer that no cause distinguishes moves nothing, and tells nothing', () => {
    fc.assert(
      fc.property(sighting, (one) => {
        const table = tables.symptoms.find(({ id }) => id === one.symptom)!;
        const mute = {
          id: 'mute',
          asks: 'Mute?',
          kind: 'look' as const,
          minutes: 1,
          answers: [
            { id: 'a', words: 'A', says: 'It is A' },
            { id: 'b', words: 'B', says: 'It is B' },
          ],
          usual: { a: 30, b: 70 },
        };
        const wider = {
          ...tables,
          symptoms: [{ ...table, questions: [...table.questions, mute] }],
        };
        const before = posterior(tables, one).probabilities;
        const after = posterior(wider, { ...one, seen: { ...one.seen, mute: 'a' } });
        for (const [index, probability] of after.probabilities.entries())
          expect(probability).toBeCloseTo(before[index]!, 12);
        expect(nextChecks(wider, one).map(({ question }) => question)).not.toContain('mute');
        const told = reasonsOf(wider, { ...one, seen: { ...one.seen, mute: 'a' } });
        const reasons = told.get(after.causes[0]!.id)!;
        expect(reasons.find(({ question }) => question === 'mute')).toMatchObject({
          speaks: 'neither',
        });
      }),
      { numRuns: 40 },
    );
  });

  test('a reason is what taking its observation back would undo', () => {
    fc.assert(
      fc.property(learned, ({ sighting: one, knowledge }) => {
        const cause = posterior(knowledge, one).causes[1]!;
        const lnOdds = (of: Sighting) => {
          const p = chance(knowledge, of, cause.id);
          return Math.log2(p / (1 - p));
        };
        for (const { question, bits } of (reasonsOf(knowledge, one).get(cause.id) ?? []).slice(
          0,
          3,
        )) {
          const { [question]: _, ...rest } = one.seen;
          expect(bits).toBeCloseTo(lnOdds(one) - lnOdds({ ...one, seen: rest }), 6);
        }
      }),
      { numRuns: 40 },
    );
  });

  test('the information of a check is what it is expected to take off the doubt', () => {
    const entropy = (chances: readonly number[]) =>
      chances.reduce((sum, p) => (p > 0 ? sum - p * Math.log2(p) : sum), 0);
    fc.assert(
      fc.property(sighting, (one) => {
        const now = entropy(posterior(tables, one).probabilities);
        for (const { question, bits, outcomes } of nextChecks(tables, one).slice(0, 2)) {
          const left = outcomes.reduce((sum, { answer, probability }) => {
            const seen = { ...one.seen, [question]: answer };
            return sum + probability * entropy(posterior(tables, { ...one, seen }).probabilities);
          }, 0);
          expect(bits).toBeCloseTo(now - left, 9);
        }
      }),
      { numRuns: 30 },
    );
  });

  test('choices are the answers of its aircraft, the expected first', () => {
    fc.assert(
      fc.property(sighting, fc.nat(), (one, at) => {
        const table = tables.symptoms.find(({ id }) => id === one.symptom)!;
        const question = table.questions[at % table.questions.length]!;
        const said = answersInOrder(tables, one, question.id).map(({ id }) => id);
        const fit = question.answers.filter(
          ({ only }) => !only || !one.aircraft || only === one.aircraft,
        );
        expect(said.toSorted()).toEqual(fit.map(({ id }) => id).toSorted());
      }),
      { numRuns: 30 },
    );
  });
});

describe('asking in steps', () => {
  test('ends, asks nothing twice, nothing that was skipped, and nothing that would not tell', () => {
    fc.assert(
      fc.property(
        symptom,
        aircraft,
        fc.array(fc.nat(), { minLength: 12, maxLength: 12 }),
        (table, kind, dice) => {
          const asked: string[] = [];
          const seen: Record<string, string> = {};
          const skipped = new Set<string>();
          for (const die of dice) {
            const one = { symptom: table.id, seen, aircraft: kind };
            const question = nextQuestion(tables, one, skipped);
            if (!question) break;
            asked.push(question.id);
            expect(question.kind).toBe('look');
            const answers = answersInOrder(tables, one, question.id);
            const chosen = answers[die % (answers.length + 1)];
            if (chosen) seen[question.id] = chosen.id;
            else skipped.add(question.id);
          }
          expect(new Set(asked).size).toBe(asked.length);
          const left = nextQuestion(tables, { symptom: table.id, seen, aircraft: kind }, skipped);
          expect(left).toBeNull();
        },
      ),
      { numRuns: 30 },
    );
  });
});

describe('learning', () => {
  test('one more case of a cause never lowers it: as it stands before anything is seen', () => {
    fc.assert(
      fc.property(learned, fc.nat(), ({ sighting: one, table, knowledge }, at) => {
        const { id } = table.causes[at % table.causes.length]!;
        const more = learn(knowledge, [
          { symptom: table.id, seen: one.seen, turnedOut: id, yearsAgo: 0 },
        ]);
        const bare = { symptom: table.id, seen: {} };
        expect(chance(more, bare, id)).toBeGreaterThan(chance(knowledge, bare, id));
      }),
      { numRuns: 60 },
    );
  });

  // A case that looked different may lower it, and should: then this cause has a look of its own in this shop.
  test('one more case that looked like what is seen, or of which less was seen, never lowers it', () => {
    fc.assert(
      fc.property(
        learned,
        fc.nat(),
        fc.array(fc.boolean(), { minLength: 20, maxLength: 20 }),
        ({ sighting: one, table, knowledge }, at, kept) => {
          const { id } = table.causes[at % table.causes.length]!;
          const seen = Object.fromEntries(Object.entries(one.seen).filter((_, i) => kept[i % 20]));
          const more = learn(knowledge, [{ symptom: table.id, seen, turnedOut: id, yearsAgo: 0 }]);
          expect(chance(more, one, id)).toBeGreaterThanOrEqual(
            chance(knowledge, one, id) * (1 - 1e-12),
          );
        },
      ),
      { numRuns: 120 },
    );
  });

  test('cases in any order, or learnt in two goes, teach the same', () => {
    fc.assert(
      fc.property(fc.array(sighting, { maxLength: 6 }), (sightings) => {
        const cases = sightings.map(({ symptom: id, seen }, index) => ({
          symptom: id,
          seen,
          turnedOut: 'something_else',
          yearsAgo: index,
        }));
        const atOnce = learn(tables, cases);
        const inTwo = learn(learn(tables, cases.slice(3)), cases.slice(0, 3));
        for (const kind of ['causes', 'answers'] as const) {
          expect(Object.keys(inTwo.learnt[kind]).toSorted()).toEqual(
            Object.keys(atOnce.learnt[kind]).toSorted(),
          );
          for (const [key, weight] of Object.entries(atOnce.learnt[kind]))
            expect(inTwo.learnt[kind][key]).toBeCloseTo(weight, 12);
        }
      }),
      { numRuns: 30 },
    );
  });
});
