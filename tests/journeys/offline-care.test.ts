import { randomUUID } from 'node:crypto';
import { type Browser, expect, type Page, test } from '@playwright/test';
import { axeFree, signIn } from './people.ts';
import { everythingSent, isKept, type Telephone, telephone, unsent } from './telephone.ts';

/** What is opened, counted, tightened, learned, marked and looked at a second time with the network down. */

test.describe.configure({ mode: 'serial' });

let phone: Telephone;
let page: Page;
/** An item to work at, one with a photo of what was found, and a critical one. */
let at: { work: Known; photo: Known; critical: Known };

interface Known {
  id: string;
  title: string;
  state: string;
  critical: boolean;
  task: { id: string } | null;
  order: { id: string; aircraft: { registration: string } };
  findings: { photos: { id: string }[] }[];
}

/** Asks as somebody else, who has a network. */
async function as(browser: Browser, who: Parameters<typeof signIn>[1]) {
  const context = await browser.newContext();
  await signIn(await context.newPage(), who);
  return async <Data>(query: string, variables: Record<string, unknown> = {}): Promise<Data> => {
    const response = await context.request.post(
      new URL('/graphql', test.info().project.use.baseURL).href,
      { headers: { 'apollo-require-preflight': '1' }, data: { query, variables } },
    );
    const { data, errors } = (await response.json()) as { data: Data; errors?: unknown };
    expect(errors).toBeUndefined();
    return data;
  };
}
const item = (name: string, input: string) =>
  `mutation($input: ${input}!) { said: ${name}(input: $input) { __typename ... on Refusal { message } } }`;

const fold = (name: RegExp, where = page) => where.locator('summary').filter({ hasText: name });
const toSheet = async ({ id }: Pick<Known, 'id'>) => {
  await page.goto(`${phone.bench}?item=${encodeURIComponent(id)}`);
  await expect(page.getByRole('link', { name: 'Bench', exact: true }).last()).toBeVisible();
  await expect(page.getByRole('heading', { level: 1 })).not.toHaveText('Item');
};
/** A sheet begins as the device knew it last: what is done at it here follows from what the shop says now. */
const toSheetOfNow = async (item: Pick<Known, 'id'>) => {
  const said = page.waitForResponse((answer) =>
    (answer.request().postData() ?? '').includes('query ItemSheet('),
  );
  await toSheet(item);
  await (await said).finished();
  await page.waitForTimeout(500);
};
const shot = (name: string) =>
  page.screenshot({ path: test.info().outputPath(`${name}.png`), fullPage: true });
const backOnline = async () => {
  phone.line.mend();
  await page.goto(phone.bench);
  await everythingSent(page);
};

test.beforeAll(async () => {
  phone = await telephone();
  page = await phone.turnOn();
  await signIn(page, 'second mechanic');
  const { bench } = await phone.ask<{ bench: { items: Known[] } }>(
    '{ bench { items { id title state critical task { id } order { id aircraft { registration } } findings { photos { id } } } } }',
  );
  const first = (wanted: (item: Known) => boolean) => {
    const found = bench.items.find(wanted);
    if (!found) throw new Error('The demo has no such item');
    return found;
  };
  at = {
    work: first(
      ({ state, task, order }) =>
        state === 'open' && task !== null && order.aircraft.registration === 'QQ-117',
    ),
    photo: first(({ findings }) => findings.some(({ photos }) => photos.length > 0)),
    // In the demo it waits for its part; another journey may have taken it up.
    critical: first(
      ({ critical, state }) => critical && ['open', 'in_work', 'waiting'].includes(state),
    ),
  };
  const photoId = at.photo.findings.flatMap(({ photos }) => photos)[0]?.id ?? '';
  const photo = page.waitForResponse(
    (answer) => answer.url().endsWith(`${photoId}/middle`) && answer.ok(),
  );
  await page.goto(phone.bench);
  await isKept(page);
  await photo;
  await toSheet(at.critical);
  await toSheet(at.work);
  await expect(fold(/^Opened and removed/)).toBeVisible();
});
test.afterAll(async () => {
  await phone.close();
});

test('A panel that was opened with no network is closed with no network, and the list of the aircraft counts it', async () => {
  const open = () => page.getByRole('link', { name: / of QQ-117$/ });
  await page.goto(phone.bench);
  const before = Number(/^(\d+) open/.exec((await open().textContent()) ?? '')?.[1] ?? 0);
  phone.line.cut();
  await toSheet(at.work);
  await fold(/^Opened and removed/).click();
  await page.getByText('Note what you opened or took off').click();
  for (const words of ['Fin tip cover', 'Rear bulkhead door']) {
    await page
      .locator('form', { has: page.getByRole('button', { name: 'Note it' }) })
      .getByLabel('What', { exact: true })
      .fill(words);
    await page.getByRole('button', { name: 'Note it' }).click();
    const line = page.getByRole('listitem').filter({ hasText: words });
    await expect(line).toContainText('not sent yet');
  }
  await shot('opened');
  await page.getByRole('button', { name: 'Closed: Fin tip cover' }).click();
  await expect(page.getByRole('button', { name: 'Closed: Fin tip cover' })).toHaveCount(0);
  await page.goto(phone.bench);
  await expect(open()).toHaveText(new RegExp(`^${before + 1} open`));
  await page.reload();
  await expect(open()).toHaveText(new RegExp(`^${before + 1} open`));
  await shot('list');
  // The look of the morning after is appointed there as well.
  await open().click();
  await page.getByText('Appoint a look after standing').first().click();
  const appoint = page.locator('form', {
    has: page.getByRole('button', { name: 'Appoint it' }).locator('visible=true'),
  });
  await appoint.getByRole('button', { name: 'Appoint it' }).click();
  await expect(appoint).toContainText(
    /Look after standing appointed for .*07:00.*noted here, not sent yet/,
  );
  await shot('appointed');
});

test('Counts, a torque and a compression check noted there are reckoned in, through a telephone that restarts', async () => {
  await toSheet(at.work);
  await fold(/^Tools and rags/).click();
  await page.getByText('Count out tools and rags').click();
  const out = page.getByRole('form', { name: 'Count out' });
  await out.getByLabel('How many').fill('4');
  await out.getByRole('button', { name: 'Count out' }).click();
  await expect(page.getByText('4 out, not counted back')).toBeVisible();
  await expect(page.getByText(/^Last counted by Marta Quillby.*not sent yet/)).toBeVisible();
  const back = page.getByRole('form', { name: 'Count back' });
  await back.getByLabel('Rags, back').fill('3');
  await back.getByRole('button', { name: 'Count back' }).click();
  await expect(page.getByText('The count does not agree')).toBeVisible();

  await fold(/^Torque/).click();
  const torque = page.getByRole('form', { name: 'Record a torque' });
  await torque.getByLabel('Which fastener').fill('Pivot bolt, left');
  await torque.getByLabel('Torque, friction drag not counted').fill('135');
  await torque.getByText('With an adapter on the wrench').click();
  await torque.getByLabel('Wrench, handle to drive').fill('10');
  await torque.getByLabel('The adapter lengthens it by').fill('1.5');
  // AC 43.13-1B, 7-40 h and figure 7-2: 135 · 10 / 11.5; with no network to ask.
  await expect(torque.getByRole('status')).toContainText('117.39 in-lb');
  const wrenches = torque.getByLabel('With which wrench');
  const good = await wrenches.locator('option', { hasText: 'TW-2' }).getAttribute('value');
  await wrenches.selectOption(good);
  await torque.getByRole('button', { name: 'Record the torque' }).click();

  await fold(/^Compression/).click();
  const compression = page.getByRole('form', { name: 'Record compression' });
  for (const [index, held] of ['78', '76', '59', '79'].entries())
    await compression.getByLabel(`Cylinder ${index + 1}`).fill(held);
  await compression.getByRole('button', { name: 'Record the check' }).click();

  await expect(fold(/^Torque: 1 recorded/)).toBeVisible();
  await phone.turnOff();
  page = await phone.turnOn();
  await toSheet(at.work);
  await expect(page.getByText('The count does not agree')).toBeVisible();
  await fold(/^Torque: 1 recorded/).click();
  await expect(page.getByText(/adapter 1\.5 on 10: set to 117\.39/)).toBeVisible();
  await expect(page.getByText(/TW-2, Marta Quillby.*; not sent yet/)).toBeVisible();
  await fold(/^Compression: 1 recorded/).click();
  await expect(page.getByText(/^cylinder 3: 59\/80 suspect/)).toBeVisible();
  await axeFree(page);
  await shot('reckoned');
  const again = page.getByRole('form', { name: 'Count back' });
  await again.getByLabel('Rags, back').fill('4');
  await again.getByRole('button', { name: 'Count back' }).click();
  await expect(page.getByText(/^All that went out is back.*not sent yet\.$/)).toBeVisible();
});

test('When the network is back each of these is at the shop once, the closing with its opening', async () => {
  phone.line.lie();
  await page.goto(phone.bench).catch(() => undefined);
  // The shop takes what comes first, and its answer is lost: it is sent again.
  const lines = async () =>
    (
      await phone.ask<{ node: { openLines: { words: string; state: string }[] } }>(
        'query($id: ID!) { node(id: $id) { ... on WorkOrder { openLines { words state } } } }',
        { id: at.work.order.id },
      )
    ).node.openLines.filter(({ words }) => ['Fin tip cover', 'Rear bulkhead door'].includes(words));
  await expect.poll(async () => (await lines()).length, { timeout: 30_000 }).toBe(1);
  await backOnline();
  const { node: appointed } = await phone.ask<{
    node: { leakChecks: { kind: string; state: string }[] };
  }>('query($id: ID!) { node(id: $id) { ... on WorkOrder { leakChecks { kind state } } } }', {
    id: at.work.order.id,
  });
  expect(appointed.leakChecks).toContainEqual({ kind: 'after_standing', state: 'appointed' });
  expect(await lines()).toEqual([
    { words: 'Fin tip cover', state: 'closed' },
    { words: 'Rear bulkhead door', state: 'open' },
  ]);
  const { node } = await phone.ask<{
    node: {
      torques: { setting: string }[];
      compressions: { cylinders: { held: number }[] }[];
      order: { toolCounts: { itemId: string; agrees: boolean; clientEventIds: string[] }[] };
    };
  }>(
    `query($id: ID!) { node(id: $id) { ... on WorkItem { torques { setting } compressions { cylinders { held } }
      order { toolCounts { itemId agrees clientEventIds } } } } }`,
    { id: at.work.id },
  );
  expect(node.torques).toEqual([{ setting: '117.39' }]);
  expect(node.compressions.map(({ cylinders }) => cylinders.map(({ held }) => held))).toEqual([
    [78, 76, 59, 79],
  ]);
  const counted = node.order.toolCounts.find(({ itemId }) => itemId === at.work.id);
  expect(counted).toMatchObject({ agrees: true });
  expect(counted?.clientEventIds).toHaveLength(3);
  await toSheet(at.work);
  await page.getByRole('button', { name: 'Closed: Rear bulkhead door' }).click();
  await expect(page.getByRole('button', { name: 'Closed: Rear bulkhead door' })).toHaveCount(0);
  await everythingSent(page);
});

const trick = 'Turn the hub until the pin faces up; the nut then clears the frame.';
test('What was learned, whether it holds, and marks over a photo wait on the device, and are there once', async () => {
  phone.line.cut();
  await toSheet(at.work);
  await page.getByText('Something for whoever does it next').click();
  await page.getByLabel('What you learned').fill(trick);
  await page.getByRole('button', { name: 'Keep it' }).click();
  const note = page.getByRole('article').filter({ hasText: trick });
  await expect(note).toContainText(/Marta Quillby, .*on this model; not sent yet/);
  await expect(note.getByRole('button')).toHaveCount(0);
  await shot('learned');
  await toSheet(at.photo);
  await page.getByRole('button', { name: 'Mark photo 1' }).click();
  const area = page.getByRole('application', { name: /^Place on photo 1/ });
  await expect
    .poll(() =>
      area.locator('img').evaluate((one) => ('naturalWidth' in one ? Number(one.naturalWidth) : 0)),
    )
    .toBeGreaterThan(300);
  await area.focus();
  await page.keyboard.press('Enter');
  for (const key of ['ArrowRight', 'ArrowRight', 'ArrowDown']) await page.keyboard.press(key);
  await page.keyboard.press('Enter');
  await shot('marking');
  await page.getByRole('button', { name: 'Keep the marks' }).click();
  await expect(page.getByText('Marks on photo 1: not sent yet')).toBeVisible();
  await page.reload();
  await expect(page.getByText('Marks on photo 1: not sent yet')).toBeVisible();
  await expect(unsent(page)).toContainText(/Learned: Turn the hub/);
  await axeFree(page);
  await shot('marked');
  await backOnline();
  const shop = async () =>
    (
      await phone.ask<{
        node: {
          learned: { words: string; stillTrue: boolean; judgedBy: { name: string } | null }[];
        };
      }>(
        'query($id: ID!) { node(id: $id) { ... on WorkItem { learned { words stillTrue judgedBy { name } } } } }',
        { id: at.work.id },
      )
    ).node.learned.filter(({ words }) => words === trick);
  expect(await shop()).toEqual([{ words: trick, stillTrue: true, judgedBy: null }]);
  const { node } = await phone.ask<{
    node: { findings: { photos: { marks: { kind: string; x: number; y: number }[] }[] }[] };
  }>(
    'query($id: ID!) { node(id: $id) { ... on WorkItem { findings { photos { marks { kind x y } } } } } }',
    { id: at.photo.id },
  );
  expect(node.findings[0]?.photos[0]?.marks.at(-1)).toEqual({ kind: 'arrow', x: 540, y: 520 });

  await toSheet(at.work);
  await expect(note.getByRole('button', { name: 'No longer true' })).toBeVisible();
  phone.line.cut();
  await note.getByRole('button', { name: 'No longer true' }).click();
  await fold(/no longer hold/).click();
  await expect(note).toContainText(/No longer true: Marta Quillby.*; not sent yet/);
  await backOnline();
  expect(await shop()).toEqual([
    { words: trick, stillTrue: false, judgedBy: { name: 'Marta Quillby' } },
  ]);
});

test('Marks drawn with no network give way to what somebody drew later, and are there to go on from', async ({
  browser,
}) => {
  const inspector = await as(browser, 'inspector');
  await toSheet(at.photo);
  await expect(page.getByRole('button', { name: 'Mark photo 1' })).toBeVisible();
  phone.line.cut();
  await page.getByRole('button', { name: 'Mark photo 1' }).click();
  await page.getByRole('application', { name: /^Place on photo 1/ }).focus();
  await page.getByRole('radio', { name: /Ring/ }).check();
  await page.getByRole('application', { name: /^Place on photo 1/ }).focus();
  for (const key of ['Enter', 'ArrowUp', 'ArrowUp', 'Enter']) await page.keyboard.press(key);
  await expect(page.getByText('2 of 12 marks.')).toBeVisible();
  await page.getByRole('button', { name: 'Keep the marks' }).click();
  await expect(page.getByText('Marks on photo 1: not sent yet')).toBeVisible();
  // Later by more than the two seconds to which the difference of two clocks is known.
  await page.waitForTimeout(2500);
  const photoId = at.photo.findings.flatMap(({ photos }) => photos)[0]?.id;
  await inspector(item('markPhoto', 'MarkPhotoInput'), { input: { photoId, marks: [] } });
  phone.line.mend();
  await page.getByRole('button', { name: 'Try now' }).click();
  await expect(unsent(page)).toContainText(
    /Not taken\. Marks on photo 1: .*Hesper Lyle marked this photo at .*, after you did at .*: theirs stay/,
  );
  await axeFree(page);
  await shot('marks-refused');
  await page.getByRole('button', { name: 'Mark photo 1' }).click();
  await expect(page.getByText('2 of 12 marks.')).toBeVisible();
  await page.getByRole('button', { name: 'Keep the marks' }).click();
  await expect(unsent(page)).toHaveCount(0);
  await everythingSent(page);
});

test('A second look given with no network counts when it comes; one of who worked on the item is refused, and the sheet says why', async ({
  browser,
}) => {
  const [mechanic, inspector] = [await as(browser, 'mechanic'), await as(browser, 'inspector')];
  const { id: itemId } = at.critical;
  interface Facts {
    node: { state: string; checklist: { number: number; initials: string | null }[] };
  }
  const facts = async () =>
    (
      await phone.ask<Facts>(
        'query($id: ID!) { node(id: $id) { ... on WorkItem { state checklist { number initials } } } }',
        { id: itemId },
      )
    ).node;
  const finish = async () => {
    for (const { number: line, initials } of (await facts()).checklist)
      if (initials === null)
        await mechanic(item('initialLine', 'InitialLineInput'), {
          input: { itemId, line, kind: 'initialled', clientEventId: randomUUID() },
        });
    await mechanic(item('finishItem', 'FinishItemInput'), {
      input: { itemId, workDone: 'Pump replaced by the maker’s manual, leak check good.' },
    });
    await inspector(item('initialItem', 'InitialItemInput'), { input: { itemId, second: false } });
    expect((await facts()).state).toBe('done');
  };
  const reopen = (reason: string) =>
    inspector(item('reopenItem', 'ItemReasonInput'), { input: { itemId, reason } });
  const look = page.getByRole('region', { name: 'Second look' });

  const waited = (await facts()).state === 'waiting';
  if (waited) await mechanic(item('resumeItem', 'ItemInput'), { input: { itemId } });
  await finish();
  await toSheetOfNow(at.critical);
  await expect(look).toContainText('Hesper Lyle gave the first initials');
  phone.line.cut();
  await look.getByRole('button', { name: 'I looked at it, and it is right' }).click();
  await expect(look).toContainText(/You gave the second look, .*: not sent yet/);
  await expect(page.getByText('inspected, not sent yet')).toBeVisible();
  await page.reload();
  await expect(look).toContainText(/You gave the second look, .*: not sent yet/);
  await axeFree(page);
  await shot('second-look');
  expect((await facts()).state).toBe('done');
  await backOnline();
  expect((await facts()).state).toBe('inspected');

  await reopen('Safety wire missing at the inlet.');
  await finish();
  await toSheetOfNow(at.critical);
  await expect(look).toContainText('yours may be it');
  phone.line.cut();
  await look.getByRole('button', { name: 'I looked at it, and it is right' }).click();
  await expect(look).toContainText('not sent yet');
  // On another device the same person worked on it before, and the shop hears of that first.
  const minutes = (ago: number) => new Date(Date.now() - ago * 60_000).toISOString();
  for (const [kind, ago] of [
    ['start', 3],
    ['stop', 2],
  ] as const)
    await phone.ask(item('clock', 'ClockInput'), {
      input: { kind, itemId, at: minutes(ago), clientEventId: randomUUID() },
    });
  phone.line.mend();
  await page.getByRole('button', { name: 'Try now' }).click();
  await expect(look).toContainText('Your second look did not count');
  await expect(look).toContainText('needs another pair of eyes: you worked on it yourself');
  await expect(look).toContainText('It still wants a second pair of eyes.');
  await axeFree(page);
  await shot('second-look-refused');
  await look.getByRole('button', { name: 'Understood' }).click();
  await expect(look).toContainText('and not yours: you worked on it');
  await everythingSent(page);
  expect((await facts()).state).toBe('done');

  // As it was found.
  await reopen('The pump of the order has not come after all.');
  if (!waited) return;
  await mechanic(item('waitItem', 'WaitItemInput'), {
    input: { itemId, waitingFor: 'parts', note: 'The pump is on its way.' },
  });
});
