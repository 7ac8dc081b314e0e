import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { sayDay } from '../given.ts';
import { holdFor } from '../hold.ts';
import { findingFacts, findingState } from '../states.ts';
import { shopToday } from '../today.ts';
import { text } from './limits.ts';

export interface PutOffFindingInput {
  findingId: string;
  reason: string;
  /** Until when, whichever comes first; nothing of it: until somebody thinks of it. */
  untilOn?: Date | null;
  /** The aircraft's time in service. */
  untilHundredths?: number | null;
  untilInspection?: boolean;
}

/** Says that a finding is left for a later visit, why, and until when. Its class stays as it is. */
export async function putOffFinding(context: Context, input: PutOffFindingInput): Promise<string> {
  const { personId } = await allow(context, 'front_desk', 'inspector', 'manager');
  const reason = text(input.reason, 'reason', { least: 3, most: 2000 });
  const today = await shopToday(context);
  const { untilOn = null, untilHundredths = null, untilInspection = false } = input;
  refuseUntil(untilOn, untilHundredths, today);
  return context.write(async (tx) => {
    // load
    await holdFor(tx, 'finding', input.findingId);
    const finding = await tx.finding.findUnique({
      where: { id: input.findingId },
      select: { id: true, number: true, title: true, ...findingFacts },
    });
    if (!finding) throw notFound('finding');
    // decide
    const state = findingState(finding, today);
    // Said again it may be until another day; the very same is the same.
    const last = finding.events.at(-1);
    if (
      state === 'put_off' &&
      last?.untilOn?.getTime() === untilOn?.getTime() &&
      last?.untilHundredths === untilHundredths &&
      last.untilInspection === untilInspection
    )
      return finding.id;
    if (state === 'corrected')
      throw new Refused(
        'CONFLICT',
        `Finding ${finding.number}, “${finding.title}”, cannot be put off: it is corrected already.`,
      );
    // save
    await tx.findingEvent.create({
      data: {
        findingId: finding.id,
        kind: 'put_off',
        meaning: reason,
        ...{ untilOn, untilHundredths, untilInspection },
        at: context.now(),
        byId: personId,
      },
    });
    return finding.id;
  });
}

function refuseUntil(untilOn: Date | null, untilHundredths: number | null, today: Date): void {
  if (untilOn && untilOn < today)
    throw new Refused(
      'BAD_INPUT',
      `Put off until ${sayDay(untilOn)} was refused: today is ${sayDay(today)}, and that day has passed.`,
      'untilOn',
    );
  if (untilHundredths !== null && (untilHundredths < 1 || untilHundredths > 100_000_000))
    throw new Refused(
      'BAD_INPUT',
      `untilHundredths is ${untilHundredths}: needed is 1 to 100000000.`,
      'untilHundredths',
    );
}
