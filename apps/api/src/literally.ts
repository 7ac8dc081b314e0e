/**
 * A typed text as it is matched by `contains`, `startsWith` and by `equals` where case does not count: PostgreSQL takes those as
 * patterns, in which %, _ and \\ stand for something else than themselves (its manual, 9.7.1), and Prisma leaves them so.
 *
 * @example literally('50_%') // → '50\\_\\%'
 */
export const literally = (typed: string): string => typed.replace(/[\\%_]/g, '\\$&');
