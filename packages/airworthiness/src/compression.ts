/** One cylinder's reading in a differential-compression check, against the pressure put in. */
export interface CompressionReading {
  /** Pressure of the supply, psi. */
  readonly supply: number;
  /** What the cylinder held, psi, 0 to the supply. */
  readonly held: number;
}

export interface CompressionAnswer {
  /** Share of the supply that was lost, 0 to 1. */
  readonly loss: number;
  /** A loss in excess of a quarter of the supply: cause to suspect the cylinder. */
  readonly inExcess: boolean;
}

/**
 * Whether a cylinder lost too much in a differential-compression check.
 *
 * Formula: loss = (supply − held) / supply; in excess when above 25 %. Source: AC 43.13-1B, paragraph
 * 8-14: 60 of 80 psi is not in excess, 59 is. The engine maker's own limit and master orifice govern
 * where there is one: this is where there is none.
 *
 * @throws RangeError unless the supply is above 0 and what was held lies between 0 and it.
 * @example compressionLoss({ supply: 80, held: 60 }) // → { loss: 0.25, inExcess: false }
 */
export function compressionLoss({ supply, held }: CompressionReading): CompressionAnswer {
  if (!Number.isFinite(supply) || supply <= 0)
    throw new RangeError(`Cannot use a supply of ${supply} psi: give a pressure above 0`);
  if (!Number.isFinite(held) || held < 0 || held > supply)
    throw new RangeError(
      `Cannot use a reading of ${held} psi: a cylinder holds from 0 to the ${supply} psi that were put in`,
    );
  return { loss: (supply - held) / supply, inExcess: (supply - held) * 4 > supply };
}
