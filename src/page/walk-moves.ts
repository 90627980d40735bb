/**
 * The script of the report's page: shows in words the move that is pointed at or has the focus, and lets the arrow keys
 * step from move to move. The page says the same without it, in the titles of the marks and in the table beneath.
 *
 * It is put into the page as it is compiled, so it must stand alone.
 */

/** Marks of one drawing in the order in which they are drawn: row by row, each in order of time. */
function movesOf(drawing: Element): SVGGElement[] {
  return [...drawing.querySelectorAll<SVGGElement>('.move')];
}

function rowOf(move: Element): number {
  return Number(move.getAttribute('data-row'));
}

function wordsOf(move: Element): string {
  return move.getAttribute('aria-label') ?? '';
}

/** The next or the last move of the same row, in time. */
function alongRow(moves: readonly SVGGElement[], from: SVGGElement, by: 1 | -1): SVGGElement | undefined {
  const row = moves.filter((move) => rowOf(move) === rowOf(from));
  return row[row.indexOf(from) + by];
}

/** The move of the row above or below that stands nearest. */
function acrossRows(moves: readonly SVGGElement[], from: SVGGElement, by: 1 | -1): SVGGElement | undefined {
  const here = from.getBoundingClientRect();
  const distance = (move: SVGGElement): number => {
    const there = move.getBoundingClientRect();
    const across = Math.max(0, there.left - here.right, here.left - there.right);
    return across + 4 * Math.abs(there.top - here.top);
  };
  return moves
    .filter((move) => rowOf(move) === rowOf(from) + by)
    .reduce<SVGGElement | undefined>(
      (nearest, move) => (nearest === undefined || distance(move) < distance(nearest) ? move : nearest),
      undefined,
    );
}

function target(key: string, moves: readonly SVGGElement[], from: SVGGElement): SVGGElement | undefined {
  const row = moves.filter((move) => rowOf(move) === rowOf(from));
  switch (key) {
    case 'ArrowRight':
      return alongRow(moves, from, 1);
    case 'ArrowLeft':
      return alongRow(moves, from, -1);
    case 'ArrowDown':
      return acrossRows(moves, from, 1);
    case 'ArrowUp':
      return acrossRows(moves, from, -1);
    case 'Home':
      return row[0];
    case 'End':
      return row[row.length - 1];
    default:
      return undefined;
  }
}

function prepare(figure: Element, readout: Element): void {
  const rest = 'Point at a bar, or go to the chart with the Tab key and step with the arrow keys.';
  const show = (words: string): void => {
    if (readout.textContent !== words) readout.textContent = words;
  };
  const focused = (): string => {
    const move = document.activeElement?.closest('.move');
    return move && figure.contains(move) ? wordsOf(move) : rest;
  };
  show(rest);
  for (const drawing of figure.querySelectorAll('svg')) {
    const moves = movesOf(drawing);
    // One stop of the Tab key for the whole drawing: the move last visited.
    const stopAt = (stop: SVGGElement | undefined): void => {
      for (const move of moves) move.setAttribute('tabindex', move === stop ? '0' : '-1');
    };
    stopAt(moves.find((move) => move.getAttribute('tabindex') === '0'));
    for (const move of moves) {
      move.addEventListener('pointerenter', () => show(wordsOf(move)));
      move.addEventListener('pointerleave', () => show(focused()));
      move.addEventListener('focus', () => show(wordsOf(move)));
      move.addEventListener('blur', () => show(rest));
      move.addEventListener('keydown', (event) => {
        const next = target(event.key, moves, move);
        if (next === undefined) return;
        event.preventDefault();
        stopAt(next);
        next.focus();
      });
    }
  }
}

for (const readout of document.querySelectorAll('.readout')) {
  const figure = readout.closest('figure');
  if (figure) prepare(figure, readout);
}

export {};
