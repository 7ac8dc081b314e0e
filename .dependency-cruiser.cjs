/*
 * The import arrow. Read it as: who may import whom.
 *
 *   apps/web          -> packages/money, packages/hangar, packages/diagnosis, and the typed documents in graphql/generated
 *   apps/api          -> packages/*
 *   packages/database -> nothing of ours
 *   other packages    -> nothing of ours, and no I/O
 *
 * Inside apps/api/src each folder is a subject. A subject may import files that lie directly in src
 * (context.ts, errors.ts, builder.ts, …), and of another subject only what it offers the others:
 *   <subject>/index.ts     what is meant to be used from outside
 *   <subject>/queries.ts   named queries that take the transaction first
 *   <subject>/schema.ts or refs.ts   its object types, since one type's field may answer with another's
 * Anything else of a subject is its own business. What two subjects need goes into a pure package or a query.
 *
 * apps/api/src/demo plays the demo's people: it reads prisma/demo and may use any use-case. Nothing of
 * the program may import it.
 *
 * src/demo is no subject: it plays the shop's people, who use every subject's use-cases, and so may import
 * them all, and the demo's files in prisma/demo. Nothing imports it but the start script.
 *
 * Nothing imports in a circle, type imports included. Tests may import anything.
 */
const pure = '^packages/(?!database/)[^/]+/src/';
const tests = '(^|/)tests/|\\.test\\.tsx?$';

module.exports = {
  forbidden: [
    {
      name: 'no-cycles',
      comment:
        'A circle of imports cannot be read from the top down. Move what both need below both.',
      severity: 'error',
      from: { pathNot: '(^|/)generated/' },
      to: { circular: true, viaOnly: { pathNot: '(^|/)generated/' } },
    },
    {
      name: 'web-sees-only-schema-and-three-packages',
      comment:
        'The web app knows the shop through GraphQL; money and hangar are for formatting and geometry, diagnosis answers without a network.',
      severity: 'error',
      from: { path: '^apps/web/', pathNot: tests },
      to: {
        path: '^(apps/(?!web/)|packages/(?!money/|hangar/|diagnosis/)|prisma/|scripts/|tests/)',
      },
    },
    {
      name: 'api-sees-only-packages',
      severity: 'error',
      from: { path: '^apps/api/', pathNot: [tests, '^apps/api/src/demo/'] },
      to: { path: '^(apps/web/|apps/api/src/demo/|prisma/|scripts/|tests/)' },
    },
    {
      name: 'the-demo-stays-a-demo',
      severity: 'error',
      from: { path: '^apps/api/src/demo/' },
      to: { path: '^(apps/web/|prisma/(?!demo/)|scripts/|tests/)' },
    },
    {
      name: 'packages-see-nothing-of-ours',
      comment: 'A package stands alone: neither an app nor another package.',
      severity: 'error',
      from: { path: '^packages/([^/]+)/', pathNot: tests },
      to: { path: '^(apps|packages|prisma|scripts|tests)/', pathNot: '^packages/$1/' },
    },
    {
      name: 'pure-packages-do-no-io',
      comment:
        'Numbers in, numbers out: no file, no network, no clock of the system, no process. Digests and signatures are computed too.',
      severity: 'error',
      from: { path: pure },
      to: { dependencyTypes: ['core'], pathNot: '^(node:)?crypto$' },
    },
    {
      name: 'pure-packages-know-no-database-or-server',
      severity: 'error',
      from: { path: pure },
      to: { path: 'node_modules/(pg|@prisma|express|graphql|@pothos|@apollo|next|react)/' },
    },
    {
      name: 'demo-sees-its-files',
      severity: 'error',
      from: { path: '^apps/api/src/demo/', pathNot: tests },
      to: { path: '^(apps/web/|prisma/(?!demo/data)|scripts/|tests/)' },
    },
    {
      name: 'only-the-start-loads-the-demo',
      severity: 'error',
      from: { path: '^(apps|packages)/', pathNot: [tests, '^apps/api/src/demo/'] },
      to: { path: '^apps/api/src/demo/' },
    },
    {
      name: 'subjects-keep-their-internals',
      comment: 'Import a subject through its index.ts, queries.ts, schema.ts or refs.ts only.',
      severity: 'error',
      from: { path: '^apps/api/src/([^/]+)/', pathNot: [tests, '^apps/api/src/(generated|demo)/'] },
      to: {
        path: '^apps/api/src/[^/]+/.+',
        pathNot: [
          '^apps/api/src/$1/',
          '^apps/api/src/generated/',
          '^apps/api/src/[^/]+/(index|queries|schema|refs)\\.ts$',
        ],
      },
    },
    {
      name: 'programs-do-not-import-tests',
      severity: 'error',
      from: { pathNot: [tests, '^scripts/'] },
      to: { path: tests },
    },
    {
      name: 'no-folder-for-leftovers',
      comment: 'utils, helpers and common say nothing about what is in them.',
      severity: 'error',
      from: {},
      to: {
        path: '^(apps|packages|scripts|prisma)/(?!.*node_modules).*/?(utils?|helpers?|common)(/|\\.tsx?$)',
      },
    },
    {
      name: 'everything-resolves',
      severity: 'error',
      from: { pathNot: '(^|/)generated/|next-env\\.d\\.ts$' },
      // The server that Next's standalone build puts beside serve.mjs.
      to: { couldNotResolve: true, pathNot: '\\.css$|^\\./server\\.js$' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '(^|/)(\\.next|\\.data|\\.turbo)/' },
    tsPreCompilationDeps: true,
    detectProcessBuiltinModuleCalls: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
      extensions: ['.ts', '.tsx', '.mjs', '.js', '.json'],
    },
  },
};
