import { type Linework, PATH_FLAG } from './linework.ts';

/** The path that a line or (from `lineCount` on) a curve belongs to. */
export const pathOf = ({ lineCount, linePath, curvePath }: Linework, item: number): number =>
  item < lineCount ? linePath[item]! : curvePath[item - lineCount]!;

/** Whether two lines or curves are drawn in one manner: same layer, colour, width and dashing, both stroked. */
export const isSameStroke = (linework: Linework, one: number, other: number): boolean => {
  const { pathFlags, pathWidth, pathStroke, pathLayer } = linework;
  const a = pathOf(linework, one);
  const b = pathOf(linework, other);
  if (a === b) return true;
  const drawn = PATH_FLAG.stroked | PATH_FLAG.dashed;
  const [widthA, widthB] = [pathWidth[a]!, pathWidth[b]!];
  return (
    (pathFlags[a]! & drawn) === (pathFlags[b]! & drawn) &&
    pathStroke[a] === pathStroke[b] &&
    pathLayer[a] === pathLayer[b] &&
    Math.abs(widthA - widthB) <= 0.02 * Math.max(widthA, widthB)
  );
};

/** Whether a line is stroked without dashes. */
export const isSolid = ({ linePath, pathFlags }: Linework, line: number): boolean =>
  (pathFlags[linePath[line]!]! & (PATH_FLAG.stroked | PATH_FLAG.dashed)) === PATH_FLAG.stroked;
