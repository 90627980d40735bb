/** Which of a command's assumptions move its figures most: shown with every short answer, the others with `--assumptions`. */

/** Made on the command line or by the folder: always shown. */
const OF_THE_RUN = /as the command line says/;

export const KEY_ASSUMPTIONS: Readonly<Record<string, readonly RegExp[]>> = {
  schedule: [/^The sequence is chosen for/, /^Constant times\./],
  shifts: [/^Constant times\./],
  size: [/^Parts per shift and labour come/],
  compare: [/^Simulated: /],
  mix: [/^Upper limit: interference/],
  jobs: [/^"Proven optimal" covers/],
  costcase: [/every part made counts as sold/],
};

export function keyAssumptions(command: string, assumptions: readonly string[]): string[] {
  const keys = KEY_ASSUMPTIONS[command] ?? [];
  return assumptions.filter((text) => OF_THE_RUN.test(text) || keys.some((key) => key.test(text)));
}
