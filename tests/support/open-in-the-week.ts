import type { TestShop } from './shop.ts';

/** Somebody is in from Monday to Friday, between these hours of the day. */
export const openInTheWeek = (shop: TestShop, from: number, to: number) =>
  shop.inside((tx) =>
    tx.weeklyHours.createMany({
      data: [1, 2, 3, 4, 5].map((weekday) => ({
        shopId: shop.shopId,
        weekday,
        fromMinute: from * 60,
        toMinute: to * 60,
      })),
    }),
  );
