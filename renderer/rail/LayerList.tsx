import type { Sheet } from '../../src/document/projectDocument.ts';
import type { ReadAnswer } from '../../src/scale/readContract.ts';

/** The sheet’s layers to switch; drawing, picks and the sheet’s own dimensions follow. */
export const LayerList = (props: {
  readonly sheet: Sheet;
  readonly layers: ReadAnswer['layers'];
  readonly onChange: (layers: Sheet['layers']) => void;
}) => {
  const { sheet, layers } = props;
  const shown = layers.filter(({ visible }) => visible).length;
  const isSwitched = Object.keys(sheet.layers).length > 0;
  return (
    <details className="layer-list">
      <summary>
        Layers: {shown} of {layers.length} shown
      </summary>
      <ul>
        {layers.map(({ id, name, visible }) => (
          <li key={id}>
            <label>
              <input
                type="checkbox"
                checked={visible}
                onChange={(event) => props.onChange({ ...sheet.layers, [id]: event.target.checked })}
              />
              <span title={name}>{name || 'without a name'}</span>
            </label>
          </li>
        ))}
      </ul>
      {isSwitched && (
        <button type="button" className="word-button" onClick={() => props.onChange({})}>
          As the file has them
        </button>
      )}
    </details>
  );
};
