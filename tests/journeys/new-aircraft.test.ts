import { expect, type Page, test } from '@playwright/test';
import { seenTwice, signIn } from './people.ts';

/** A customer brings an aircraft that the shop has never had: the desk takes it in and quotes it at once. */
test.describe.configure({ mode: 'serial' });

let page: Page;
/** What is taken in stays: a second try has an aircraft of its own. */
const nth = () => 7 + test.info().retry;
test.beforeAll(async ({ browser }) => {
  page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
});
test.afterAll(async () => {
  await page.context().close();
});

test('The front desk adds the model, drawn as it is typed, and takes the aircraft in', async () => {
  await signIn(page, 'front desk');
  await page.getByRole('link', { name: 'Front desk' }).click();
  await page.getByRole('link', { name: 'New aircraft' }).click();
  await page
    .getByLabel('Model', { exact: true })
    .selectOption('one that the shop does not know yet');
  const model = page.getByRole('form', { name: 'The model' });
  await model.getByLabel('Maker').fill('Fulmar Aero');
  await model.getByLabel('Model').fill(`Petrel ${nth()}`);
  await model.getByRole('button', { name: 'Add the model' }).click();
  await expect(model.getByRole('alert')).toContainText('needed is 500 to 60000 mm');
  for (const [label, metres] of [
    ['Length of the airframe', '8.2'],
    ['Span', '11.0'],
    ['Height', '2.7'],
    ['Parked: length', '8.2'],
    ['Parked: width', '11.0'],
  ] as const)
    await model.getByLabel(label).fill(metres);
  await expect(model.getByRole('img', { name: /Side view/ })).toBeVisible();
  await seenTwice(page, 'model');
  await model.getByRole('button', { name: 'Add the model' }).click();
  await expect(model).toHaveCount(0);
  await expect(page.getByLabel('Model', { exact: true })).toContainText(
    `Fulmar Aero Petrel ${nth()}`,
  );
  const craft = page.getByRole('form', { name: 'The aircraft' });
  await craft.getByLabel('Registration').fill(`qq-90${nth()}`);
  await craft.getByLabel('Serial number').fill(`P000${nth()}`);
  await craft.getByLabel('It shows').fill('812.4');
  await expect(craft.getByRole('button', { name: 'Take it in' })).toBeDisabled();
  await craft.getByLabel('Time in service').fill('many');
  await expect(craft.getByRole('alert')).toContainText('needed: hours');
  await craft.getByLabel('Time in service').fill('2,812.4');
  await craft.getByRole('button', { name: 'Take it in' }).click();
  await expect(
    page.getByRole('heading', { level: 1, name: `Records of QQ-90${nth()}` }),
  ).toBeVisible();
  await expect(page.getByRole('main')).toContainText('2812.40 h');
});

test('They name its owner, with a limit, and quote for it', async () => {
  const answers = page.getByRole('region', { name: 'Who answers for it' });
  await expect(answers).toContainText('nothing can be quoted or agreed');
  const form = answers.getByRole('form', { name: 'Name somebody for it' });
  const who = form.getByLabel('Who', { exact: true });
  const known = who.locator('option', { hasText: 'Yusuf Marrable' });
  await who.selectOption(await known.getAttribute('value'));
  await form.getByLabel('May say yes up to').fill('1,500');
  await form.getByRole('button', { name: 'Name them' }).click();
  await expect(answers.getByRole('row', { name: /owner/ })).toContainText('1,500.00');
  await seenTwice(page, 'answers');
  await page.goto('/desk/quotes/new');
  await page.getByRole('combobox', { name: 'Aircraft' }).fill(`90${nth()}`);
  await page.getByRole('combobox', { name: 'Aircraft' }).press('Enter');
  await expect(page.getByLabel('To whom')).toContainText('up to 1,500.00');
});
