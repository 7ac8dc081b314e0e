import type { CaredItem, TorqueChoices } from './item-documents.ts';
import type { UnsentFact } from './kept-facts.ts';
import { settingOf } from './torque-reckoned.ts';

type Torque = CaredItem['torques'][number];
type Compression = CaredItem['compressions'][number];
/** `unsent`: noted on this device, and the shop has not got it yet. */
export type TorqueNow = Torque & { unsent?: true };
export type CompressionNow = Compression & { unsent?: true };

const noTool = { id: '', name: '', number: '', goodUntil: null, lapsed: false };

/** What was torqued at an item after what this device has noted; the setting and the wrench as its form showed them. */
export function torquesNoted(
  itemId: string,
  facts: readonly UnsentFact[],
  tools: TorqueChoices['tools'],
): TorqueNow[] {
  return facts.flatMap(({ does, input, id, at, name }): TorqueNow[] => {
    if (does !== 'torque' || input.itemId !== itemId) return [];
    const { fastener, torque, unit, drag, lever, extension, source, thread, reason } = input;
    const tool = tools.find((each) => each.id === input.toolId) ?? noTool;
    const asked = {
      torque,
      drag: drag ?? null,
      lever: lever ?? null,
      extension: extension ?? null,
    };
    return [
      {
        ...{ id, clientEventId: id, fastener, unit, source, at, unsent: true },
        ...{ ...asked, drag: asked.drag ?? '0', setting: settingOf(asked) ?? torque },
        ...{ thread: thread ?? '', reason: reason ?? '', by: { id: '', name } },
        lapsed: tool.lapsed,
        goodUntil: tool.goodUntil ?? '',
        tool: { id: tool.id, name: tool.name, number: tool.number },
      },
    ];
  });
}

/** Compression checks at an item that this device has noted. */
export function compressionsNoted(itemId: string, facts: readonly UnsentFact[]): CompressionNow[] {
  return facts.flatMap(({ does, input, id, at, name }): CompressionNow[] => {
    if (does !== 'compression' || input.itemId !== itemId) return [];
    const { engine, supply, held, note } = input;
    const cylinders = held.map((each, index) => ({
      number: index + 1,
      held: each,
      // A loss of more than a quarter (AC 43.13-1B, 8-14).
      inExcess: (supply - each) * 4 > supply,
    }));
    const said = { engine: engine ?? '', note: note ?? '', by: { id: '', name } };
    return [{ id, clientEventId: id, supply, cylinders, at, ...said, unsent: true }];
  });
}

/** What the shop has, and then what this device has noted and the shop has not. */
export const withNoted = <Row extends { clientEventId: string }>(
  rows: readonly Row[],
  noted: readonly Row[],
): Row[] => [
  ...rows,
  ...noted.filter(({ clientEventId }) => !rows.some((row) => row.clientEventId === clientEventId)),
];
