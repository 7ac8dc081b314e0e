export { type Client, type ClientOptions, createClient, type Tx } from './client.ts';
export { Prisma } from './generated/prisma/client.ts';
export * from './generated/prisma/enums.ts';
export {
  inLink,
  inShop,
  type LazyReader,
  type LinkScope,
  lazyReader,
  type Scope,
} from './shop-scope.ts';
