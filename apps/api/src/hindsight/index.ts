/** What others need of hindsight: the model that hours come from, and that it learns again. */
export { type AskedFacts, askedFacts, askedOfItem } from './asked-of-item.ts';
export {
  fitInputs,
  fitWithin,
  keepModel,
  keptModelId,
  modelBy,
  modelInForce,
  modelKept,
  type ShopModel,
} from './hours-model.ts';
export { askRefit } from './refit-hours.ts';
