import { randomUUID } from 'node:crypto';
import { expect, type Page, test } from '@playwright/test';
import sharp from 'sharp';
import { axeFree, leave, signIn } from './people.ts';

test.afterAll(leave);

/** Clocks that were left running, under whom somebody works, the clock on every sheet, and photos of after. */

const phone = { width: 360, height: 740 };

async function ask<T>(page: Page, query: string, variables: object = {}): Promise<T> {
  const answer = await page.request.post('/graphql', {
    data: { query, variables },
    headers: { 'apollo-require-preflight': '1' },
  });
  const { data, errors } = (await answer.json()) as { data: T; errors?: object[] };
  expect(errors).toBeUndefined();
  return data;
}
const changed = (page: Page, words: string) =>
  page.waitForResponse(
    (response) => response.ok() && (response.request().postData() ?? '').includes(words),
  );
interface Item {
  id: string;
  title: string;
  state: string;
  finding: { photos: { id: string }[] } | null;
}
const itemsOf = async (page: Page): Promise<Item[]> =>
  (
    await ask<{ bench: { items: Item[] } }>(
      page,
      '{ bench { items { id title state finding { photos { id } } } } }',
    )
  ).bench.items;
const strip = (page: Page) => page.getByRole('region', { name: 'Your running clock' });

test('Whoever left the clock running is asked about it and says when they really stopped; the manager has seen it meanwhile', async ({
  page,
  browser,
}) => {
  await page.setViewportSize(phone);
  await signIn(page, 'inspector');
  const item = (await itemsOf(page)).find(({ state }) => state !== 'done');
  const began = new Date(Date.now() - 40 * 3_600_000);
  await ask(page, 'mutation($input: ClockInput!) { clock(input: $input) { __typename } }', {
    input: {
      kind: 'start',
      itemId: item?.id,
      at: began.toISOString(),
      clientEventId: randomUUID(),
    },
  });
  await page.goto('/bench');
  const asked = page.getByRole('region', { name: 'Was this clock left running?' });
  await expect(asked).toContainText(item?.title ?? '');
  await expect(asked).toContainText(/on past the end of your hours/);
  await axeFree(page);
  // Nobody is locked out: the items are there, and can be started.
  await expect(page.getByRole('button', { name: /^Start:/ }).first()).toBeEnabled();

  const manager = await (await browser.newContext()).newPage();
  await signIn(manager, 'manager');
  await manager.goto('/desk');
  await manager.getByRole('link', { name: 'See when it ran' }).click();
  const row = manager.getByRole('listitem').filter({ hasText: `Hesper Lyle: ${item?.title}` });
  await expect(row).toContainText('on past the end of their hours');
  await row.getByText('Say how it was, for them').click();
  await expect(row.getByRole('radio').first()).toBeVisible();
  await axeFree(manager);

  await asked.getByRole('radio', { name: 'At another time' }).check();
  const stopped = asked.getByLabel('Stopped');
  await stopped.fill('2020-01-01T10:00');
  await asked.getByRole('button', { name: 'That is when it stopped' }).click();
  await expect(asked).toContainText('The clock began later than that');
  await asked.getByRole('radio').first().check();
  await asked.getByLabel('Why').fill('Left for the evening without a stop');
  const said = changed(page, 'mutation AnswerForgottenClock');
  await asked.getByRole('button', { name: 'That is when it stopped' }).click();
  expect(JSON.stringify(await (await said).json())).not.toContain('Refusal');
  await expect(asked).toHaveCount(0);
  await expect(page.getByRole('region', { name: 'Your clock' })).toContainText('is stopped');
  await expect(row).toHaveCount(0);
  await manager.context().close();
});

test('An apprentice says once under whom they work; the stretch says it, and the clock runs on every sheet', async ({
  page,
}) => {
  await page.setViewportSize(phone);
  await signIn(page, 'apprentice');
  await page.goto('/bench');
  await page
    .getByRole('button', { name: /^Start:/ })
    .first()
    .click();
  const whose = page.getByRole('dialog', { name: 'Under whose supervision?' });
  await expect(whose.getByRole('button', { name: /Go on|Start the clock/ })).toBeDisabled();
  await whose.getByRole('radio', { name: 'Ruan Teasel' }).check();
  await axeFree(page);
  await whose.getByRole('button', { name: /Go on|Start the clock/ }).click();
  const clock = page.getByRole('region', { name: 'Your clock' });
  const read = page.getByRole('button', { name: 'Read. Start the clock' });
  await expect(read.or(clock.getByRole('timer'))).toBeVisible();
  const started = changed(page, '"supervisedById"');
  if (await read.isVisible()) await read.click();
  await started;
  await expect(clock).toContainText('Under Ruan Teasel');
  const title = (await clock.locator('p').nth(1).textContent()) ?? '';

  await page.goto('/stores');
  await expect(strip(page)).toContainText(title);
  await expect(strip(page).getByRole('timer')).toContainText('0:00');
  await axeFree(page);
  // It follows the time without asking anybody.
  await page.clock.install();
  await page.reload();
  await expect(strip(page)).toBeVisible();
  await page.context().setOffline(true);
  await page.clock.fastForward('02:00:00');
  await expect(strip(page).getByRole('timer')).toContainText('2:00');
  await page.context().setOffline(false);

  await page.goto('/bench');
  await page.getByRole('link', { name: title }).first().click();
  await expect(page.getByRole('region', { name: 'What was clocked' })).toContainText(
    'Jory Sandwell, under Ruan Teasel',
  );
  const stop = changed(page, '"kind":"stop"');
  await page.getByRole('button', { name: 'Stop the clock', exact: true }).click();
  await stop;
  await expect(strip(page)).toHaveCount(0);
  await page.goto('/bench/hours');
  await expect(page.getByRole('row', { name: /Jory Sandwell/ })).toBeVisible();
  await axeFree(page);
});

test('A corrected finding is photographed again: before and after stand side by side', async ({
  page,
}) => {
  await page.setViewportSize(phone);
  await signIn(page, 'inspector');
  const items = await itemsOf(page);
  const item = items.find(
    ({ state, finding }) => state !== 'done' && (finding?.photos.length ?? 0) > 0,
  );
  expect(item, 'an open item that corrects a finding with photos').toBeDefined();
  const address = `/bench?item=${encodeURIComponent(item?.id ?? '')}`;
  await page.goto(address);
  const again = page.getByRole('group', { name: 'The same view, now that it is corrected' });
  await expect(again.getByRole('img', { name: /^Before/ }).first()).toBeVisible();
  const background = { r: 120, g: 140, b: 90 };
  const photo = await sharp({ create: { width: 640, height: 480, channels: 3, background } })
    .jpeg()
    .toBuffer();
  await again
    .locator('input[type=file]')
    .first()
    .setInputFiles({ name: 'after.jpg', mimeType: 'image/jpeg', buffer: photo });
  await expect(again.getByRole('img', { name: /^After/ })).toBeVisible();
  await axeFree(page);
  await page.getByLabel('Work done').fill('Corrected as described, looked at again.');
  const joined = changed(page, '"beforeId"');
  await page.getByRole('button', { name: /it is done$/i }).click();
  expect(JSON.stringify(await (await joined).json())).not.toContain('Refusal');
  await page.goto(address);
  const main = page.getByRole('main');
  await expect(main.getByText('Before', { exact: true }).first()).toBeVisible();
  await expect(main.getByText('After', { exact: true }).first()).toBeVisible();
  await axeFree(page);
  const reopen = page.getByRole('button', { name: /open it again/ });
  if (await reopen.isVisible()) await reopen.click();
});

test('Words are said where the browser listens, and nothing is offered where it does not', async ({
  page,
}) => {
  await page.setViewportSize(phone);
  await signIn(page, 'mechanic');
  await page.addInitScript(`{
    window.webkitSpeechRecognition = undefined;
    window.SpeechRecognition = class {
      start() {
        setTimeout(() => this.onresult({ resultIndex: 0, results: [{ isFinal: true, 0: { transcript: 'grey streak' } }] }), 50);
      }
      stop() { this.onend(); }
    };
  }`);
  await page.goto('/bench?found=');
  const words = page.getByRole('textbox', { name: 'More of it' });
  await words.fill('Below the shroud:');
  await page.getByRole('button', { name: /^Say it/ }).click();
  await expect(words).toHaveValue('Below the shroud: grey streak');
  await axeFree(page);
  await page.getByRole('button', { name: /touch to stop/ }).click();
  await expect(page.getByRole('button', { name: /^Say it/ })).toBeVisible();

  await page.addInitScript(
    'window.SpeechRecognition = undefined; window.webkitSpeechRecognition = undefined;',
  );
  await page.goto('/bench?found=');
  await expect(words).toBeVisible();
  await expect(page.getByRole('button', { name: /^Say it/ })).toHaveCount(0);
});
