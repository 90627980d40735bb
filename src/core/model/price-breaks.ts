/** Price breaks as costs.csv holds them. */

/** Price of one box from a number of boxes on. */
export interface PriceBreak {
  readonly from: number;
  readonly each: number;
}

/** Reads `1:900;4:820`; the reader of the tables has checked its form. */
export function priceBreaksOf(text: string | null): PriceBreak[] {
  if (text === null || text.trim() === '') return [];
  return text.split(';').map((part) => {
    const [from = '', each = ''] = part.split(':');
    const step = { from: Number(from), each: Number(each) };
    if (!(Number.isInteger(step.from) && step.from >= 1 && Number.isFinite(step.each) && step.each >= 0))
      throw new RangeError(`box_price_breaks holds \`${part}\`: expected boxes:price such as 4:820`);
    return step;
  });
}
