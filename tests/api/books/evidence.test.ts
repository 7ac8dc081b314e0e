/** What each step from the quote to the invoice rests on. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop } from '../../support/shop.ts';
import { draft, issueTo, makeSold } from './billing.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

it('each step has its answers, times or lots, step by step; who is not at the desk is told none', async () => {
  const shop = await makeShop(api);
  const visit = await makeSold(shop, {
    lines: [
      { title: 'Starter replaced', likelyMinor: 8_000n, hoursP50: '0.8', hoursP90: '1.4' },
      { title: 'Line re-routed', likelyMinor: 30_000n },
    ],
    ceiling: 20_000n,
    items: [
      { line: 0, seconds: 3600 },
      { line: 1, seconds: 3600 },
      { line: null, title: 'Asked for at the gate', seconds: 1800 },
    ],
  });
  await issueTo(shop, visit.itemIds[0] ?? '', {});
  const made = await draft(shop, visit);
  const ask = async (role: 'front_desk' | 'mechanic') => {
    const { data } = await shop.as<{
      node: {
        difference: { kind: string; title: string }[];
        differenceEvidence: { sentences: string[] }[];
      };
    }>(
      role,
      'query($id: ID!) { node(id: $id) { ... on Invoice { difference { kind title } differenceEvidence { sentences } } } }',
      { id: made.id },
    );
    return data!.node;
  };
  const { difference, differenceEvidence } = await ask('front_desk');
  expect(differenceEvidence).toHaveLength(difference.length);
  const of = (title: string) =>
    differenceEvidence[difference.findIndex((step) => step.title.startsWith(title))]?.sentences;
  expect(of('Starter replaced: more labour')).toEqual([
    'Quoted as likely over as under 0.8 h, nine in ten under 1.4 h.',
    '14 Mar 2026, 09:00 to 10:00, 1 h 0 min, Test mechanic.',
  ]);
  expect(of('Starter replaced: parts')).toEqual([
    expect.stringMatching(/^2 of Gasket, batch B, issued \d+ \w+ \d{4}, \d\d:\d\d\.$/),
  ]);
  expect(of('Asked for at the gate: not in the quote')).toEqual([
    expect.stringMatching(/, 30 min, /),
  ]);
  const held = difference.findIndex(({ kind }) => kind === 'held_back');
  expect(differenceEvidence[held]?.sentences).toEqual([
    'Quote 1, revision 1, for the visit.',
    expect.stringMatching(
      /said go ahead up to 200\.00 USD, by telephone, on 2026-03-01 09:00 UTC\.$/,
    ),
  ]);
  expect((await ask('mechanic')).differenceEvidence).toEqual([]);
});
