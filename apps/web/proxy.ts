import { type NextRequest, NextResponse } from 'next/server';
import { accepts, apiOrigin } from './lib/api-origin.ts';
import { contentPolicy } from './lib/content-policy.ts';

const largestBody = 64 * 1024 * 1024;
const apiPath = /^\/(graphql|auth|uploads|photos|paper|healthz|readyz)(\/|$)/;

/**
 * The web origin is the one address: what belongs to the API is handed on, everything else is a
 * sheet and gets its content policy.
 */
export async function proxy(request: NextRequest): Promise<NextResponse> {
  return apiPath.test(request.nextUrl.pathname) ? toApi(request) : toSheet(request);
}

async function toApi(request: NextRequest): Promise<NextResponse> {
  const size = Number(request.headers.get('content-length') ?? 0);
  if (size > largestBody) {
    return refusal(
      413,
      'TOO_LARGE',
      `The upload is ${size} bytes; at most ${largestBody} are accepted.`,
    );
  }
  const origin = apiOrigin();
  if (!(await accepts(origin))) {
    const answer = refusal(
      503,
      'UNAVAILABLE',
      'The shop’s server is not answering. Try again shortly.',
    );
    answer.headers.set('retry-after', '3');
    return answer;
  }
  const headers = new Headers(request.headers);
  headers.set('x-forwarded-host', request.headers.get('host') ?? '');
  headers.set('x-forwarded-proto', request.nextUrl.protocol.replace(':', ''));
  const { pathname, search } = request.nextUrl;
  return NextResponse.rewrite(new URL(pathname + search, origin), { request: { headers } });
}

function toSheet(request: NextRequest): NextResponse {
  const nonce = Buffer.from(crypto.randomUUID()).toString('base64');
  const policy = contentPolicy(nonce, process.env.NODE_ENV === 'development');
  const headers = new Headers(request.headers);
  headers.set('x-nonce', nonce);
  headers.set('content-security-policy', policy);
  const answer = NextResponse.next({ request: { headers } });
  answer.headers.set('content-security-policy', policy);
  return answer;
}

/** The shape of a GraphQL answer and that of the API's plain routes in one. */
function refusal(status: number, code: string, message: string): NextResponse {
  const body = { errors: [{ message, extensions: { code } }], error: { code, message } };
  return NextResponse.json(body, { status });
}

export const config = {
  matcher: ['/((?!_next/static|_next/image|favicon.ico).*)'],
};
