import type { RunLevels } from '../../src/document/projectDocument.ts';
import { topOf } from '../../src/measure/floorLevels.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';

const widthPx = 264;
const heightPx = 104;
/** The datum lies here; the floor may go below it. */
const datumPx = 82;
const pxPerMm = 58 / 1200;
/** A fall of a few millimetres would not show at the scale of the heights. */
const fallShownTimes = 8;

/** What the levels mean, as a small drawing from the working side: top, shelves, floor and the floor behind. */
export const LevelsDrawing = (props: { readonly levels: RunLevels; readonly range: StockRange }) => {
  const { levels, range } = props;
  const within = (px: number) => Math.min(heightPx - 4, Math.max(6, px));
  const up = (mm: number) => within(datumPx - mm * pxPerMm);
  const floor = (mm: number) => within(datumPx - mm * pxPerMm * fallShownTimes);
  const [left, right] = [34, widthPx - 6];
  const top = up(topOf(levels, range.heights));
  const start = floor(levels.floorAtStartMm);
  const finish = floor(levels.floorAtEndMm);
  return (
    <svg
      className="levels-drawing"
      viewBox={`0 0 ${widthPx} ${heightPx}`}
      role="img"
      aria-label={`Top and shelves level; the floor falls from start to finish, drawn ${fallShownTimes} times too steep; dashed, the datum and the floor behind`}
    >
      <line className="datum" x1={0} x2={widthPx} y1={datumPx} y2={datumPx} />
      <text x={0} y={datumPx - 3}>
        ±0
      </text>
      <polygon
        className="body"
        points={`${left},${top} ${right},${top} ${right},${finish - 7} ${left},${start - 7}`}
      />
      <line className="heavy" x1={left} x2={right} y1={top} y2={top} />
      <text x={2} y={top + 3}>
        top
      </text>
      {levels.shelfHeightsMm.map((mm) => (
        <g key={mm}>
          <line className="heavy" x1={left + 8} x2={right} y1={up(mm)} y2={up(mm)} />
          <text x={2} y={up(mm) + 3}>
            shelf
          </text>
        </g>
      ))}
      <line className="heavy" x1={left} x2={right} y1={start} y2={finish} />
      <text x={left + 2} y={Math.min(heightPx - 2, start + 11)}>
        floor
      </text>
      {levels.raisedFloorBehindMm !== 0 && (
        <>
          <line
            className="behind"
            x1={left}
            x2={right}
            y1={up(levels.raisedFloorBehindMm)}
            y2={up(levels.raisedFloorBehindMm)}
          />
          <text x={left + 6} y={up(levels.raisedFloorBehindMm) - 3}>
            floor behind
          </text>
        </>
      )}
    </svg>
  );
};
