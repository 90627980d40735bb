/** What is drawn: a number of the tables, a figure of the cell, the ends of the slider, and the slider itself. */
import { useState } from 'preact/hooks';
import type { Figure } from '../../core/sweep/result-figure.js';
import { FIRST_FIGURE, figureName } from '../../render/figure-names.js';
import { numberText } from '../../render/numbers.js';
import { figuresOf } from '../engine/offered-figures.js';
import { answerTo } from '../state/answers.js';
import { withCells } from '../state/edit-tables.js';
import { type CellNumber, cellNumbers, endsOf, slide, slidNumber, sweepWanted } from '../state/slide.js';
import { changeTables, inspection } from '../state/store.js';

export function SweepControls() {
  const number = slidNumber.value;
  const { cell } = inspection.value;
  return (
    <div class="slide">
      <p class="buttons">
        <label>
          Number{' '}
          <select
            value={number?.path ?? ''}
            onChange={({ currentTarget: { value } }) => slideNumber(value === '' ? null : value)}
          >
            <option value="">choose a number of the tables</option>
            {cellNumbers.value.map(({ path, value }) => (
              <option key={path} value={path}>
                {path} = {value}
              </option>
            ))}
          </select>
        </label>
        <label>
          Figure{' '}
          <select
            value={slide.value?.figure ?? FIRST_FIGURE}
            disabled={slide.value === null}
            onChange={({ currentTarget: { value } }) => {
              if (slide.value !== null) slide.value = { ...slide.value, figure: value };
            }}
          >
            {(cell === null ? [FIRST_FIGURE] : figuresOf(cell)).map((path) => (
              <option key={path} value={path}>
                {figureName(path)}
              </option>
            ))}
          </select>
        </label>
      </p>
      {number !== null && <Slider key={number.path} number={number} />}
    </div>
  );
}

/** Draws the figure against another number. */
export function slideNumber(path: string | null): void {
  const figure = slide.value?.figure ?? FIRST_FIGURE;
  slide.value = path === null ? null : { path, figure, from: null, to: null };
}

function Slider({ number }: { readonly number: CellNumber }) {
  const { values } = sweepWanted.value!;
  const nearest = values.reduce(
    (best, text, k) =>
      Math.abs(Number(text) - number.value) < Math.abs(Number(values[best]!) - number.value) ? k : best,
    0,
  );
  const [chosen, setChosen] = useState<number | null>(null);
  const at = Math.min(chosen ?? nearest, values.length - 1);
  const value = values[at]!;
  const unit = number.unit === '' ? '' : ` ${number.unit}`;
  const said = `${value}${unit}: ${figureAt(at)}`;
  return (
    <>
      <Ends number={number} onEnds={() => setChosen(null)} />
      <label>
        {number.path}
        <input
          type="range"
          min={0}
          max={values.length - 1}
          step={1}
          value={at}
          aria-valuetext={said}
          onInput={({ currentTarget }) => setChosen(Number(currentTarget.value))}
        />
      </label>
      <p class="buttons">
        <output>{said}</output>
        <button
          type="button"
          disabled={Number(value) === number.value}
          onClick={() => {
            changeTables((now) => withNumber(now, number, value), `${number.path} is ${value}.`);
            setChosen(null);
          }}
        >
          Put {value} into the table
        </button>
      </p>
    </>
  );
}

function Ends({ number, onEnds }: { readonly number: CellNumber; readonly onEnds: () => void }) {
  const ends = endsOf(number.value, slide.value!);
  const set = (end: 'from' | 'to', text: string): void => {
    const given = Number(text.replace(',', '.'));
    if (text.trim() === '' || !Number.isFinite(given) || slide.value === null) return;
    onEnds();
    slide.value = { ...slide.value, from: ends[0], to: ends[1], [end]: given };
  };
  return (
    <p class="buttons">
      {(['from', 'to'] as const).map((end, k) => (
        <label key={end}>
          {end}{' '}
          <input
            inputMode="decimal"
            size={7}
            value={String(ends[k])}
            onChange={({ currentTarget }) => set(end, currentTarget.value)}
          />
        </label>
      ))}
    </p>
  );
}

function withNumber(now: Parameters<typeof withCells>[0], { file, line, column }: CellNumber, value: string) {
  return withCells(now, file, line, { [column]: value });
}

/** The figure at a value, once it is worked out. */
function figureAt(at: number): string {
  const { said } = answerTo('sweep');
  const wanted = sweepWanted.value;
  const rows = said?.result.fields.rows as
    | readonly { readonly values: readonly string[]; readonly figures: readonly Figure[] }[]
    | undefined;
  const row = rows?.[at];
  if (wanted === null || row === undefined || row.values[0] !== wanted.values[at]) return 'working …';
  const [figure] = row.figures;
  const name = figureName(wanted.figure).toLowerCase();
  if (typeof figure !== 'number') return `no ${name}`;
  return `${name} ${numberText(figure, Number.isInteger(figure) ? 0 : 2)}`;
}
