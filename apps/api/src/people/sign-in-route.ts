import type { IncomingHttpHeaders } from 'node:http';
import type { Request as ExpressRequest, RequestHandler } from 'express';

const LARGEST_BODY = 16 * 1024;
const RETRY_SECONDS = '3';

/** The only two things that anybody can do here; every other address of the library is closed. */
const open = new Set(['POST /auth/sign-in/email', 'POST /auth/sign-out']);

type Refusal = { status: number; code: string; message: string; headers?: Record<string, string> };

/**
 * The way from Express to the sign-in library and back. It stands before any body parser, since the library reads the body
 * itself, and it refuses what must not even reach the library.
 */
export function signInRoute(
  origins: readonly string[],
  handle: (request: Request) => Promise<Response>,
): RequestHandler {
  return async (request, response) => {
    response.set('cache-control', 'no-store');
    try {
      const body = refusalOf(request, origins) ?? (await readBody(request));
      const answer =
        body instanceof Uint8Array ? await answerOf(handle, request, origins, body) : refuse(body);
      response.status(answer.status);
      answer.headers.forEach((value, name) => {
        if (name !== 'set-cookie') response.set(name, value);
      });
      for (const cookie of answer.headers.getSetCookie()) response.append('set-cookie', cookie);
      response.send(Buffer.from(await answer.arrayBuffer()));
    } finally {
      request.resume();
    }
  };
}

function refusalOf(request: ExpressRequest, origins: readonly string[]): Refusal | null {
  const path = request.originalUrl.split('?')[0];
  if (path === '/auth/sign-up' || path?.startsWith('/auth/sign-up/')) {
    return {
      status: 403,
      code: 'BY_INVITATION',
      message: 'Accounts are made by invitation. Ask the manager of your shop.',
    };
  }
  if (!open.has(`${request.method} ${path}`)) {
    return { status: 404, code: 'NOT_FOUND', message: 'There is nothing at this address.' };
  }
  const { origin } = request.headers;
  if (origin !== undefined && !origins.includes(origin)) {
    return {
      status: 403,
      code: 'FOREIGN_ORIGIN',
      message: 'This request came from another site, so it was not carried out.',
    };
  }
  return null;
}

async function readBody(request: ExpressRequest): Promise<Uint8Array | Refusal> {
  const chunks: Buffer[] = [];
  let length = 0;
  for await (const chunk of request as AsyncIterable<Buffer>) {
    length += chunk.length;
    if (length > LARGEST_BODY) {
      return {
        status: 413,
        code: 'TOO_LARGE',
        message: `The request is larger than ${LARGEST_BODY} bytes.`,
        // The rest of the body is not waited for.
        headers: { connection: 'close' },
      };
    }
    chunks.push(chunk);
  }
  return Buffer.concat(chunks);
}

async function answerOf(
  handle: (request: Request) => Promise<Response>,
  request: ExpressRequest,
  origins: readonly string[],
  body: Uint8Array,
): Promise<Response> {
  const forwarded = new Request(new URL(request.originalUrl, origins[0]), {
    method: request.method,
    headers: headersOf(request.headers),
    ...(body.length > 0 && { body: new Uint8Array(body) }),
  });
  try {
    const answer = await handle(forwarded);
    if (answer.status < 400) return answer;
    if (answer.status >= 500) throw new Error(`The sign-in library answered ${answer.status}`);
    const said: unknown = await answer.json().catch(() => null);
    return refuse({ ...sentenceOf(said), status: answer.status, headers: waitOf(answer.headers) });
  } catch (error) {
    const known = libraryRefusal(error);
    if (known) return refuse(known);
    if (isDatabaseAway(error)) {
      return refuse({
        status: 503,
        code: 'UNAVAILABLE',
        message: 'The database does not answer just now; try again in a few seconds.',
        headers: { 'retry-after': RETRY_SECONDS },
      });
    }
    throw error;
  }
}

/** Headers that describe the connection between two machines, not the request. */
const perConnection = new Set([
  'connection',
  'keep-alive',
  'transfer-encoding',
  'content-length',
  'upgrade',
  'te',
  'expect',
]);

function headersOf(incoming: IncomingHttpHeaders): Headers {
  const headers = new Headers();
  for (const [name, value] of Object.entries(incoming)) {
    if (value === undefined || perConnection.has(name)) continue;
    for (const each of Array.isArray(value) ? value : [value]) headers.append(name, each);
  }
  return headers;
}

/** Some of the library's refusals are thrown, with a status below 500 and a sentence. */
function libraryRefusal(error: unknown): Refusal | null {
  if (typeof error !== 'object' || error === null) return null;
  if (!('statusCode' in error) || typeof error.statusCode !== 'number' || error.statusCode >= 500)
    return null;
  return { ...sentenceOf('body' in error ? error.body : null), status: error.statusCode };
}

/** What the library says of a refusal, in the form that the rest of the API uses. */
function sentenceOf(said: unknown): { code: string; message: string } {
  const body = typeof said === 'object' && said !== null ? said : {};
  return {
    code: 'code' in body && typeof body.code === 'string' ? body.code : 'BAD_INPUT',
    message:
      'message' in body && typeof body.message === 'string'
        ? body.message
        : 'The request cannot be read.',
  };
}

function waitOf(headers: Headers): Record<string, string> {
  const wait = headers.get('retry-after');
  return wait === null ? {} : { 'retry-after': wait };
}

/** Class 08 of SQLSTATE, a server that is starting or stopping (57P), or a socket that failed; however deep it is wrapped. */
function isDatabaseAway(error: unknown): boolean {
  for (
    let each: unknown = error;
    typeof each === 'object' && each !== null;
    each = 'cause' in each ? each.cause : null
  ) {
    const code = 'code' in each ? String(each.code) : '';
    const message = 'message' in each ? String(each.message) : '';
    if (/^(08|57P|53300|ECONN|ETIMEDOUT|EPIPE)/.test(code) || /Connection terminated/.test(message))
      return true;
  }
  return false;
}

function refuse({ status, code, message, headers = {} }: Refusal): Response {
  return Response.json({ error: { code, message } }, { status, headers });
}
