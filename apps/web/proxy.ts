import { type NextRequest, NextResponse } from 'next/server';
import { newsScriptHash } from './features/owner/owner-news.ts';
import { accepts, apiOrigin } from './lib/api-origin.ts';
import { contentPolicy } from './lib/content-policy.ts';
import { opensNothing } from './lib/opens-nothing.ts';

const largestBody = 64 * 1024 * 1024;
const apiPath =
  /^\/(graphql|auth|uploads|photos|paper|history|archives|certificates|exemptions|due|healthz|readyz|owner\/[^/]+\/(decisions|news|photos))(\/|$)/;

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

/** Whether a private link opens its page; while the API is away the page itself says so. */
async function opens({ nextUrl: { pathname } }: NextRequest): Promise<boolean> {
  if (!/^\/owner\/[\w-]{1,200}$/.test(pathname)) return false;
  try {
    const answer = await fetch(new URL(pathname, apiOrigin()), {
      method: 'HEAD',
      cache: 'no-store',
    });
    return answer.status !== 404;
  } catch {
    return true;
  }
}

async function toSheet(request: NextRequest): Promise<NextResponse> {
  const owners = request.nextUrl.pathname.startsWith('/owner/');
  // What an owner opens takes no script but its own few lines: see features/owner/owner-news.ts.
  const nonce = owners ? null : Buffer.from(crypto.randomUUID()).toString('base64');
  const policy = contentPolicy(nonce ?? [newsScriptHash], process.env.NODE_ENV === 'development');
  const headers = new Headers(request.headers);
  if (nonce !== null) headers.set('x-nonce', nonce);
  headers.set('content-security-policy', policy);
  const answer =
    owners && !(await opens(request))
      ? new NextResponse(opensNothing, {
          status: 404,
          headers: { 'content-type': 'text/html; charset=utf-8' },
        })
      : NextResponse.next({ request: { headers } });
  answer.headers.set('content-security-policy', policy);
  // The address of an owner's page is its key: it stays out of caches and search.
  if (owners) {
    answer.headers.set('cache-control', 'no-store');
    answer.headers.set('x-robots-tag', 'noindex, nofollow');
  }
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
