// The tables and the plot of the scheduler's benchmark.

export function seconds(value) {
  if (value === null || Number.isNaN(value)) return '';
  return value >= 10 ? value.toFixed(1) : value >= 0.1 ? value.toFixed(2) : value.toFixed(4);
}

export function ratioText(own, other) {
  if (other === null || Number.isNaN(other.cpuS)) return '';
  const ratio = other.cpuS / own.cpuS;
  const text = ratio >= 10 ? ratio.toFixed(0) : ratio.toFixed(1);
  return other.done ? text : `over ${text}`;
}

export function table(head, rows) {
  const line = (cells) => `| ${cells.join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}

export function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = (sorted.length - 1) / 2;
  return (sorted[Math.floor(middle)] + sorted[Math.ceil(middle)]) / 2;
}

const WIDTH = 760;
const HEIGHT = 440;
const LEFT = 70;
const RIGHT = 220;
const TOP = 30;
const BOTTOM = 50;
const COLOURS = ['#1b6ca8', '#2a9d5c', '#b3541e', '#7a4ea3', '#808080', '#b0b0b0', '#c2185b', '#404040'];

/**
 * CPU seconds (logarithmic) against the number of machines.
 *
 * @param series [{ name, points: [{ machines, cpuS, open }] }]; open points are runs ended by their limit
 */
export function plot(series) {
  const points = series.flatMap((s) => s.points);
  const machines = points.map((p) => p.machines);
  const [low, high] = [Math.min(...machines), Math.max(...machines)];
  const decades = points.map((p) => Math.log10(Math.max(p.cpuS, 1e-4)));
  const [bottom, top] = [Math.floor(Math.min(...decades)), Math.ceil(Math.max(...decades))];
  const x = (m) => LEFT + ((m - low) / Math.max(1, high - low)) * (WIDTH - LEFT - RIGHT);
  const y = (s) =>
    HEIGHT -
    BOTTOM -
    ((Math.log10(Math.max(s, 1e-4)) - bottom) / Math.max(1, top - bottom)) * (HEIGHT - TOP - BOTTOM);
  const grid = [];
  for (let d = bottom; d <= top; d++) {
    const at = y(10 ** d).toFixed(1);
    grid.push(`<line x1="${LEFT}" y1="${at}" x2="${WIDTH - RIGHT}" y2="${at}" stroke="#ddd"/>`);
    grid.push(`<text x="${LEFT - 8}" y="${Number(at) + 4}" text-anchor="end">${Number(`1e${d}`)} s</text>`);
  }
  for (const m of [...new Set(machines)].sort((a, b) => a - b))
    grid.push(`<text x="${x(m).toFixed(1)}" y="${HEIGHT - BOTTOM + 18}" text-anchor="middle">${m}</text>`);
  const lines = series.map((s, i) => {
    const colour = COLOURS[i % COLOURS.length];
    const sorted = [...s.points].sort((a, b) => a.machines - b.machines);
    const path = sorted.map((p) => `${x(p.machines).toFixed(1)},${y(p.cpuS).toFixed(1)}`).join(' ');
    const dots = sorted.map(
      (p) =>
        `<circle cx="${x(p.machines).toFixed(1)}" cy="${y(p.cpuS).toFixed(1)}" r="3.5" stroke="${colour}" fill="${p.open ? 'white' : colour}"/>`,
    );
    const at = TOP + 10 + 20 * i;
    return [
      `<polyline points="${path}" fill="none" stroke="${colour}" stroke-width="1.5"/>`,
      ...dots,
      `<line x1="${WIDTH - RIGHT + 15}" y1="${at}" x2="${WIDTH - RIGHT + 35}" y2="${at}" stroke="${colour}" stroke-width="2"/>`,
      `<text x="${WIDTH - RIGHT + 40}" y="${at + 4}">${s.name}</text>`,
    ].join('\n');
  });
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" font-family="sans-serif" font-size="12">`,
    '<title>CPU time to the proof against the number of machines</title>',
    `<rect width="${WIDTH}" height="${HEIGHT}" fill="white"/>`,
    ...grid,
    `<text x="${(LEFT + WIDTH - RIGHT) / 2}" y="${HEIGHT - 10}" text-anchor="middle">machines</text>`,
    `<text x="${LEFT - 60}" y="${TOP - 12}">CPU time, median (open: ended by its limit)</text>`,
    ...lines,
    '</svg>',
    '',
  ].join('\n');
}
