/**
 * The content security policy of one page.
 *
 * Scripts run only with the nonce of this answer, or are the few whose digests are given; nothing is fetched
 * from or sent to another origin; no other site may frame a sheet. Style attributes stay allowed because drawings place
 * their marks with them.
 *
 * @param scripts a nonce, base64, made anew for each answer; or the digests of the page's only scripts, as `sha256-…`
 * @param development true under `next dev`, whose reloader needs eval
 * @example contentPolicy('abc', false).includes("script-src 'self' 'nonce-abc'") // → true
 */
export function contentPolicy(scripts: string | readonly string[], development: boolean): string {
  const reloader = development ? " 'unsafe-eval'" : '';
  const directives = [
    "default-src 'self'",
    typeof scripts === 'string'
      ? `script-src 'self' 'nonce-${scripts}' 'strict-dynamic'${reloader}`
      : `script-src ${development ? `'self' 'unsafe-inline'${reloader}` : scripts.map((each) => `'${each}'`).join(' ') || "'none'"}`,
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' data: blob:",
    "font-src 'self'",
    `connect-src 'self'${development ? ' ws: wss:' : ''}`,
    "worker-src 'self'",
    "manifest-src 'self'",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ];
  return directives.join('; ');
}
