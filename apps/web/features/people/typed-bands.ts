/** A band of cost as the shop is asked for it. */
export interface TypedBand {
  costFrom: string;
  percent: string;
}

const line = /^(\d{1,8}(?:\.\d{1,4})?)[\s;:]+(\d{1,4}(?:\.\d{1,4})?)\s*%?$/;

/**
 * Bands as somebody types them, a line each: from which cost, and the per cent put on it.
 *
 * @returns null where a line is not two numbers, or there is none
 * @example typedBands('0 60\n25 40 %') // → [{ costFrom: '0', percent: '60' }, { costFrom: '25', percent: '40' }]
 * @example typedBands('a lot') // → null
 */
export function typedBands(text: string): TypedBand[] | null {
  const lines = text
    .split('\n')
    .map((each) => each.trim().replaceAll(',', '.'))
    .filter((each) => each !== '');
  const bands = lines.flatMap((each) => {
    const [, costFrom, percent] = line.exec(each) ?? [];
    return costFrom === undefined || percent === undefined ? [] : [{ costFrom, percent }];
  });
  return lines.length === 0 || bands.length < lines.length ? null : bands;
}
