/**
 * A query or mutation as code generation writes it (`documentMode: 'string'`): text that knows the
 * types of its variables and of its answer.
 */
export interface TypedDocument<Answer, Variables> {
  toString(): string;
  __apiType?: ((variables: Variables) => Answer) | undefined;
}

/**
 * Why a request brought no answer.
 * - `away`: no network, or the server is not answering; asking again may help
 * - `signIn`: there is no session, or it has ended
 * - `refused`: the server answered with an error; `code` names it, `message` is its sentence
 *
 * Failures a person can act on are not here: they are typed results of the schema, in the answer.
 */
export class RequestProblem extends Error {
  override readonly name = 'RequestProblem';
  readonly kind: 'away' | 'signIn' | 'refused';
  readonly code: string;
  readonly retryAfterSeconds: number | null;

  constructor(
    kind: RequestProblem['kind'],
    code: string,
    message: string,
    retryAfterSeconds: number | null = null,
  ) {
    super(message);
    this.kind = kind;
    this.code = code;
    this.retryAfterSeconds = retryAfterSeconds;
  }
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
export async function request<Answer, Variables>(
  document: TypedDocument<Answer, Variables>,
  ...[variables]: VariablesArgument<Variables>
): Promise<Answer> {
  const response = await fetch('/graphql', {
    method: 'POST',
    credentials: 'same-origin',
    headers: {
      'content-type': 'application/json',
      accept: 'application/graphql-response+json, application/json',
      'apollo-require-preflight': '1',
    },
    body: JSON.stringify({ query: document.toString(), variables: variables ?? {} }),
  }).catch((): never => {
    throw new RequestProblem('away', 'NETWORK', 'The shop’s server cannot be reached from here.');
  });
  return readAnswer<Answer>(response);
}

async function readAnswer<Answer>(response: Response): Promise<Answer> {
  const body = (await response.json().catch(() => null)) as Body<Answer> | null;
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
