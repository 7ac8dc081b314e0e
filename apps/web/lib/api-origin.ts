import { connect } from 'node:net';

/** Where the API listens, read at run time so that one build serves any port. */
export function apiOrigin(): URL {
  return new URL(process.env.API_ORIGIN ?? 'http://127.0.0.1:4100');
}

/**
 * Whether something accepts connections at the origin.
 *
 * Next answers 500 when a forwarded request meets a closed port. A connection attempt beforehand
 * costs well under a millisecond on one host and lets us answer 503 with Retry-After instead.
 */
export function accepts(origin: URL, withinMilliseconds = 2000): Promise<boolean> {
  const port = Number(origin.port || (origin.protocol === 'https:' ? 443 : 80));
  return new Promise((resolve) => {
    const socket = connect({ host: origin.hostname.replace(/^\[|\]$/g, ''), port });
    const answer = (value: boolean) => {
      socket.destroy();
      resolve(value);
    };
    socket.setTimeout(withinMilliseconds, () => answer(false));
    socket.once('connect', () => answer(true));
    socket.once('error', () => answer(false));
  });
}
