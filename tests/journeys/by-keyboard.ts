import { expect, type Locator, type Page } from '@playwright/test';

/** Goes on with Tab until the target has the focus, as somebody without a mouse does. */
export async function tabTo(page: Page, target: Locator): Promise<void> {
  await expect(target).toBeVisible();
  for (let steps = 0; steps < 160; steps += 1) {
    if (await target.evaluate((element) => element.matches(':focus'))) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`160 times Tab did not come to ${target.toString()}`);
}

/** Comes to the target with Tab and presses it. */
export async function press(page: Page, target: Locator, key: 'Enter' | 'Space' = 'Enter') {
  await tabTo(page, target);
  await page.keyboard.press(key);
}
