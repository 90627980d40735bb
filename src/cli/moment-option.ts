/** Options that take a moment: a date and time with its zone. */
import { InvalidArgumentError, Option } from 'commander';
import type { Moment } from '../core/log/log-clock.js';
import { LogTimeReader } from '../tables/log/read-log-time.js';

/** @param flags such as `--start <moment>` */
export function momentOption(flags: string, meaning: string): Option {
  return new Option(flags, meaning).argParser((text: string): Moment => {
    const times = new LogTimeReader();
    if (times.read(text, 0, text.length) && times.form === 'zoned') {
      const epochMs = Math.round(1000 * (times.day * 86_400 + times.seconds - times.offsetMin * 60));
      return { epochMs, offsetMin: times.offsetMin };
    }
    throw new InvalidArgumentError(
      `found \`${text}\`, expected a date and time with its zone, such as \`2026-10-19T00:00:00+02:00\``,
    );
  });
}
