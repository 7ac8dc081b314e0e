import { describe, expect, it } from 'vitest';
import { filledPlace, placesOf } from '../../src/hours-model/known-places.ts';
import { type DoneItem, fitHours, HoursPredictor } from '../../src/index.ts';

const item = (over: Partial<DoneItem> = {}): DoneItem => ({
  task: 'Task',
  jasc: '7100',
  standardHours: 2,
  model: 'Model A',
  mechanics: [],
  hours: 3,
  censored: false,
  ...over,
});

describe('what is blank of a place', () => {
  it('is as it was last written down for the task on that model', () => {
    const places = placesOf([
      item({ place: { clearanceMm: 150, sight: 'feel' } }),
      item({ place: { clearanceMm: 250, sight: undefined } }),
      item({ model: 'Model B', place: { reach: 'arm' } }),
      item({}),
    ]);
    expect(filledPlace(item(), places)).toEqual({ clearanceMm: 250, sight: 'feel' });
    expect(filledPlace(item({ place: { clearanceMm: 90 } }), places)).toEqual({
      clearanceMm: 90,
      sight: 'feel',
    });
    expect(filledPlace(item({ model: 'Model C' }), places)).toBeUndefined();
    expect(filledPlace(item({ task: 'Other' }), places)).toBeUndefined();
  });

  it('counts in the fit and in the estimate', () => {
    const place = { clearanceMm: 100 };
    const model = fitHours([item({ place }), item({ place }), item({})]);
    const predictor = new HoursPredictor(model);
    expect(predictor.estimate(item({})).p50).toBe(predictor.estimate(item({ place })).p50);
    expect(model.columns.find(({ name }) => name === 'access clearanceMm:3')!.items).toBe(3);
  });
});
