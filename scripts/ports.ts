import net from 'node:net';
import { Refusal } from './progress.ts';

/** Whether this host and port can be listened on right now. Throws for anything but "in use". */
export function isFree(port: number, host: string): Promise<boolean> {
  return new Promise((resolve, reject) => {
    const server = net.createServer();
    server.once('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'EADDRINUSE') resolve(false);
      else if (error.code === 'EACCES') {
        reject(
          new Refusal(
            `Port ${port} may not be used by this account. Give another, for example PORT=3000.`,
          ),
        );
      } else reject(error);
    });
    server.listen({ port, host, exclusive: true }, () => server.close(() => resolve(true)));
  });
}

/** Reads PORT: undefined when not given, a whole number from 1 to 65535, or a refusal that says so. */
export function portFromEnvironment(text: string | undefined): number | undefined {
  if (text === undefined || text === '') return undefined;
  const port = Number(text);
  if (!/^\d+$/.test(text) || port < 1 || port > 65535) {
    throw new Refusal(`PORT is "${text}"; it needs to be a whole number from 1 to 65535.`);
  }
  return port;
}

export interface ChosenPort {
  readonly port: number;
  /** The preferred port, when something else already listens on it. */
  readonly taken?: number;
}

/**
 * The port to serve on. A port that was asked for is used or refused; without one the first free
 * port from `first` on is taken, and the caller tells the person which one was in use.
 */
export async function choosePort(
  asked: number | undefined,
  first: number,
  host: string,
): Promise<ChosenPort> {
  if (asked !== undefined) {
    if (await isFree(asked, host)) return { port: asked };
    throw new Refusal(
      `Port ${asked} is in use by another program. Stop that program, or give another port: PORT=${asked + 1} npm start`,
    );
  }
  for (let port = first; port < first + 50; port += 1) {
    if (await isFree(port, host)) return port === first ? { port } : { port, taken: first };
  }
  throw new Refusal(
    `Ports ${first} to ${first + 49} are all in use. Give a free one: PORT=8080 npm start`,
  );
}

/** A free port on the loopback address, chosen by the system. */
export function freeLoopbackPort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = net.createServer();
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => {
        if (address && typeof address === 'object') resolve(address.port);
        else reject(new Error('The system gave no port'));
      });
    });
  });
}
