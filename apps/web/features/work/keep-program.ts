/** Has a worker keep the bench's program on this device: only over TLS or on this machine, which is the browsers' rule. */
export async function keepProgram(): Promise<void> {
  if (process.env.NODE_ENV !== 'production' || !('serviceWorker' in navigator)) return;
  await navigator.serviceWorker.register('/bench-worker.js', { scope: '/bench' });
  const { active } = await navigator.serviceWorker.ready;
  active?.postMessage({ files: filesOfPage() });
}

/** Whatever of the build this page has fetched so far. */
function filesOfPage(): string[] {
  const fetched = performance.getEntriesByType('resource').map(({ name }) => name);
  const named = [...document.querySelectorAll('script[src], link[href]')].map((each) =>
    each instanceof HTMLScriptElement ? each.src : each instanceof HTMLLinkElement ? each.href : '',
  );
  const paths = [...fetched, ...named]
    .filter((address) => URL.canParse(address))
    .map((address) => new URL(address))
    .filter(({ origin }) => origin === window.location.origin)
    .map(({ pathname }) => pathname);
  return [...new Set(paths)].filter((path) => path.startsWith('/_next/static/'));
}
