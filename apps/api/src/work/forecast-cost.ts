import { drawItems, hoursLeft, packageItems } from '@fairlead/labour';
import type { Context } from '../context.ts';
import { askedOfItem, modelInForce, type ShopModel } from '../hindsight/index.ts';
import {
  type AmountSpread,
  type CompletionFacts,
  costAtCompletion,
  isOpen,
} from './cost-at-completion.ts';
import { priceOfWork } from './price-of-work.ts';
import { secondsOf } from './stretches.ts';

const known = new WeakMap<Context, Promise<ShopModel>>();

/** The model in force, asked for once a request, however many orders it shows. */
function modelOf(context: Context): Promise<ShopModel> {
  const model = known.get(context) ?? modelInForce(context.read);
  known.set(context, model);
  return model;
}

const SEED = 1;
/** A quantile of so many draws is known to about a hundredth. */
const DRAWS = 4000;

/**
 * Foretells what an order comes to when it is done: the hours left of each open item, given those clocked on it already, by
 * the model in force, with what items share kept shared.
 *
 * @returns null where nothing is left to do, or no rate is known
 */
export async function forecastCost(
  context: Context,
  order: CompletionFacts,
): Promise<AmountSpread | null> {
  const open = order.items.filter(isOpen);
  if (open.length === 0) return null;
  const now = context.now();
  const { predictor } = await modelOf(context);
  const estimates = open.map((item) => predictor.estimate(askedOfItem(item, order.aircraft)));
  const items = packageItems(estimates);
  const clocked = open.map(
    ({ stretches }) => stretches.reduce((sum, stretch) => sum + secondsOf(stretch, now), 0) / 3600,
  );
  const left = new Map(open.map(({ id }) => [id, new Float64Array(DRAWS)]));
  drawItems(items, { seed: SEED, draws: DRAWS }, (index, drawn, from) => {
    const still = hoursLeft(items[index]!.predictive, drawn, clocked[index]!);
    left.get(open[index]!.id)!.set(still, from);
  });
  return costAtCompletion(order, await priceOfWork(context), left, { draws: DRAWS, now });
}
