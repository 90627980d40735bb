/**
 * Reads the times of a log: seconds, or ISO 8601 dates with a time of day. Written for a million lines: it reads the
 * characters where they stand, and leaves its findings in fields.
 */
import type { ClockForm } from '../../core/log/log-clock.js';

const ZERO = 48;
const NINE = 57;
const DAY_S = 86_400;
const MOST_SECONDS = 1e12;
const MOST_DIGITS = 9;

export class LogTimeReader {
  /** Of the time read last: how it is written. */
  form: ClockForm = 'seconds';
  /** Whole days since 1970-01-01 of a date; 0 for seconds. */
  day = 0;
  /** Seconds of that day by the written clock, or the seconds themselves. */
  seconds = 0;
  /** Minutes east of UTC; 0 where none are written. */
  offsetMin = 0;
  /** Digits after the point. */
  digits = 0;
  private text = '';
  private at = 0;
  private end = 0;
  private lastDate = -1;
  private lastDay = 0;

  /**
   * Reads the characters from start to end; spaces around them are not part of them.
   *
   * @returns false where they are no time
   */
  read(text: string, start: number, end: number): boolean {
    this.text = text;
    this.at = start;
    this.end = end;
    return text.charCodeAt(start + 4) === 45 && end - start >= 16 ? this.readDate() : this.readSeconds();
  }

  private readSeconds(): boolean {
    this.form = 'seconds';
    this.day = this.offsetMin = 0;
    const from = this.at;
    const whole = this.readDigits();
    const value = whole + this.readFraction();
    if (whole < 0 || this.at !== this.end) return this.readOtherNumber(from);
    this.seconds = value;
    return value <= MOST_SECONDS;
  }

  /** Numbers in another spelling, such as `-1.5e3`. */
  private readOtherNumber(from: number): boolean {
    const text = this.text.slice(from, this.end).replace(',', '.');
    if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text)) return false;
    this.seconds = Number(text);
    this.digits = Math.min(MOST_DIGITS, (/\.(\d+)/.exec(text)?.[1] ?? '').length);
    return Math.abs(this.seconds) <= MOST_SECONDS;
  }

  /** Digits from here on as a number; -1 where there is none. */
  private readDigits(): number {
    let value = 0;
    const first = this.at;
    for (; this.at < this.end; this.at++) {
      const code = this.text.charCodeAt(this.at);
      if (code < ZERO || code > NINE) break;
      value = value * 10 + (code - ZERO);
    }
    return this.at === first ? -1 : value;
  }

  /** A point (or a comma) and digits; 0 where there is none. */
  private readFraction(): number {
    this.digits = 0;
    const sign = this.at < this.end ? this.text.charCodeAt(this.at) : 0;
    if (sign !== 46 && sign !== 44) return 0;
    this.at++;
    const first = this.at;
    const value = this.readDigits();
    const count = this.at - first;
    this.digits = Math.min(MOST_DIGITS, count);
    return value < 0 ? 0 : value / 10 ** count;
  }

  private readDate(): boolean {
    const year = this.two() * 100 + this.two();
    this.at++;
    const month = this.two();
    if (!this.sign(45)) return false;
    const date = this.two();
    const between = this.text.charCodeAt(this.at++);
    if (between !== 84 && between !== 116 && between !== 32) return false;
    const hour = this.two();
    if (!this.sign(58)) return false;
    const minute = this.two();
    let second = 0;
    this.digits = 0;
    if (this.at < this.end && this.text.charCodeAt(this.at) === 58) {
      this.at++;
      second = this.two();
      if (!(second <= 59)) return false;
      second += this.readFraction();
    }
    if (!(hour <= 23 && minute <= 59) || !this.setDay(year, month, date)) return false;
    this.seconds = hour * 3600 + minute * 60 + second;
    return this.readZone();
  }

  /** Two digits as a number; NaN where there are none. */
  private two(): number {
    const tens = this.text.charCodeAt(this.at++) - ZERO;
    const ones = this.text.charCodeAt(this.at++) - ZERO;
    return tens >= 0 && tens <= 9 && ones >= 0 && ones <= 9 && this.at <= this.end
      ? tens * 10 + ones
      : Number.NaN;
  }

  private sign(code: number): boolean {
    return this.text.charCodeAt(this.at++) === code;
  }

  private setDay(year: number, month: number, date: number): boolean {
    const key = (year * 16 + month) * 32 + date;
    if (key !== this.lastDate) {
      const ms = Date.UTC(year, month - 1, date);
      if (!(new Date(ms).getUTCMonth() === month - 1 && year >= 1970)) return false;
      this.lastDate = key;
      this.lastDay = ms / 1000 / DAY_S;
    }
    this.day = this.lastDay;
    return true;
  }

  private readZone(): boolean {
    this.form = this.at === this.end ? 'local' : 'zoned';
    this.offsetMin = 0;
    if (this.at === this.end) return true;
    const sign = this.text.charCodeAt(this.at++);
    if (sign === 90 || sign === 122) return this.at === this.end;
    if (sign !== 43 && sign !== 45) return false;
    const hours = this.two();
    if (this.at < this.end && this.text.charCodeAt(this.at) === 58) this.at++;
    const minutes = this.at < this.end ? this.two() : 0;
    if (!(hours <= 15 && minutes <= 59)) return false;
    this.offsetMin = (sign === 45 ? -1 : 1) * (hours * 60 + minutes);
    return this.at === this.end;
  }
}
