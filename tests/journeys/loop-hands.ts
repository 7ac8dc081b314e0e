import { type Browser, expect, type Locator, type Page } from '@playwright/test';
import sharp from 'sharp';
import { passwordOf, signInByForm } from './people.ts';

/** Those who do the loop, each in a browser of their own, signed in. */
export async function comeToWork(
  browser: Browser,
): Promise<{ desk: Page; mechanic: Page; inspector: Page }> {
  const open = async (who: Parameters<typeof signInByForm>[1], width: number) => {
    const page = await (await browser.newContext({ viewport: { width, height: 860 } })).newPage();
    await signInByForm(page, who);
    return page;
  };
  return {
    desk: await open('front desk', 1440),
    mechanic: await open('mechanic', 360),
    inspector: await open('inspector', 1440),
  };
}

/** The part of the bench that is about one aircraft. */
export const atBench = (page: Page, registration: RegExp): Locator =>
  page.locator('section', { has: page.getByRole('heading', { name: registration }) });

/** Reads the cautions where there are any, and starts the clock. */
export async function readCautions(page: Page): Promise<void> {
  const cautions = page.getByRole('dialog');
  if (!(await cautions.isVisible().catch(() => false))) return;
  await expect(cautions).toContainText('Before you start');
  await cautions.getByRole('button', { name: 'Read. Start the clock' }).click();
}

/** Takes a photo of nothing in particular. */
export async function takePhoto(page: Page, name: string): Promise<void> {
  const buffer = await sharp({
    create: { width: 1200, height: 900, channels: 3, background: '#8a8f8a' },
  })
    .jpeg()
    .toBuffer();
  const camera = page.locator('input[type=file]').first();
  await camera.setInputFiles({ name, mimeType: 'image/jpeg', buffer });
}

/** Initials each item that waits for it, by its name. */
export async function initialEach(page: Page, initials: Locator): Promise<void> {
  const names = await initials.evaluateAll((buttons) =>
    buttons.map((button) => button.getAttribute('aria-label') ?? ''),
  );
  for (const name of names) {
    const initial = page.getByRole('button', { name, exact: true });
    // The list draws itself anew after each; a press in that moment is pressed again.
    await expect(async () => {
      if (await initial.isVisible()) await initial.click({ timeout: 2000 });
      await expect(initial).toBeHidden({ timeout: 3000 });
    }).toPass();
  }
}

/** Signs the entry of each book by typing name and password, until what comes after it is there. */
export async function signEachBook(page: Page, after: Locator): Promise<void> {
  const sign = page.getByRole('button', { name: 'Sign this entry' });
  for (let book = 0; book < 4 && !(await after.isVisible()); book += 1) {
    await page.getByLabel('Signature').fill('Hesper Lyle');
    await page.getByLabel('Your password').fill(passwordOf('inspector'));
    await sign.click();
    await expect(page.getByRole('article', { name: /^Signed entry/ })).toHaveCount(book + 1);
    await expect(after.or(page.getByLabel('Signature'))).toBeVisible();
  }
}
