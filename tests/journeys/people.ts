import AxeBuilder from '@axe-core/playwright';
import { type Browser, expect, type Page, test } from '@playwright/test';

/** The demo's people, as `npm start` prints them. */
const people = {
  'front desk': ['odile.farrow@ebbsay.example', 'kettle on before the tide'],
  mechanic: ['ruan.teasel@ebbsay.example', 'torque twice then walk away'],
  'second mechanic': ['marta.quillby@ebbsay.example', 'grey streaks mean look again'],
  apprentice: ['jory.sandwell@ebbsay.example', 'count the rags going out'],
  inspector: ['hesper.lyle@ebbsay.example', 'mirror torch and patience'],
  manager: ['bastian.ormeley@ebbsay.example', 'nothing leaves unbilled'],
} as const;

/** What somebody types who says again who they are. */
export const passwordOf = (who: keyof typeof people): string => people[who][1];

/**
 * Closes every browser context that a journey opened. All files share one browser: a page left open would go on asking the
 * shop at every change, and make the journeys after it slow.
 */
export const leave = async ({ browser }: { browser: Browser }): Promise<void> => {
  await Promise.all(browser.contexts().map((context) => context.close()));
};

/** Signs in by keyboard and waits for the first sheet. */
export async function signInByForm(page: Page, who: keyof typeof people): Promise<void> {
  const [email, password] = people[who];
  await page.goto('/sign-in');
  await page.getByLabel(/e-?mail/i).fill(email);
  await page.getByLabel(/pass/i).fill(password);
  await page.keyboard.press('Enter');
  await page.waitForURL((url) => !url.pathname.startsWith('/sign-in'));
  await expect(page.getByRole('heading', { level: 1 })).toBeAttached();
}

/** Signs in without the form, which has journeys of its own, and waits for the first sheet. */
export async function signIn(page: Page, who: keyof typeof people): Promise<void> {
  const [email, password] = people[who];
  const answer = await page.request.post('/auth/sign-in/email', {
    data: { email, password },
    headers: { origin: test.info().project.use.baseURL ?? '' },
  });
  expect(answer.status(), await answer.text()).toBe(200);
  await page.goto('/');
  // Everybody's own first sheet.
  await page.waitForURL((url) => url.pathname !== '/');
  await expect(page.getByRole('heading', { level: 1 })).toBeAttached();
}

/** Somebody else sits down at the same device. The page of the one before is left first, so that no request of its own still leads it elsewhere. */
export async function signInInstead(page: Page, who: keyof typeof people): Promise<void> {
  await page.goto('about:blank');
  await page.context().clearCookies();
  await signIn(page, who);
}

/** No violation of WCAG 2.2 A and AA that axe can see, on the page as it stands. */
export async function axeFree(page: Page): Promise<void> {
  // A sheet that was just turned to gets its title a moment after its words.
  await expect(page).toHaveTitle(/./);
  // What fades in has its contrast once it is there; what never ends is not waited for.
  await page.evaluate(`Promise.allSettled(document.getAnimations()
    .filter(({ effect }) => Number.isFinite(effect?.getComputedTiming().endTime))
    .map(({ finished }) => finished)).then(() => undefined)`);
  const { violations } = await new AxeBuilder({ page })
    // No frames here, so it runs in the page itself, and what passes need not be told.
    .setLegacyMode()
    .options({ resultTypes: ['violations'] })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
    .analyze();
  expect(
    violations.map(
      ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(' | ')}`,
    ),
  ).toEqual([]);
}

/** A page as it stands, at the width of a desk and of a telephone: nothing that axe refuses, and a picture of each. */
export async function seenTwice(page: Page, name: string): Promise<void> {
  const shot = (end: string) =>
    page.screenshot({ path: test.info().outputPath(`${name}${end}.png`), fullPage: true });
  await axeFree(page);
  await shot('');
  await page.setViewportSize({ width: 360, height: 780 });
  await axeFree(page);
  await shot('-360');
  await page.setViewportSize({ width: 1440, height: 900 });
}
