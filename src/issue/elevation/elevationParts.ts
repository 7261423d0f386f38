import { verdictWord } from '../../quote/schedule.ts';
import { formatLength } from '../../units/formatLength.ts';
import type { DrawnPart, Shape } from '../drawing/drawing.ts';
import { pointsOfPath } from '../drawing/drawnPath.ts';
import type { PartName } from '../fitOnPlan.ts';
import { zoneTitle } from '../zoneTitle.ts';
import type { DevelopedRun } from './developedRun.ts';
import type { ElevationBuild } from './elevationBuild.ts';
import type { ElevationInput } from './elevationInput.ts';
import { partOfSpan } from './partOfSpan.ts';
import type { Span, StraightSpans } from './spansOf.ts';

const hostedOf = ({ alternative }: ElevationInput) =>
  (alternative?.pieces ?? []).flatMap((piece, index) => (piece.host === undefined ? [] : [{ piece, index }]));

const words = (input: ElevationInput, span: Pick<Span, 'kind' | 'index' | 'fromMm' | 'toMm'>): string => {
  const { alternative, marks, range, zones, unit, corners } = input;
  const length = formatLength(span.toMm - span.fromMm, { unit });
  if (span.kind === 'piece') {
    const piece = alternative?.pieces[span.index];
    const own = piece?.widthMm === undefined ? length : formatLength(piece.widthMm, { unit });
    const name = range.items.find(({ id }) => id === piece?.item)?.name ?? piece?.item ?? '';
    const wider = piece?.widenedMm === undefined ? '' : ', made wider';
    return `${marks?.pieces[span.index] ?? ''} ${name}${wider}, ${own}`.trim();
  }
  if (span.kind === 'leftover') {
    const leftover = alternative?.leftovers[span.index];
    const verdict = leftover ? verdictWord(leftover.verdict) : '';
    const sure = leftover?.confirmed === false ? ', measure on site' : '';
    return `${marks?.leftovers[span.index] ?? ''} leftover, ${verdict}, ${length}${sure}`.trim();
  }
  if (span.kind === 'wedge') {
    const wedge = alternative?.wedges?.[span.index];
    const [front, back] = [wedge?.frontMm ?? 0, wedge?.backMm ?? 0].map((mm) => formatLength(mm, { unit }));
    return `${marks?.wedges[span.index] ?? ''} wedge, made to measure, ${front} at the front, ${back} at the back`.trim();
  }
  if (span.kind === 'corner') {
    const corner = alternative?.corners[span.index];
    const unitName = range.cornerUnits.find(({ id }) => id === corner?.item)?.name;
    const kind = unitName ?? (corner?.treatment === 'mitre' ? 'Corner wedge, made to measure' : 'Corner');
    const angle = Math.round(corners[span.index]?.innerAngleDeg ?? 0);
    return `${kind}, ${angle}°`;
  }
  const zone = zones[span.index];
  return zone ? `${zoneTitle(zone)}, ${length}` : length;
};

/** Everything of the drawing that can be pointed at, from left to right, hosts before what they carry. */
export const elevationParts = (
  input: ElevationInput,
  straights: readonly StraightSpans[],
  developed: DevelopedRun,
  shapes: readonly Shape<PartName>[],
  build: ElevationBuild,
): readonly DrawnPart<PartName>[] => {
  const found = new Map<PartName, DrawnPart<PartName>>();
  for (const span of straights.flatMap(({ spans }) => spans)) {
    const part = partOfSpan(input, span);
    if (part === undefined) continue;
    const { left, right } = developed.stretch(span);
    const before = found.get(part);
    const box = {
      left: Math.min(left, before?.box.left ?? left),
      right: Math.max(right, before?.box.right ?? right),
      bottom: 0,
      top: build.shelf,
    };
    found.set(part, { part, label: before?.label ?? words(input, span), box });
  }
  for (const { piece, index } of hostedOf(input)) {
    const part: PartName = `piece:${index}`;
    const { left, right } = developed.stretch(piece);
    const heights = shapes
      .filter((shape) => shape.part === part && shape.tag !== 'wanted')
      .flatMap(({ path }) => pointsOfPath(path).map(({ y }) => y));
    found.set(part, {
      part,
      label: words(input, { kind: 'piece', index, fromMm: piece.fromMm, toMm: piece.toMm }),
      box: {
        left,
        right,
        bottom: Math.min(build.underTop, ...heights),
        top: Math.max(build.top, ...heights),
      },
    });
  }
  return [...found.values()].sort(
    (one, other) => one.box.left - other.box.left || other.box.right - one.box.right,
  );
};
