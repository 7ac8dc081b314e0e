import { shopClock } from '../lib/shop-clock.ts';
import { RequestProblem } from './request-problem.ts';

export { RequestProblem };

/**
 * A query or mutation as code generation writes it (`documentMode: 'string'`): text that knows the
 * types of its variables and of its answer.
 */
export interface TypedDocument<Answer, Variables> {
  toString(): string;
  __apiType?: ((variables: Variables) => Answer) | undefined;
}

interface Body<Answer> {
  data?: Answer | null;
  errors?: { message: string; extensions?: { code?: string } }[];
  error?: { code: string; message: string };
}

type VariablesArgument<Variables> =
  Variables extends Record<string, never> ? [variables?: Variables] : [variables: Variables];

/**
 * Asks the API one thing.
 *
 * @throws RequestProblem, never anything else, when there is no complete answer
 * @example const { viewer } = await request(ViewerDocument);
 */
export function request<Answer, Variables>(
  document: TypedDocument<Answer, Variables>,
  ...[variables]: VariablesArgument<Variables>
): Promise<Answer> {
  return post(document, variables, {}, LONGEST_MS);
}

/** Hangar Wi-Fi may take a request and never answer: after this long it is as if there were none. */
const LONGEST_MS = 60_000;
const LONGEST_SENDING_MS = 20_000;

/**
 * Asks the API one thing for what a person noted on this device. Where somebody else is signed in by now, the answer is
 * as if nobody were.
 */
export function requestFor<Answer, Variables>(
  personId: string,
  document: TypedDocument<Answer, Variables>,
  variables: Variables,
): Promise<Answer> {
  return post(document, variables, { 'fairlead-person': personId }, LONGEST_SENDING_MS);
}

async function post<Answer, Variables>(
  document: TypedDocument<Answer, Variables>,
  variables: Variables | undefined,
  headers: Record<string, string>,
  longest: number,
): Promise<Answer> {
  const asked = Date.now();
  const response = await fetch('/graphql', {
    method: 'POST',
    credentials: 'same-origin',
    headers: {
      'content-type': 'application/json',
      accept: 'application/graphql-response+json, application/json',
      'apollo-require-preflight': '1',
      ...headers,
    },
    body: JSON.stringify({ query: document.toString(), variables: variables ?? {} }),
    signal: AbortSignal.timeout(longest),
  }).catch((): never => {
    throw new RequestProblem('away', 'NETWORK', 'The shop’s server cannot be reached from here.');
  });
  shopClock.hear(response, asked);
  return readAnswer<Answer>(response);
}

async function readAnswer<Answer>(response: Response): Promise<Answer> {
  const body = (await response.json().catch((problem: unknown) => {
    if (problem instanceof SyntaxError) return null;
    // The line broke in the middle of the answer.
    throw new RequestProblem('away', 'NETWORK', 'The shop’s server cannot be reached from here.');
  })) as Body<Answer> | null;
  const first = body?.errors?.[0] ?? body?.error;
  const code = codeOf(body) ?? `HTTP_${response.status}`;
  if (response.status === 401 || code === 'SIGN_IN_NEEDED') {
    throw new RequestProblem('signIn', code, first?.message ?? 'Sign in to go on.');
  }
  if ([502, 503, 504].includes(response.status) || code === 'UNAVAILABLE') {
    const seconds = Number(response.headers.get('retry-after') ?? Number.NaN);
    throw new RequestProblem(
      'away',
      code,
      first?.message ?? 'The shop’s server is not answering.',
      Number.isFinite(seconds) ? seconds : null,
    );
  }
  if (first !== undefined) throw new RequestProblem('refused', code, first.message);
  // Not from the API, which answers in JSON: the line to it broke on the way there or back.
  if (body === null && response.status >= 500) {
    throw new RequestProblem(
      'away',
      code,
      'The line to the shop’s server broke. Look whether it was taken, then try again.',
    );
  }
  if (body?.data === undefined || body.data === null) {
    throw new RequestProblem('refused', code, 'The server’s answer could not be read.');
  }
  return body.data;
}

function codeOf(body: Body<unknown> | null): string | undefined {
  return body?.errors?.[0]?.extensions?.code ?? body?.error?.code;
}
