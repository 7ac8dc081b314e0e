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
