/** One cell of a table: a field or a drop-down, with what the reader of the tables has to say of it. */
import type { Complaint } from '../../core/model/complaint.js';
import type { GridColumn } from './grid.js';
import { isBlock } from './paste.js';

interface CellFieldProps {
  readonly id: string;
  readonly label: string;
  readonly column: GridColumn;
  readonly value: string;
  readonly complaints: readonly Complaint[];
  readonly onValue: (value: string) => void;
  readonly onBlock: (text: string) => void;
}

export function CellField(props: CellFieldProps) {
  const { id, complaints } = props;
  const hasError = complaints.some(({ severity }) => severity === 'error');
  const look = hasError ? 'wrong' : complaints.length > 0 ? 'doubtful' : '';
  const said = complaints.length === 0 ? {} : { 'aria-describedby': `${id}-said` };
  const common = { id, class: look, 'aria-label': props.label, 'aria-invalid': hasError, ...said };
  return (
    <>
      {props.column.choices === null ? (
        <TextCell {...props} common={common} />
      ) : (
        <ChoiceCell {...props} common={common} />
      )}
      {complaints.length > 0 && <ComplaintNote id={`${id}-said`} complaints={complaints} />}
    </>
  );
}

interface FieldProps extends CellFieldProps {
  readonly common: Record<string, string | boolean>;
}

function TextCell({ common, column, value, onValue, onBlock }: FieldProps) {
  const keep = (field: HTMLInputElement): void => {
    if (field.value !== value) onValue(field.value);
  };
  return (
    <input
      {...common}
      type="text"
      value={value}
      placeholder={placeholderOf(column)}
      autocomplete="off"
      spellcheck={false}
      size={Math.max(6, Math.min(24, value.length + 1, 24))}
      {...(column.offers.length === 0 ? {} : { list: `offers-${column.name}` })}
      onChange={(event) => keep(event.currentTarget)}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.currentTarget.value = value;
      }}
      onPaste={(event) => {
        const text = event.clipboardData?.getData('text/plain') ?? '';
        if (!isBlock(text)) return;
        event.preventDefault();
        onBlock(text);
      }}
    />
  );
}

/** Longer ones would be cut; the head of the column says them. */
const LONGEST_PLACEHOLDER = 10;

function placeholderOf({ format }: GridColumn): string {
  const text = format.default ?? '';
  return text.length > LONGEST_PLACEHOLDER ? 'default' : text;
}

function ChoiceCell({ common, column, value, onValue }: FieldProps) {
  const words = column.choices!;
  const strange = value !== '' && !words.includes(value);
  return (
    <select {...common} value={value} onChange={(event) => onValue(event.currentTarget.value)}>
      <option value="">{column.format.default === null ? '' : `(${column.format.default})`}</option>
      {strange && <option value={value}>{value}</option>}
      {words.map((word) => (
        <option key={word} value={word}>
          {word}
        </option>
      ))}
    </select>
  );
}

/** Code, what was found and what is allowed, then how to fix it: as the command line prints it. */
export function ComplaintNote({
  id,
  complaints,
}: {
  readonly id?: string;
  readonly complaints: readonly Complaint[];
}) {
  return (
    <div class="said" id={id}>
      {complaints.map(({ code, severity, text, help }) => (
        <p key={`${code} ${text}`} class={severity}>
          {severity === 'error' ? 'Error' : 'Warning'}: {text}.{help === null ? '' : ` ${help}`}
        </p>
      ))}
    </div>
  );
}
