import { createHash } from 'node:crypto';
import { isDeepStrictEqual, promisify } from 'node:util';
import { gunzip, gzip } from 'node:zlib';
import type { Tx } from '@fairlead/database';
import {
  ACCESS_PRIORS,
  type AccessPriors,
  fitHours,
  HOURS_MODEL_VERSION,
  type HoursModel,
  HoursPredictor,
  readModel,
} from '@fairlead/labour';
import { learnedFrom, type PastItem, pastItems } from './done-items.ts';
import { fitInThread } from './fit-thread.ts';
import { type KeptOddTime, oddTimesOf, type WatchedPast } from './odd-times-of.ts';
import { watchItems } from './watch-items.ts';

const packed = promisify(gzip);
const unpacked = promisify(gunzip);

/** A fitted model, opened. */
export interface ShopModel {
  /** Null: the worker has fitted nothing yet, so it was made for this request and is kept with the first quote. */
  id: string | null;
  number: number | null;
  fittedAt: Date | null;
  model: HoursModel;
  predictor: HoursPredictor;
}

/** Opened models by key. What a model says never changes, so it is opened once; reading its key is what row-level security guards. */
const opened = new Map<string, { model: HoursModel; predictor: HoursPredictor }>();
const MOST_OPEN = 12;

function open(id: string, model: HoursModel) {
  const one = { model, predictor: new HoursPredictor(model) };
  opened.set(id, one);
  for (const oldest of opened.keys()) {
    if (opened.size <= MOST_OPEN) break;
    opened.delete(oldest);
  }
  return one;
}

const HEAD = { id: true, number: true, fittedAt: true } as const;
type Head = { id: string; number: number; fittedAt: Date };

/**
 * The model by which the shop estimates now: the newest that this program fitted to something.
 *
 * Where there is none the answer does not wait for the worker: a shop that has clocked nothing is answered from priors
 * alone, and one whose models are of another version of the program from a fit made for this request.
 */
export async function modelInForce(read: Tx): Promise<ShopModel> {
  const newest = await modelKept(read);
  if (newest) return newest;
  const { items, priors } = await fitInputs(read);
  const model =
    items.length === 0
      ? fitHours([], { accessPriors: priors.access })
      : (await fitInThread({ items, access: priors.access })).model;
  return { id: null, number: null, fittedAt: null, model, predictor: new HoursPredictor(model) };
}

/** The newest model that the shop's own work has taught, where there is one; nothing is fitted for whoever asks. */
export async function modelKept(read: Tx): Promise<ShopModel | null> {
  const newest = await read.hoursModel.findFirst({
    where: { version: HOURS_MODEL_VERSION, items: { gt: 0 } },
    orderBy: { number: 'desc' },
    select: HEAD,
  });
  return newest ? openedModel(read, newest) : null;
}

/**
 * A model that was kept.
 *
 * @throws RangeError when another version of the program made it
 */
export const modelBy = async (read: Tx, id: string): Promise<ShopModel> =>
  openedModel(read, await read.hoursModel.findUniqueOrThrow({ where: { id }, select: HEAD }));

async function openedModel(read: Tx, head: Head): Promise<ShopModel> {
  const known = opened.get(head.id);
  if (known) return { ...head, ...known };
  const { content } = await read.hoursModel.findUniqueOrThrow({
    where: { id: head.id },
    select: { content: true },
  });
  const model = readModel(JSON.parse((await unpacked(content)).toString('utf8')));
  return { ...head, ...open(head.id, model) };
}

/** The access priors in force: the manager's newest table, or the program's own. */
export async function accessPriors(
  read: Pick<Tx, 'hoursPriors'>,
): Promise<{ id: string | null; access: AccessPriors }> {
  const newest = await read.hoursPriors.findFirst({ orderBy: { revision: 'desc' } });
  return newest
    ? { id: newest.id, access: newest.access as unknown as AccessPriors }
    : { id: null, access: ACCESS_PRIORS };
}

/** What a fit is made from. */
export interface FitInputs {
  items: (PastItem & WatchedPast)[];
  priors: { id: string | null; access: AccessPriors };
}

/** Everything that the next model is fitted to. */
export async function fitInputs(tx: Tx): Promise<FitInputs> {
  const items = learnedFrom(await pastItems(tx));
  return { items: await watchItems(tx, items), priors: await accessPriors(tx) };
}

/**
 * Keeps a fitted model as the shop's newest, unless it and its odd times say the same as the one before.
 *
 * @returns its key
 */
export async function keepModel(
  tx: Tx,
  {
    model,
    odd = [],
    priorsId,
    fittedAt,
    ms,
  }: {
    model: HoursModel;
    odd?: readonly KeptOddTime[];
    priorsId: string | null;
    fittedAt: Date;
    ms: number;
  },
): Promise<string> {
  const json = JSON.stringify(model);
  const sha256 = createHash('sha256').update(json).digest('hex');
  const newest = await tx.hoursModel.findFirst({
    orderBy: { number: 'desc' },
    select: { id: true, sha256: true, priorsId: true, oddTimes: true },
  });
  if (
    newest?.sha256 === sha256 &&
    newest.priorsId === priorsId &&
    isDeepStrictEqual(newest.oddTimes, JSON.parse(JSON.stringify(odd)))
  )
    return newest.id;
  const { id } = await tx.hoursModel.create({
    data: {
      fittedAt,
      version: model.version,
      content: new Uint8Array(await packed(json)),
      sha256,
      priorsId,
      items: model.summary.items,
      censored: model.summary.censored,
      odd: model.summary.odd,
      residualSd: Math.exp(model.lnSigma),
      settled: model.summary.settled,
      fitMs: ms,
      oddTimes: odd as unknown as object[],
    },
    select: { id: true },
  });
  return id;
}

/**
 * Fits and keeps a model at once, within the transaction at hand: for a history that is small and nobody who waits.
 *
 * @returns its key
 */
export async function fitWithin(tx: Tx, fittedAt: Date): Promise<string> {
  const { items, priors } = await fitInputs(tx);
  const model = fitHours(items, { accessPriors: priors.access });
  const odd = oddTimesOf(model, items);
  return keepModel(tx, { model, odd, priorsId: priors.id, fittedAt, ms: 0 });
}

/** The key of the model in force, which is kept first where it was made for the request. */
export async function keptModelId(tx: Tx, used: ShopModel, at: Date): Promise<string> {
  if (used.id) return used.id;
  const { id: priorsId } = await accessPriors(tx);
  return keepModel(tx, { model: used.model, priorsId, fittedAt: at, ms: 0 });
}
