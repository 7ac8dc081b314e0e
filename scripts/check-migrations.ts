// Whether prisma/migrations leads to prisma/schema, tried on a throw-away server.
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { startEmbedded } from '../packages/database/src/embedded.ts';
import { root } from './paths.ts';
import { tsxArguments } from './run-tool.ts';

// Below /var/tmp where there is one: as root the server's account must be able to get there.
const below = fs.existsSync('/var/tmp') ? '/var/tmp' : os.tmpdir();
const dataDir = path.join(below, `fairlead-check-${process.pid}`);
const server = await startEmbedded({ dataDir, fast: true });
try {
  const done = spawnSync(
    process.execPath,
    tsxArguments('packages/database/src/migrate-cli.ts', ['check']),
    { cwd: root, stdio: 'inherit', env: { ...process.env, MIGRATOR_URL: server.adminUrl } },
  );
  process.exitCode = done.status ?? 1;
} finally {
  await server.stop();
  fs.rmSync(dataDir, { recursive: true, force: true });
}
