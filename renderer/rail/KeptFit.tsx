import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import { solverVersion } from '../../src/fitting/problemHash.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { problemChanges } from '../fitting/problemChanges.ts';
import type { ReadyRunFit } from '../fitting/useRunFits.ts';

/** How the kept fit stands to the run: current, of an earlier state, or one that a newer solver would fit otherwise. */
export const KeptFit = (props: {
  readonly fit: ReadyRunFit;
  readonly unit: DisplayUnit;
  readonly onRelease: () => void;
  readonly onTry: (alternative: FitAlternative | null) => void;
}) => {
  const { kept, canonical } = props.fit;
  if (!kept) return null;
  const show = {
    onPointerEnter: () => props.onTry(kept.alternative),
    onPointerLeave: () => props.onTry(null),
    onFocus: () => props.onTry(kept.alternative),
    onBlur: () => props.onTry(null),
  };
  const release = (
    <button type="button" className="word-button" onClick={props.onRelease}>
      Release it
    </button>
  );
  if (!kept.isCurrent)
    return (
      <div className="offer">
        <p className="alert">
          The kept fit is of an earlier state. Changed since:{' '}
          {problemChanges(kept.problemKey, canonical, props.unit).join('; ')}. What is shown is the run as it
          is now.
        </p>
        <p className="acts">
          <button type="button" className="word-button" {...show}>
            Look at the kept one
          </button>
          {release}
        </p>
      </div>
    );
  if (!kept.isOutdone) return null;
  return (
    <div className="offer">
      <p className="alert">
        Kept from version {kept.solverVersion} of the solver. Version {solverVersion} fits this run otherwise;
        the kept fit stays until you keep another.
      </p>
    </div>
  );
};
