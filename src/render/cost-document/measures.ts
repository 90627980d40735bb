/** Names of the measures of an investment, one for document, terminal and workbook. */
export const MEASURES = {
  npv: 'net present value',
  irr: 'internal rate of return',
  mirr: 'modified rate of return',
  payback: 'payback',
  discountedPayback: 'discounted payback',
  benefitCost: 'benefit-cost ratio',
  annualEquivalent: 'equivalent annual value',
} as const;
