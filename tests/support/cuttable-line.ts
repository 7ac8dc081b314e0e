import type { AddressInfo } from 'node:net';
import net from 'node:net';

/** A line to a server on this machine that can be cut, as hangar Wi-Fi is: whoever is on it, page or worker, loses it. */
export interface CuttableLine {
  readonly port: number;
  /** Ends every connection and takes no new one. */
  cut(): void;
  /** Takes what is sent and lets no answer through. */
  lie(): void;
  mend(): void;
  close(): Promise<void>;
}

/** @param to port of the server on 127.0.0.1 */
export async function cuttableLine(to: number): Promise<CuttableLine> {
  let state: 'whole' | 'cut' | 'lying' = 'whole';
  const open = new Set<net.Socket>();
  const server = net.createServer((near) => {
    if (state === 'cut') {
      near.resetAndDestroy();
      return;
    }
    const far = net.connect(to, '127.0.0.1');
    for (const socket of [near, far]) {
      open.add(socket);
      socket.setNoDelay(true);
      socket.on('error', () => undefined);
      socket.on('close', () => {
        open.delete(socket);
        near.destroy();
        far.destroy();
      });
    }
    near.pipe(far);
    far.on('data', (answer) => {
      if (state === 'whole') near.write(answer);
    });
  });
  await new Promise<void>((resolve) => server.listen(0, 'localhost', resolve));
  const endAll = () => {
    for (const socket of open) socket.destroy();
  };
  return {
    port: (server.address() as AddressInfo).port,
    cut: () => {
      state = 'cut';
      endAll();
    },
    lie: () => {
      state = 'lying';
    },
    mend: () => {
      state = 'whole';
      endAll();
    },
    close: async () => {
      endAll();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}
