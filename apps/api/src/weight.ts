import { complexityFromQuery } from '@pothos/plugin-complexity';
import { limits } from './builder.ts';
import { schema } from './schema.ts';

/**
 * Which limits a request goes over, each with its figure; empty: the shop answers it.
 *
 * @param document GraphQL text of one operation with its fragments
 */
export function overLimits(document: string, variables: Record<string, unknown>): string[] {
  const weight = complexityFromQuery(document, { schema, variables, ctx: {} as never });
  return (['complexity', 'depth', 'breadth'] as const)
    .filter((each) => weight[each] > limits[each])
    .map((each) => `${each} ${weight[each]} of ${limits[each]}`);
}
