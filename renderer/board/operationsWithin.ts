import { alwaysDrawn, type OperationCodes, type OperationList } from './alwaysDrawn.ts';
import type { DrawnArea } from './detailArea.ts';

/** What pdf.js recorded: for each operation, the part of the recording canvas that it touched, from 0 to 1 a side. */
export interface RecordedBoxes {
  readonly isEmpty: (index: number) => boolean;
  readonly minX: (index: number) => number;
  readonly minY: (index: number) => number;
  readonly maxX: (index: number) => number;
  readonly maxY: (index: number) => number;
}

/** pdf.js keeps recorded boxes to 1/256 of the canvas; strokes may reach a little beyond their path. */
const RECORDING_STEP = 1 / 256;

/** Beyond this part of the sheet, asking about each operation costs more than drawing the few that lie outside. */
const WORTH_FILTERING = 0.85;

/**
 * A test for pdf.js (`operationsFilter`) that keeps only the operations touching `area`. Null where nothing was
 * recorded or nearly all would be kept.
 *
 * @param recordedArea the area of the canvas on which the operations were recorded: the whole sheet.
 * @param codes pdf.js's `OPS`.
 */
export function operationsWithin(
  recorded: RecordedBoxes | null | undefined,
  area: DrawnArea,
  recordedArea: DrawnArea,
  codes: OperationCodes,
): ((index: number, list: OperationList) => boolean) | null {
  if (!recorded) return null;
  const toRecorded = recordedArea.pxPerPoint / area.pxPerPoint;
  const left = (area.left * toRecorded) / recordedArea.width - RECORDING_STEP;
  const right = ((area.left + area.width) * toRecorded) / recordedArea.width + RECORDING_STEP;
  const top = (area.top * toRecorded) / recordedArea.height - RECORDING_STEP;
  const bottom = ((area.top + area.height) * toRecorded) / recordedArea.height + RECORDING_STEP;
  const part = (Math.min(1, right) - Math.max(0, left)) * (Math.min(1, bottom) - Math.max(0, top));
  if (part > WORTH_FILTERING) return null;
  let isAlwaysDrawn: ((index: number) => boolean) | null = null;
  return (index, list) => {
    isAlwaysDrawn ??= alwaysDrawn(list, codes);
    if (isAlwaysDrawn(index)) return true;
    return (
      !recorded.isEmpty(index) &&
      recorded.minX(index) <= right &&
      recorded.maxX(index) >= left &&
      recorded.minY(index) <= bottom &&
      recorded.maxY(index) >= top
    );
  };
}
