import { describe, expect, it } from 'vitest';
import {
  type PackageItem,
  quickSumOfItems,
  sumMoments,
  sumOfItems,
} from '../../packages/labour/src/index.ts';

const items = (mu: readonly number[], sigma: readonly number[]): PackageItem[] =>
  mu.map((location, index) => ({
    predictive: { location, scale: sigma[index]!, df: Number.POSITIVE_INFINITY },
    mean: Math.exp(location + sigma[index]! ** 2 / 2),
    p80: 1,
  }));

/**
 * Sums of independent log-normals, computed independently: moments in closed form, Fenton & Wilkinson's log-normal from them
 * (Fenton 1960, IRE Trans. Commun. Syst. 8(1)), quantiles by quadrature of the convolution, or by fast Fourier transform
 * where there are more than two terms (both agree to 1e-6 where both were computed). The first one is the example of the
 * vignette of R's package lognorm.
 */
const SUMS = [
  {
    name: 'two terms',
    mu: [4.700480365792417, 4.605170185988092],
    sigma: [0.25, 0.15],
    mean: 214.62312674726257,
    variance: 1063.44158664521,
    location: 5.357471506703519,
    scale: 0.15107669872815854,
    quantiles: [175.52112460943172, 211.65984278502393, 240.41440654460712, 257.4290695928808],
  },
  {
    name: '5 equal s.d. 0.4',
    mu: [0.0, 0.0, 0.0, 0.0, 0.0],
    sigma: [0.4, 0.4, 0.4, 0.4, 0.4],
    mean: 5.416435338374793,
    variance: 1.0180844667207347,
    location: 1.6723810969789135,
    scale: 0.18469875719769693,
    quantiles: [4.206803821255441, 5.321908784738406, 6.216596784949138, 6.745462675273111],
  },
  {
    name: '5 mixed',
    mu: [0.6931471805599453, 0.0, -0.6931471805599453, 1.3862943611198906, 2.0794415416798357],
    sigma: [0.3, 0.6, 0.9, 0.4, 0.25],
    mean: 16.626019863660282,
    variance: 9.38629761526202,
    location: 2.794272773269821,
    scale: 0.18273563731867537,
    quantiles: [12.9842823204139, 16.321161335361186, 19.026643336438344, 20.643659168334224],
  },
  {
    name: '20 equal s.d. 0.6',
    mu: [
      0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0,
      0.0,
    ],
    sigma: [
      0.6, 0.6, 0.6, 0.6, 0.6, 0.6, 0.6, 0.6, 0.6, 0.6, 0.6, 0.6, 0.6, 0.6, 0.6, 0.6, 0.6, 0.6, 0.6,
      0.6,
    ],
    mean: 23.944347262436196,
    variance: 12.422075921670945,
    location: 3.165014729085639,
    scale: 0.146407270778137,
    quantiles: [19.670910014021672, 23.663467487895335, 26.766364524368942, 28.570004192071636],
  },
  {
    name: 'two wide terms',
    mu: [0.0, 0.0],
    sigma: [1.1, 1.1],
    mean: 3.662504417771547,
    variance: 15.784749324665654,
    location: 0.9092324738563538,
    scale: 0.881946377852522,
    quantiles: [0.8889573308788401, 2.530418616946178, 5.121327251769632, 7.471668582601949],
  },
];

describe('sum of log-normals', () => {
  it.each(SUMS)('$name: moments, and the log-normal that has them', (one) => {
    const { mean, variance, location, scale } = sumMoments(items(one.mu, one.sigma));
    expect(mean / one.mean).toBeCloseTo(1, 9);
    expect(variance / one.variance).toBeCloseTo(1, 9);
    expect(location / one.location).toBeCloseTo(1, 9);
    expect(scale / one.scale).toBeCloseTo(1, 9);
  });

  it.each(SUMS)(
    '$name: quantiles by simulation',
    ({ mu, sigma, quantiles }) => {
      const { p10, p50, p80, p90 } = sumOfItems(items(mu, sigma), { seed: 1, draws: 400_000 });
      for (const [k, value] of [p10, p50, p80, p90].entries()) {
        expect(Math.abs(value / quantiles[k]! - 1)).toBeLessThan(0.006);
      }
    },
    60_000,
  );

  // Two terms of s.d. 1.1 are what three moments do not describe: that is the simulation's.
  it.each(SUMS.filter(({ name }) => name !== 'two wide terms'))(
    '$name: quantiles without simulation',
    ({ mu, sigma, quantiles }) => {
      const { p10, p50, p80, p90 } = quickSumOfItems(items(mu, sigma));
      for (const [k, value] of [p10, p50, p80, p90].entries()) {
        expect(Math.abs(value / quantiles[k]! - 1)).toBeLessThan(0.002);
      }
    },
  );
});
