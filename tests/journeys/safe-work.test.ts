import { expect, type Page, test } from '@playwright/test';
import { axeFree, leave, signIn } from './people.ts';

test.afterAll(leave);

/** What keeps an aircraft from flying with a panel open, by the people who close it, on the demo's hundred-hour. */
test.describe.configure({ mode: 'serial' });

let mechanic: Page;
let inspector: Page;

test.beforeAll(async ({ browser }) => {
  const open = async (who: Parameters<typeof signIn>[1], width: number) => {
    const page = await (await browser.newContext({ viewport: { width, height: 860 } })).newPage();
    await signIn(page, who);
    return page;
  };
  mechanic = await open('mechanic', 360);
  inspector = await open('inspector', 1440);
});

/** The sheet of one aircraft's open things, from the bench. */
async function toOpenThings(page: Page): Promise<void> {
  await page.goto('/bench');
  await page.getByRole('link', { name: /open: panels, parts, tools of QQ-117|of QQ-117$/ }).click();
  await expect(
    page.getByRole('heading', { level: 1, name: 'What is open on QQ-117' }),
  ).toBeVisible();
}

test('Whoever opens an item where somebody stopped reads it first, and takes it over by one touch', async () => {
  await mechanic.goto('/bench');
  const row = mechanic.getByRole('listitem').filter({ hasText: 'Marta Quillby stopped here' });
  await expect(row).toContainText('loose: bolt of the second bell-crank');
  await row.getByRole('link', { name: /^Sheet of Inspect pedals/ }).click();
  const left = mechanic.getByRole('region', { name: 'Stopped here' });
  await expect(left).toContainText('nut finger tight, no cotter pin');
  await axeFree(mechanic);
  await mechanic.getByLabel('Work done').fill('Run inspected by the manual, nothing found.');
  await mechanic.getByRole('button', { name: 'It is done', exact: true }).click();
  const notDone = mechanic.getByRole('alert').filter({ hasText: 'Not done yet' });
  await expect(notDone).toContainText('nobody has taken it over');
  await left.getByRole('button', { name: 'Taken over: I have read it' }).click();
  await expect(left).toBeHidden();
});

test('A checklist is initialled line by line, and the item is not done before the last', async () => {
  const list = mechanic.getByRole('region', { name: 'Checklist' });
  await expect(list).toContainText('3 of 5 lines without initials');
  await mechanic.getByRole('button', { name: 'It is done', exact: true }).click();
  const notDone = mechanic.getByRole('alert').filter({ hasText: 'Not done yet' });
  await expect(notDone).toContainText(
    'line 3 of its list, “Rod ends: play, jam nuts, witness holes”, has no initials; neither have lines 4 and 5',
  );
  for (const line of [3, 4, 5]) {
    await list.getByRole('button', { name: new RegExp(`^Initial line ${line}:`) }).click();
    await expect(list.getByRole('listitem').nth(line - 1)).toContainText('RT');
  }
  await expect(list).toContainText('Every line is initialled');
  await axeFree(mechanic);
});

test('A torque is recorded with the adapter reckoned in, and a lapsed wrench says so', async () => {
  await mechanic
    .locator('summary')
    .filter({ hasText: /^Torque/ })
    .click();
  const form = mechanic.getByRole('form', { name: 'Record a torque' });
  await form.getByLabel('Which fastener').fill('Bell-crank bolt, nut and cotter pin');
  await form.getByLabel('Torque, friction drag not counted').fill('135');
  await form.getByText('With an adapter on the wrench').click();
  await form.getByLabel('Wrench, handle to drive').fill('10');
  await form.getByLabel('The adapter lengthens it by').fill('1.5');
  // AC 43.13-1B, 7-40 h and figure 7-2: 135 · 10 / 11.5.
  await expect(form.getByRole('status')).toContainText('117.39 in-lb');
  const wrenches = form.getByLabel('With which wrench');
  const lapsed = await wrenches.locator('option', { hasText: 'LAPSED' }).getAttribute('value');
  await wrenches.selectOption(lapsed);
  await expect(form).toContainText('has lapsed. Take one that is good');
  await axeFree(mechanic);
  const good = await wrenches.locator('option', { hasText: 'TW-2' }).getAttribute('value');
  await wrenches.selectOption(good);
  await form.getByRole('button', { name: 'Record the torque' }).click();
  await expect(mechanic.getByText(/adapter 1\.5 on 10: set to 117\.39/)).toBeVisible();
});

test('Panels are closed and parts refitted one by one; a count that does not agree says which name', async () => {
  await toOpenThings(mechanic);
  await axeFree(mechanic);
  const open = mechanic.getByRole('region', { name: 'Opened and removed' });
  await open.getByRole('button', { name: 'Refitted: Drive belt guard' }).click();
  await expect(open.getByRole('button', { name: 'Refitted: Drive belt guard' })).toBeHidden();
  await open.getByText('Note what you opened or took off').click();
  await open.getByRole('button', { name: 'Inspection plate' }).click();
  await open.getByLabel('Where').fill('mast fairing, left');
  await open.getByRole('button', { name: 'Note it' }).click();
  await expect(open.getByRole('button', { name: 'Closed: Inspection plate' })).toBeVisible();
  await open.getByRole('button', { name: 'Closed: Inspection plate' }).click();
  await expect(open.getByRole('button', { name: 'Closed: Inspection plate' })).toBeHidden();
  const counts = mechanic.getByRole('region', { name: 'Tools and rags' });
  const back = counts.getByRole('form', { name: 'Count back' });
  await back.getByLabel('Rags, back').fill('11');
  await back.getByLabel('Torque wrench TW-1, back').fill('1');
  await back.getByLabel('Inspection mirror, back').fill('1');
  await back.getByRole('button', { name: 'Count back' }).click();
  await expect(counts).toContainText('The count does not agree');
  await axeFree(mechanic);
  await back.getByLabel('Rags, back').fill('12');
  await back.getByLabel('Torque wrench TW-1, back').fill('1');
  await back.getByLabel('Inspection mirror, back').fill('1');
  await back.getByRole('button', { name: 'Count back' }).click();
  await expect(counts).toContainText('All that went out is back');
});

test('The inspector sees what is open before anything is signed, and why it cannot be', async () => {
  await inspector.goto('/records');
  await inspector.getByRole('link', { name: /QQ-117, 100-hour inspection/ }).click();
  const still = inspector.getByRole('region', { name: 'Still open' });
  await expect(still).toContainText('things are not closed');
  await expect(still).toContainText('leak checks are not settled');
  await expect(inspector.getByRole('region', { name: 'What is missing' }).first()).toContainText(
    'a panel that is closed again',
  );
  await expect(inspector.getByText(/TW-3, lapsed after/)).toBeVisible();
  const looks = inspector.getByRole('region', { name: 'Leak check after the run-up' });
  await looks.getByText('Record the look after the run-up').click();
  await looks.getByLabel('A stain').check();
  await looks.getByLabel('Across, after half an hour').fill('1.2');
  await axeFree(inspector);
  await looks.getByRole('button', { name: 'Record it' }).click();
  await expect(looks).toContainText('a stain of 1.2 in (a seep)');
  await expect(looks).toContainText('It names no finding');
  await looks.getByLabel('Dry').check();
  await looks.getByRole('button', { name: 'Record it' }).click();
  await expect(looks).toContainText('Dry. Hesper Lyle');
});
