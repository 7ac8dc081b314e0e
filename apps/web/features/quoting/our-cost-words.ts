import type { OrderData } from './order-documents.ts';

type Item = OrderData['items'][number];

export const ourCostKinds = {
  shop: 'for the shop',
  training: 'training',
  rework: 'rework',
} as const;

/** What is said of an item that is not billed, and of one that later work puts right. */
export function ourCostNotes({ ourCost, ourCostWords, putRightBy }: Item): string[] {
  const first = ourCostWords[0]?.putsRight;
  const later = putRightBy.filter(({ item }) => item.ourCost === 'rework');
  return [
    ...(ourCost == null
      ? []
      : [
          `at our own cost, ${ourCostKinds[ourCost]}${first == null ? '' : `: puts right “${first.title}” of order ${first.order.number}`}`,
        ]),
    ...[
      ...new Set(
        later.map(({ item }) => `put right by “${item.title}” of order ${item.order.number}`),
      ),
    ],
  ];
}
