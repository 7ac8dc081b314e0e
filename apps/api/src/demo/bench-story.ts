import { type DemoOrder, type DemoStretch, readDemo } from '../../../../prisma/demo/data.ts';
import type { Context } from '../context.ts';
import { newId } from '../new-id.ts';
import { initialLine } from '../safety/initial-line.ts';
import { issuePart } from '../stores/issue-part.ts';
import { clock } from '../work/clock.ts';
import { finishItem } from '../work/finish-item.ts';
import { initialItem } from '../work/initial-item.ts';
import { learnNote } from '../work/learn-note.ts';
import { readCautions } from '../work/read-cautions.ts';
import { waitItem } from '../work/wait-item.ts';
import type { Act } from './play.ts';
import type { Props } from './story.ts';

const shown = -1;
const clocked = 0;
const finished = 1;
const told = 2;
const initialled = 3;

type Worked = DemoStretch & { order: string };

/** Everybody's clocks over all orders: who goes straight from one item to the next switches. */
export function clockActs(orders: readonly DemoOrder[], props: Props): Act[] {
  const all = orders.flatMap((order): Worked[] =>
    order.stretches.map((stretch) => ({ ...stretch, order: order.key })),
  );
  const people = [...new Set(all.map(({ person }) => person))];
  const supervisors = new Map(
    readDemo('people.json').flatMap(({ key, supervisor }) =>
      supervisor ? [[key, supervisor] as const] : [],
    ),
  );
  return people.flatMap((person) => {
    const own = all
      .filter((stretch) => stretch.person === person)
      .sort((a, b) => a.day - b.day || (a.from < b.from ? -1 : 1));
    const read = new Set<string>();
    const supervisor = supervisors.get(person);
    return own.flatMap((stretch, index): Act[] => {
      const [before, after] = [own[index - 1], own[index + 1]];
      const key = `${stretch.order} ${stretch.item}`;
      const act = (kind: 'start' | 'switch' | 'stop', time: string): Act => {
        const at = props.clock.at({ day: stretch.day, time });
        return {
          at,
          by: person,
          order: clocked,
          does: (context) =>
            clock(context, {
              kind,
              itemId: props.items.of(key),
              at,
              clientEventId: newId(),
              ...(supervisor !== undefined && { supervisedById: props.people.of(supervisor) }),
            }),
        };
      };
      const first = !read.has(key);
      read.add(key);
      return [
        ...(first
          ? [
              {
                at: props.clock.at({ day: stretch.day, time: stretch.from }),
                by: person,
                order: shown,
                does: (context: Parameters<Act['does']>[0]) =>
                  readCautions(context, { itemId: props.items.of(key) }),
              },
            ]
          : []),
        act(joins(before, stretch) ? 'switch' : 'start', stretch.from),
        ...(joins(stretch, after) ? [] : [act('stop', stretch.to)]),
      ];
    });
  });
}

const joins = (one: Worked | undefined, next: Worked | undefined) =>
  one !== undefined && next !== undefined && one.day === next.day && one.to === next.from;

/** What happens to items besides the clock: they wait, are finished, are initialled; parts go into them. */
export function itemActs(order: DemoOrder, props: Props): Act[] {
  const tasks = new Map(readDemo('tasks.json').tasks.map((task) => [task.key, task]));
  const partTitles = new Map(readDemo('parts.json').parts.map(({ key, title }) => [key, title]));
  const corrected = new Map(
    order.findings.flatMap(({ key, corrected: words }) =>
      words ? [[key, words.words] as const] : [],
    ),
  );
  const items = order.items.flatMap(
    ({ key, task, finding, waiting, done, learned, inspected }): Act[] => {
      const itemId = () => props.items.of(`${order.key} ${key}`);
      const workDone =
        done?.words ??
        corrected.get(finding ?? '') ??
        `Done to the ${tasks.get(task)?.reference}; nothing found.`;
      const acts: Act[] = [];
      if (waiting) {
        const by = order.stretches.findLast((stretch) => stretch.item === key)?.person ?? 'ruan';
        const expected = waiting.expected
          ? `, expected ${props.clock.day(waiting.expected).toISOString().slice(0, 10)}`
          : '';
        const note = `${partTitles.get(waiting.part ?? '') ?? waiting.reason}${expected}`;
        acts.push({
          at: props.clock.at(waiting.since),
          by,
          order: finished,
          does: (context) => waitItem(context, { itemId: itemId(), waitingFor: 'parts', note }),
        });
      }
      if (done)
        acts.push({
          at: props.clock.at(done.at),
          by: done.by,
          order: finished,
          does: async (context) => {
            await initialWhole(context, itemId());
            await finishItem(context, { itemId: itemId(), workDone, foundAccess: null });
          },
        });
      if (done && learned)
        acts.push({
          at: props.clock.at(done.at),
          by: done.by,
          order: told,
          does: (context) =>
            learnNote(context, {
              itemId: itemId(),
              partId: null,
              everyModel: learned.everyModel ?? false,
              at: null,
              words: learned.words,
              photoIds: [],
              clientEventId: newId(),
            }),
        });
      if (inspected)
        acts.push({
          at: props.clock.at(inspected.at),
          by: inspected.by,
          order: initialled,
          does: (context) => initialItem(context, { itemId: itemId(), second: false }),
        });
      return acts;
    },
  );
  const parts = order.partsUsed.map(
    ({ item, tag, quantity, at }): Act => ({
      at: props.clock.at(at),
      by: order.stretches.find((stretch) => stretch.item === item)?.person ?? 'ruan',
      does: (context) =>
        issuePart(context, {
          lotId: props.lots.of(tag),
          itemId: props.items.of(`${order.key} ${item}`),
          quantity,
          clientEventId: null,
        }),
    }),
  );
  return [...items, ...parts];
}

/** Whoever finishes an item has done every line of its list. */
async function initialWhole(context: Context, itemId: string): Promise<void> {
  const { checklist } = await context.read.workItem.findUniqueOrThrow({
    where: { id: itemId },
    select: { checklist: true },
  });
  for (const line of checklist.keys())
    await initialLine(context, {
      itemId,
      line: line + 1,
      kind: 'initialled',
      at: null,
      clientEventId: newId(),
    });
}
