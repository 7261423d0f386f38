import type { Run, RunLevels } from '../../src/document/projectDocument.ts';
import { feetOf, workingHeights } from '../../src/measure/floorLevels.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import { LengthField } from './LengthField.tsx';
import { LevelsDrawing } from './LevelsDrawing.tsx';

const asTheRange: RunLevels = {
  topHeightMm: null,
  shelfHeightsMm: [],
  floorAtStartMm: 0,
  floorAtEndMm: 0,
  raisedFloorBehindMm: 0,
};

const isAsTheRange = (levels: RunLevels): boolean => JSON.stringify(levels) === JSON.stringify(asTheRange);

const FeetWords = (props: {
  readonly levels: RunLevels;
  readonly range: StockRange;
  readonly unit: DisplayUnit;
}) => {
  const { levels, range, unit } = props;
  const length = (mm: number) => formatLength(Math.abs(mm), { unit });
  const feet = feetOf(levels, range.heights);
  const working = workingHeights(levels, range.heights);
  const turned = (mm: number) => (Math.abs(mm) < 0.05 ? '0' : `${length(mm)} ${mm > 0 ? 'out' : 'in'}`);
  return (
    <ul className="quiet-lines">
      <li className={feet.shortByMm > 0 ? 'alert' : undefined}>
        Feet turn {turned(feet.atStartMm)} at the start, {turned(feet.atEndMm)} at the finish; they can{' '}
        {length(feet.adjustMm)} each way
        {feet.shortByMm > 0
          ? `: ${length(feet.shortByMm)} too little. With the top at ${length(feet.bestTopMm)} least is missing; else packers, or feet and frames made to suit.`
          : '.'}
      </li>
      {levels.raisedFloorBehindMm !== 0 && (
        <li>
          From the floor behind, the top is {length(working.leastMm)}
          {working.greatestMm - working.leastMm >= 0.5 ? ` to ${length(working.greatestMm)}` : ''} high.
        </li>
      )}
    </ul>
  );
};

/** Heights of a run above the sheet's datum: top, shelves, the floor's fall, a raised floor behind. */
export const RunLevelsFields = (props: {
  readonly run: Run;
  readonly range: StockRange | null;
  readonly unit: DisplayUnit;
  readonly onLevels: (levels: RunLevels | null) => void;
}) => {
  const { range, unit } = props;
  const levels = props.run.levels ?? asTheRange;
  const change = (changes: Partial<RunLevels>) => {
    const next = { ...levels, ...changes };
    props.onLevels(isAsTheRange(next) ? null : next);
  };
  const shelf = (index: number, mm: number | null) => {
    const heights = levels.shelfHeightsMm.filter((_, at) => at !== index);
    change({
      shelfHeightsMm: mm === null ? heights : [...heights, mm].sort((one, other) => other - one),
    });
  };
  const feet = range && props.run.levels ? feetOf(levels, range.heights) : null;
  return (
    <details>
      <summary>
        Levels
        {props.run.levels ? (
          <span className={feet && feet.shortByMm > 0 ? 'alert' : undefined}>
            {feet && feet.shortByMm > 0 ? ': more than the feet can take' : ': set'}
          </span>
        ) : (
          ': as the range has them'
        )}
      </summary>
      <p className="step-lead">
        Heights above the sheet’s datum. They draw the elevation and check the feet; lengths stay as they are.
      </p>
      {range && <LevelsDrawing levels={levels} range={range} />}
      <div className="pair">
        <LengthField
          label="Top"
          lengthMm={levels.topHeightMm}
          unit={unit}
          leastMm={100}
          mostMm={3000}
          emptyWords={range ? formatLength(range.heights.topMm, { unit }) : 'as the range'}
          onChange={(topHeightMm) => change({ topHeightMm })}
        />
        {[...levels.shelfHeightsMm, null].slice(0, 6).map((mm, index) => (
          <LengthField
            key={mm ?? 'one more'}
            label={index === 0 ? 'Serving shelf' : `Shelf ${index + 1}`}
            lengthMm={mm}
            unit={unit}
            leastMm={100}
            mostMm={3000}
            emptyWords={index === 0 && range ? formatLength(range.heights.shelfMm, { unit }) : 'none'}
            onChange={(typed) => shelf(index, typed)}
          />
        ))}
        <LengthField
          label="Floor at the start"
          lengthMm={levels.floorAtStartMm}
          unit={unit}
          leastMm={-2000}
          mostMm={2000}
          onChange={(mm) => mm !== null && change({ floorAtStartMm: mm })}
        />
        <LengthField
          label="Floor at the finish"
          lengthMm={levels.floorAtEndMm}
          unit={unit}
          leastMm={-2000}
          mostMm={2000}
          onChange={(mm) => mm !== null && change({ floorAtEndMm: mm })}
        />
        <LengthField
          label="Floor behind is higher by"
          lengthMm={levels.raisedFloorBehindMm}
          unit={unit}
          leastMm={-2000}
          mostMm={2000}
          onChange={(mm) => mm !== null && change({ raisedFloorBehindMm: mm })}
        />
      </div>
      {range && props.run.levels && <FeetWords levels={levels} range={range} unit={unit} />}
    </details>
  );
};
