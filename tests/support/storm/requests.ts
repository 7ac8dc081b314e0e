import type { Act } from './acts.ts';
import type { Line } from './line.ts';

export const CLOCK_MANY = `mutation($input: ClockManyInput!) { result: clockMany(input: $input) { __typename
  ... on ClockAnswers { answers { clientEventId refusal } } ... on Refusal { code message } } }`;
export const NOTE_FINDING = `mutation($input: NoteFindingInput!) { result: noteFinding(input: $input) { __typename ... on Refusal { code message } } }`;

type Result = {
  __typename: string;
  code?: string;
  message?: string;
  answers?: { clientEventId: string; refusal: string | null }[];
};

/** Asks over a line; rejects where the answer is none. */
export async function ask(line: Line, query: string, input: object): Promise<Result> {
  const { body } = await line.post(query, { input });
  const { data, errors } = body as { data?: { result: Result } | null; errors?: object[] };
  // A fault or an answer that is none is asked about again; a refusal for want of the database as well.
  if (!data?.result || errors) throw new Error(`No answer: ${JSON.stringify(errors)}`);
  if (data.result.__typename === 'Refusal' && data.result.code === 'UNAVAILABLE')
    throw new Error('unavailable');
  return data.result;
}

/** An act as the bench's pages note it, at a time by the device's clock. */
export function notedAs(
  { id, kind, itemId }: Act,
  { personId, orderId, madeAt }: { personId: string; orderId: string; madeAt: number },
) {
  const common = { id, personId, madeAt, words: id };
  const said = new Date(madeAt).toISOString();
  return kind === 'finding'
    ? {
        ...common,
        kind,
        input: {
          orderId,
          itemId,
          title: `Found ${id.slice(0, 8)}`,
          words: '',
          zone: '',
          class: 'observation' as const,
          foundAt: said,
          clientEventId: id,
        },
      }
    : { ...common, kind: 'clock' as const, input: { kind, itemId, at: said, clientEventId: id } };
}
