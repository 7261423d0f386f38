import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { CellInput } from './CellInput.tsx';

/** One piece of every part of a list: what it is called, and how it is typed. */
export interface PartColumn {
  readonly words: string;
  /** A `name` may hold colons; a `text` may not, because they part the pieces. Neither may hold a bar. */
  readonly kind: 'text' | 'name' | 'number' | 'length' | 'choice';
  readonly choices?: readonly string[];
  readonly placeholder?: string;
}

/** `cold-water` as words: `cold water`. */
const choiceWords = (choice: string): string => choice.replaceAll('-', ' ');

const withoutMarks = (kind: PartColumn['kind'], typed: string): string =>
  kind === 'text' ? typed.replace(/[:|]/g, ' ') : kind === 'name' ? typed.replaceAll('|', ' ') : typed;

/** A list that stands in one cell, each part on a line of its own. */
export const PartsField = (props: {
  readonly title: string;
  /** What one part is called: `service`. */
  readonly one: string;
  readonly columns: readonly PartColumn[];
  readonly parts: readonly (readonly string[])[];
  readonly fresh: readonly string[];
  readonly fault: string | undefined;
  readonly unit: DisplayUnit;
  readonly onParts: (parts: readonly (readonly string[])[]) => void;
}) => {
  const { parts, columns, onParts } = props;
  const put = (at: number, piece: number, text: string) =>
    onParts(
      parts.map((pieces, index) =>
        index === at
          ? columns.map((_, column) => (column === piece ? text : (pieces[column] ?? '')))
          : pieces,
      ),
    );
  return (
    <fieldset className="parts">
      <legend>{props.title}</legend>
      {parts.length > 0 && (
        <table>
          <thead>
            <tr>
              {columns.map(({ words, kind }) => (
                <th
                  key={words}
                  scope="col"
                  className={kind === 'number' || kind === 'length' ? 'number' : ''}
                >
                  {words}
                </th>
              ))}
              <td />
            </tr>
          </thead>
          <tbody>
            {parts.map((pieces, at) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: parts of a list have no name but their place
              <tr key={at}>
                {columns.map((column, piece) => {
                  const text = pieces[piece] ?? '';
                  const label = `${column.words} of ${props.one} ${at + 1}`;
                  return (
                    <td key={column.words}>
                      {column.kind === 'choice' ? (
                        <select
                          className="cell"
                          aria-label={label}
                          value={text}
                          onChange={(event) => put(at, piece, event.target.value)}
                        >
                          {!column.choices?.includes(text) && (
                            <option value={text}>{text || 'choose'}</option>
                          )}
                          {column.choices?.map((choice) => (
                            <option key={choice} value={choice}>
                              {choiceWords(choice)}
                            </option>
                          ))}
                        </select>
                      ) : (
                        <CellInput
                          label={label}
                          text={text}
                          unit={column.kind === 'length' ? props.unit : undefined}
                          isNumber={column.kind === 'number' || column.kind === 'length'}
                          placeholder={column.placeholder}
                          onText={(typed) => put(at, piece, withoutMarks(column.kind, typed))}
                        />
                      )}
                    </td>
                  );
                })}
                <td>
                  <button
                    type="button"
                    className="word-button"
                    aria-label={`Remove ${props.one} ${at + 1}`}
                    onClick={() => onParts(parts.filter((_, index) => index !== at))}
                  >
                    Remove
                  </button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {props.fault && <p className="alert">{props.fault}</p>}
      <button type="button" className="word-button" onClick={() => onParts([...parts, props.fresh])}>
        Add {props.one.match(/^[aeiou]/) ? 'an' : 'a'} {props.one}
      </button>
    </fieldset>
  );
};
