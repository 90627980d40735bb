/** Numbers and money in the form of a language and country, for documents. */

export interface LocaleNumbers {
  readonly locale: string;
  /** Name of the money as given; empty where it has none. */
  readonly currency: string;
  number(value: number, digits?: number): string;
  /** As many digits as the value has, at most 9: for values that were typed. */
  typed(value: number | string): string;
  /** Money without its currency, for columns that name it. */
  amount(value: number): string;
  /** Money with its currency. */
  money(value: number): string;
  /** @param percent 0 to 100 */
  percent(percent: number, digits?: number): string;
}

interface Form {
  readonly write: (value: number) => string;
  /** How it writes 0. */
  readonly zero: string;
}

/** From here on money is shown in whole units. */
const WHOLE_FROM = 100;

/**
 * @param locale a language tag that `isKnownLocale` accepts
 * @param currency three letters such as `EUR` are written the way of the locale; any other name follows the number
 * @example localeNumbers('de-DE', 'EUR').money(12345.6) // '12.346 €'
 */
export function localeNumbers(locale: string, currency: string): LocaleNumbers {
  // A form is costly to make and serves for hundreds of figures.
  const forms = new Map<string, Form>();
  const formOf = (options: Intl.NumberFormatOptions): Form => {
    const key = JSON.stringify(options);
    const known = forms.get(key);
    if (known !== undefined) return known;
    const { format: write } = new Intl.NumberFormat(locale, options);
    const form = { write, zero: write(0) };
    forms.set(key, form);
    return form;
  };
  const format = (value: number, options: Intl.NumberFormatOptions): string => {
    const { write, zero } = formOf(options);
    const text = write(value);
    // What rounds to zero carries no sign.
    return value <= 0 && write(Math.abs(value)) === zero ? zero : text;
  };
  const fixed = (digits: number) => ({ minimumFractionDigits: digits, maximumFractionDigits: digits });
  const number = (value: number, digits = 0) => format(value, fixed(digits));
  const moneyDigits = (value: number) => (Math.abs(value) < WHOLE_FROM && !Number.isInteger(value) ? 2 : 0);
  const amount = (value: number) => number(value, moneyDigits(value));
  return {
    locale,
    currency,
    number,
    typed: (value) => (typeof value === 'string' ? value : format(value, { maximumSignificantDigits: 9 })),
    amount,
    money: (value) => {
      if (currency === '') return amount(value);
      if (!/^[A-Z]{3}$/.test(currency)) return `${amount(value)}\u00A0${currency}`;
      return format(value, { style: 'currency', currency, ...fixed(moneyDigits(value)) });
    },
    percent: (percent, digits = 1) => format(percent / 100, { style: 'percent', ...fixed(digits) }),
  };
}

/** The form of the terminal, where a sign of money may not be at hand. @example plainNumbers('EUR').money(1234) // '1,234 EUR' */
export function plainNumbers(currency: string): LocaleNumbers {
  const numbers = localeNumbers('en', '');
  return {
    ...numbers,
    currency,
    money: (value) => (currency === '' ? numbers.amount(value) : `${numbers.amount(value)} ${currency}`),
  };
}

/** True for a well-formed language tag whose number format is known here. */
export function isKnownLocale(locale: string): boolean {
  try {
    return Intl.NumberFormat.supportedLocalesOf(locale).length === 1;
  } catch {
    return false;
  }
}
