import net from 'node:net';
import { afterEach, expect, test } from 'vitest';
import { choosePort, freeLoopbackPort, isFree, portFromEnvironment } from '../../scripts/ports.ts';

const open: net.Server[] = [];

function occupy(port: number): Promise<void> {
  return new Promise((resolve, reject) => {
    const server = net.createServer();
    open.push(server);
    server.once('error', reject);
    server.listen(port, '127.0.0.1', resolve);
  });
}

afterEach(async () => {
  for (const server of open.splice(0)) await new Promise((done) => server.close(done));
});

test('PORT is a whole number from 1 to 65535 or refused with its value', () => {
  expect(portFromEnvironment(undefined)).toBeUndefined();
  expect(portFromEnvironment('')).toBeUndefined();
  expect(portFromEnvironment('8080')).toBe(8080);
  for (const text of ['0', '65536', '80a', '-1', '1e3', ' 80']) {
    expect(() => portFromEnvironment(text)).toThrow(`PORT is "${text}"`);
  }
});

test('without PORT the next free port is taken and the occupied one is told', async () => {
  const port = await freeLoopbackPort();
  expect(await choosePort(undefined, port, '127.0.0.1')).toEqual({ port });
  await occupy(port);
  expect(await isFree(port, '127.0.0.1')).toBe(false);
  const chosen = await choosePort(undefined, port, '127.0.0.1');
  expect(chosen.taken).toBe(port);
  expect(chosen.port).toBeGreaterThan(port);
});

test('a port that was asked for and is occupied is refused by number', async () => {
  const port = await freeLoopbackPort();
  await occupy(port);
  await expect(choosePort(port, 3000, '127.0.0.1')).rejects.toThrow(`Port ${port} is in use`);
});
