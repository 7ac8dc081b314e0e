/**
 * The content security policy of one page.
 *
 * Scripts run only with the nonce of this answer; nothing is fetched from or sent to another
 * origin; no other site may frame a sheet. Style attributes stay allowed because drawings place
 * their marks with them.
 *
 * @param nonce base64, made anew for each answer
 * @param development true under `next dev`, whose reloader needs eval
 * @example contentPolicy('abc', false).includes("script-src 'self' 'nonce-abc'") // → true
 */
export function contentPolicy(nonce: string, development: boolean): string {
  const directives = [
    "default-src 'self'",
    `script-src 'self' 'nonce-${nonce}' 'strict-dynamic'${development ? " 'unsafe-eval'" : ''}`,
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
