import { HOURS_MODEL_VERSION, type HoursModel } from './hours-model.ts';

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/**
 * Reads a model that was written down as JSON.
 *
 * @throws RangeError for what is not a model, or one of another version
 */
export function readModel(written: unknown): HoursModel {
  if (!isObject(written) || typeof written['version'] !== 'string') {
    throw new RangeError('This is not a fitted model: it has no version. Make one with fit.');
  }
  if (written['version'] !== HOURS_MODEL_VERSION) {
    throw new RangeError(
      `The model is of version ${written['version']}; this program reads ${HOURS_MODEL_VERSION}. Fit it again.`,
    );
  }
  for (const part of ['columns', 'factors', 'rows'] as const) {
    if (!Array.isArray(written[part]))
      throw new RangeError(`The model is damaged: it has no ${part}.`);
  }
  for (const part of ['priors', 'accessPriors', 'standards', 'places', 'summary'] as const) {
    if (!isObject(written[part])) throw new RangeError(`The model is damaged: it has no ${part}.`);
  }
  for (const part of ['lnSigma', 'stretch'] as const) {
    if (typeof written[part] !== 'number')
      throw new RangeError(`The model is damaged: it has no ${part}.`);
  }
  return written as unknown as HoursModel;
}
