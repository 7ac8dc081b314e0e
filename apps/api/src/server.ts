import pino from 'pino';
import { createApp, listen } from './app.ts';
import { readEnv } from './env.ts';

const env = readEnv(process.env);
const log = pino({ level: process.env.LOG_LEVEL ?? 'info' });
const { app, close, endStreams } = await createApp({ ...env, log });
const server = await listen(app, env.PORT, process.env.HOST ?? '127.0.0.1');
log.info({ port: env.PORT }, 'the API listens');

let stopping = false;
const stop = () => {
  if (stopping) return;
  stopping = true;
  endStreams();
  server.close(() => void close().then(() => process.exit(0)));
  server.closeIdleConnections();
  setTimeout(() => process.exit(0), 5000).unref();
};
process.on('SIGINT', stop);
process.on('SIGTERM', stop);
