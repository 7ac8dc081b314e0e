import fs from 'node:fs';
import path from 'node:path';
import { root } from './paths.ts';
import { turbo } from './run-tool.ts';
import { unlessUnchanged } from './stamps.ts';

const workspace = ['pnpm-lock.yaml', 'turbo.json'];

const webServer = 'apps/web/.next/standalone/apps/web/serve.mjs';

/** The Prisma client, the schema types and the typed GraphQL documents. True when there was anything to do. */
export function generate(): Promise<boolean> {
  const work = {
    name: 'generate',
    inputs: [
      ...workspace,
      'prisma/schema',
      'packages/database/package.json',
      'packages/database/src/generate.mjs',
      'apps/api/schema.graphql',
      'apps/web',
    ],
    outputs: [
      'packages/database/src/generated/prisma/client.ts',
      'apps/api/src/generated/pothos-prisma-types.ts',
      'apps/web/graphql/generated/graphql.ts',
    ],
  };
  return unlessUnchanged(work, () => turbo('generate'));
}

/** The web pages as a standalone server with its static files beside it. */
export function buildWeb(): Promise<boolean> {
  const work = {
    name: 'build-web',
    inputs: [
      ...workspace,
      'tsconfig.json',
      'apps/api/schema.graphql',
      'apps/web',
      'packages/money/package.json',
      'packages/money/src',
      'packages/diagnosis/package.json',
      'packages/diagnosis/src',
      'packages/hangar/package.json',
      'packages/hangar/src',
    ],
    outputs: [webServer, 'apps/web/.next/standalone/apps/web/.next/static/br'],
  };
  return unlessUnchanged(work, async () => {
    await turbo('build');
    const web = path.join(root, 'apps/web');
    const standalone = path.dirname(path.join(root, webServer));
    // Next leaves these out of the standalone folder, since a content network could serve them.
    for (const name of ['.next/static', 'public']) {
      const from = path.join(web, name);
      const to = path.join(standalone, name);
      fs.rmSync(to, { recursive: true, force: true });
      if (fs.existsSync(from)) fs.cpSync(from, to, { recursive: true });
    }
  });
}

const buildId = (server: string): string | undefined => {
  const file = path.join(path.dirname(server), '.next', 'BUILD_ID');
  return fs.existsSync(file) ? fs.readFileSync(file, 'utf8') : undefined;
};

/**
 * Copies the built pages into a folder of the running shop's own and answers with the server's file
 * there: `npm test`, or a start elsewhere, may build anew while they are being served.
 */
export async function serveFrom(folder: string): Promise<string> {
  const built = path.join(root, 'apps/web/.next/standalone');
  const inside = path.relative('apps/web/.next/standalone', webServer);
  const server = path.join(folder, inside);
  const wanted = buildId(path.join(built, inside));
  if (wanted !== undefined && buildId(server) === wanted) return server;
  const half = `${folder}.copying`;
  for (const old of [half, folder]) fs.rmSync(old, { recursive: true, force: true });
  await fs.promises.cp(built, half, { recursive: true, verbatimSymlinks: true });
  fs.renameSync(half, folder);
  return server;
}
