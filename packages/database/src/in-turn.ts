import type {
  SqlDriverAdapter,
  SqlDriverAdapterFactory,
  Transaction,
} from '@prisma/driver-adapter-utils';

/**
 * Sends the statements of one transaction one after the other. Resolvers run side by side and share their request's
 * transaction; node-postgres queues what comes while a statement runs, says that it will stop doing so, and means it.
 */
export function inTurn(factory: SqlDriverAdapterFactory): SqlDriverAdapterFactory {
  return Object.create(factory, {
    connect: { value: async () => transactionsInTurn(await factory.connect()) },
  }) as SqlDriverAdapterFactory;
}

function transactionsInTurn(adapter: SqlDriverAdapter): SqlDriverAdapter {
  const startTransaction: SqlDriverAdapter['startTransaction'] = async (level) =>
    statementsInTurn(await adapter.startTransaction(level));
  return Object.create(adapter, {
    startTransaction: { value: startTransaction },
  }) as SqlDriverAdapter;
}

function statementsInTurn(transaction: Transaction): Transaction {
  let last: Promise<unknown> = Promise.resolve();
  const turn = <T>(work: () => Promise<T>): Promise<T> => {
    const mine = last.then(work, work);
    last = mine.catch(() => undefined);
    return mine;
  };
  const queryRaw: Transaction['queryRaw'] = (query) => turn(() => transaction.queryRaw(query));
  const executeRaw: Transaction['executeRaw'] = (query) =>
    turn(() => transaction.executeRaw(query));
  return Object.create(transaction, {
    queryRaw: { value: queryRaw },
    executeRaw: { value: executeRaw },
  }) as Transaction;
}
