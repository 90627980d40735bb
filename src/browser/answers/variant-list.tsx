/** Pinned states of the cell: what each differs in, back to one of them, and all side by side below. */
import { changeLines } from '../../render/comparison.js';
import { tableChanges } from '../../tables/overrides/table-changes.js';
import type { Variant } from '../state/desk.js';
import { act, desk } from '../state/store.js';

export function VariantList() {
  const { variants } = desk.value;
  return (
    <div class="variants">
      <form class="buttons" onSubmit={pin}>
        <label>
          Pin this state as <input name="name" key={variants.length} defaultValue={freeName(variants)} />
        </label>
        <button type="submit">Pin</button>
      </form>
      {variants.length === 0 && (
        <p class="note">
          Pin a state, change the cell, and see both side by side with the same random numbers.
        </p>
      )}
      {variants.map((variant) => (
        <VariantEntry key={variant.name} variant={variant} />
      ))}
    </div>
  );
}

function VariantEntry({ variant }: { readonly variant: Variant }) {
  const { name, tables } = variant;
  const changes = tableChanges(tables, desk.value.tables);
  return (
    <section class="variant" aria-label={`Pinned state ${name}`}>
      <h3>{name}</h3>
      <p>From {name} to now:</p>
      <ul>
        {changeLines({ a: name, b: 'now', changes }).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <p class="buttons">
        <button
          type="button"
          onClick={() => act((now) => ({ ...now, tables }), `The cell is as ${name} again.`)}
        >
          Go back to {name}
        </button>
        <button type="button" class="plain" onClick={() => act(withoutVariant(name), `${name} is removed.`)}>
          Remove {name}
        </button>
      </p>
    </section>
  );
}

function freeName(variants: readonly Variant[]): string {
  const names = ['before', ...Array.from({ length: variants.length + 1 }, (_, k) => `variant ${k + 1}`)];
  return names.find((name) => !variants.some((variant) => variant.name === name))!;
}

function pin(event: SubmitEvent): void {
  event.preventDefault();
  const given = String(new FormData(event.currentTarget as HTMLFormElement).get('name') ?? '').trim();
  act(({ variants, ...now }) => {
    const name = given === '' || given === 'now' ? freeName(variants) : given;
    const others = variants.filter((variant) => variant.name !== name);
    return { ...now, variants: [...others, { name, tables: now.tables }] };
  }, 'This state is pinned.');
}

const withoutVariant =
  (name: string) =>
  (now: typeof desk.value): typeof desk.value => ({
    ...now,
    variants: now.variants.filter((variant) => variant.name !== name),
  });
