/** Minutes of a week, which moments of the week run up to. */
export const WEEK_MIN = 7 * 24 * 60;
