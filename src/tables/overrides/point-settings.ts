/**
 * The changes that make one point of a sweep. A cost item that is swept loses its low and high: they are the doubt about
 * the one value of the table, and most values of a sweep lie outside them.
 */

const COST_VALUE = /^costs\.(.+)\.value$/;

/**
 * @param paths the inputs of the sweep
 * @param values one value an input
 * @param settings changes that hold at every point; a low or high given there stays
 */
export function pointSettings(
  paths: readonly string[],
  values: readonly string[],
  settings: readonly string[],
): string[] {
  const given = (path: string): boolean =>
    paths.includes(path) || settings.some((text) => text.split('=')[0]!.trim() === path);
  const blanks = sweptCosts(paths)
    .flatMap((item) => [`costs.${item}.low`, `costs.${item}.high`])
    .filter((path) => !given(path));
  return [
    ...settings,
    ...paths.map((path, i) => `${path}=${values[i]}`),
    ...blanks.map((path) => `${path}=`),
  ];
}

/** The cost items whose value a sweep sets. */
export function sweptCosts(paths: readonly string[]): string[] {
  return paths.flatMap((path) => COST_VALUE.exec(path)?.[1] ?? []);
}
