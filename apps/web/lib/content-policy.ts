/**
 * The content security policy of one page.
 *
 * Scripts run only with the nonce of this answer, and none where it has none; nothing is fetched
 * from or sent to another origin; no other site may frame a sheet. Style attributes stay allowed because drawings place
 * their marks with them.
 *
 * @param nonce base64, made anew for each answer; null for a page that takes no script
 * @param development true under `next dev`, whose reloader needs eval
 * @example contentPolicy('abc', false).includes("script-src 'self' 'nonce-abc'") // → true
 */
export function contentPolicy(nonce: string | null, development: boolean): string {
  const reloader = development ? " 'unsafe-eval'" : '';
  const directives = [
    "default-src 'self'",
    nonce === null
      ? `script-src ${development ? `'self' 'unsafe-inline'${reloader}` : "'none'"}`
      : `script-src 'self' 'nonce-${nonce}' 'strict-dynamic'${reloader}`,
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
