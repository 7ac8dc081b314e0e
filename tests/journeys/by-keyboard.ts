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

/** Comes to a field with Tab and types over what stands in it. */
export async function retype(page: Page, field: Locator, text: string): Promise<void> {
  await tabTo(page, field);
  await page.keyboard.press('Control+A');
  await page.keyboard.type(text);
}

/** Comes to a choice with Tab, through its group with arrows, and chooses it. */
export async function choose(page: Page, radio: Locator): Promise<void> {
  for (let steps = 0; steps < 30; steps += 1) {
    if (await radio.evaluate((each) => each.matches(':focus'))) break;
    const inGroup = (await page.locator('input[type=radio]:focus').count()) > 0;
    await page.keyboard.press(inGroup ? 'ArrowDown' : 'Tab');
  }
  await page.keyboard.press('Space');
  await expect(radio).toBeChecked();
}
