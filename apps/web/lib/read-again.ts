import { isCancelledError, type QueryClient, type QueryKey } from '@tanstack/react-query';

/**
 * Reads anew what a page shows. Where somebody else asks for the same meanwhile, ours is given up for theirs, which is
 * newer: that is no failure, and theirs is waited for.
 *
 * @throws RequestProblem where the shop did not answer
 */
export async function readAgain(queries: QueryClient, queryKey: QueryKey): Promise<void> {
  for (let ours = true; ; ours = false) {
    try {
      await queries.refetchQueries({ queryKey }, { throwOnError: true, cancelRefetch: ours });
      return;
    } catch (problem) {
      if (!isCancelledError(problem)) throw problem;
    }
  }
}
