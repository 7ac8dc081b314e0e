export {
  type LeftInoperative,
  leftFacts,
  leftInoperative,
  leftOf,
} from './inoperative/left-inoperative.ts';
