import { type Box, boxAround } from '../../geometry/box.ts';
import type { Point } from '../../geometry/point.ts';
import { verdictWord } from '../../quote/schedule.ts';
import type { DisplayUnit } from '../../units/formatLength.ts';
import { PaperPen, type PaperPicture, type PenFont } from '../drawing/paperPen.ts';
import { drawnLength } from '../elevation/elevationChains.ts';
import { planCutMark } from '../section/planCutMark.ts';
import type { SectionCut } from '../section/sectionCuts.ts';
import { zoneTitle } from '../zoneTitle.ts';
import type { FloorPart, FloorPlan, FloorRun, FloorStraight } from './floorPlan.ts';
import { LabelField, stripe } from './labelField.ts';
import { type Band, bodyOf, placeBands, placeOff, reachOf } from './placeBands.ts';
import { blue, capital, green, ink, lines, vermilion, white } from './planInk.ts';
import { dot, drawDatum, drawPart, drawZone, pieceVeil } from './planMarks.ts';
import { drawRadius } from './radiusMark.ts';
import { type Lettering, middleOf, ringLettering, uprightAngle } from './ringLettering.ts';
import { drawServiceSymbol } from './serviceSymbol.ts';
import { straightRows } from './straightRows.ts';
import { turnedBox } from './turnedBox.ts';

export interface PlanPicture {
  readonly picture: PaperPicture;
  /** What it takes up, mm of paper. */
  readonly bounds: Box;
}

export interface PictureGiven {
  readonly unit: DisplayUnit;
  readonly font: PenFont;
  /** What is set out: the pieces (the default), or the services that come up to them. */
  readonly shows?: 'pieces' | 'services';
  /** Sections cut through the runs; none where left out. */
  readonly cuts?: readonly SectionCut[];
}

interface Words {
  readonly lines: readonly (readonly string[])[];
  readonly aside: string;
}

/** Room for the name of a datum between the run and its figures. */
const clearMm = 6.5;
/** Room for the tags of services between the run and its figures. */
const servicesClearMm = 13;

/** A long name in lines of a few words. */
const broken = (text: string): readonly string[] => {
  const words = text.split(' ');
  if (words.length < 2) return [text];
  const target = Math.max(8, Math.ceil(text.length / Math.min(3, words.length)));
  const found: string[] = [];
  for (const word of words) {
    const last = found.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= target)
      found[found.length - 1] = `${last} ${word}`;
    else found.push(word);
  }
  return found;
};

/**
 * The runs of a floor plan at 1 : `ratio`, with marks, widths, verdicts, datums and dimensions, each text clear of every
 * other. Origin at the plan's own; drawn over the architect's page by whoever puts it down.
 */
export const drawPlanPicture = (
  plan: FloorPlan,
  ratio: number,
  { unit, font, shows = 'pieces', cuts = [] }: PictureGiven,
): PlanPicture => {
  const isServices = shows === 'services';
  const pen = new PaperPen(font);
  const field = new LabelField();
  const paper = ({ x, y }: Point): Point => ({ x: x / ratio, y: y / ratio });
  const lettering: Lettering = {
    widthOf: (text, height) => pen.textWidth(text, height),
    most: capital.usual,
    least: 1.3,
  };
  const rows = plan.runs.map((run) =>
    run.straights.map((straight) =>
      straightRows(straight, ratio, {
        unit,
        font,
        ...(isServices ? { pointsMm: pointsOf(run, straight.index) } : {}),
      }),
    ),
  );
  const rowOf = new Map(
    plan.runs.flatMap((run, index) =>
      run.straights.map((straight, at) => [straight, rows[index]![at]!] as const),
    ),
  );
  const depthMm = Math.max(...rows.flat().map((row) => row.depthMm));
  const bands = placeBands(plan, {
    depthMm: depthMm * ratio,
    clearMm: (isServices ? servicesClearMm : clearMm) * ratio,
    stepMm: 5 * ratio,
    reach: (straight) => {
      const [low, high] = rowOf.get(straight)?.reachMm ?? [0, 0];
      return [low * ratio, high * ratio];
    },
    cornerMm: 3 * ratio,
  });

  // First all that stays where it is, so that labels keep clear of it.
  for (const [runIndex, run] of plan.runs.entries()) {
    for (const [index, straight] of run.straights.entries()) {
      field.takeLetters(bands[runIndex]![index]!.ring.map(paper));
      field.take(footprintOf(run, straight).map(paper));
    }
    // A corner unit or wedge may stand beyond its straights; letters keep clear of the front line too.
    for (const part of run.parts) field.take(part.ring.map(paper));
    const front = run.frontLine.map(paper);
    for (const [index, to] of front.slice(1).entries()) field.take(stripe(front[index]!, to, 1));
  }

  const waiting: (() => void)[] = [];
  // What finds no room in its ring is led out once everything that does has its place.
  const asides: (() => void)[] = [];
  const letter = (
    ring: readonly Point[],
    { lines: variants, aside }: Words,
    colour: typeof ink,
    out: readonly Point[],
    hasGround = false,
  ): void => {
    const onPaper = ring.map(paper);
    // All that can be said at a good size comes before more at a smaller one.
    const ways = [capital.small, lettering.least].flatMap((least) =>
      variants.map((some) => ({ some, least })),
    );
    for (const { some, least } of ways) {
      const placed = ringLettering(onPaper, some, { ...lettering, least });
      if (!placed) continue;
      // Where straights of a run meet, a ring may lie over another's: the later one's letters go elsewhere.
      const boxes = placed.map(({ at, angleRad, width, height }) =>
        turnedBox(at, angleRad, width, height * 1.7),
      );
      if (!boxes.every((box) => field.isClearOfLetters(box))) continue;
      for (const box of boxes) field.takeLetters(box);
      for (const { text, at, angleRad, height } of placed) {
        pen.text({
          text,
          at,
          angleRad,
          capitalMm: height,
          colour,
          align: 'middle',
          vertical: 'middle',
          hasGround,
        });
      }
      return;
    }
    if (aside) asides.push(() => label(middleOf(onPaper), aside, colour, out));
  };
  const label = (
    foot: Point,
    text: string,
    colour: typeof ink,
    out: readonly Point[],
    capitalMm: number = capital.small,
  ): void => {
    const width = pen.textWidth(text, capitalMm);
    const { at, leaderEnd } = field.place(foot, width, capitalMm * 1.3, out);
    pen.line([foot, leaderEnd], { ...lines.leader, colour });
    pen.ring(dot(foot, 0.35), { fill: colour });
    pen.text({ text, at, align: 'middle', vertical: 'middle', capitalMm, colour, hasGround: true });
  };

  const cutMarks = cuts
    .filter(({ run }) => plan.runs.some(({ runId }) => runId === run.runId))
    .map((cut) =>
      planCutMark(pen, field, cut, ratio, (foot, text) => {
        const { towardsBack } = cut.run.straights[cut.straight]!;
        label(foot, text, ink, [negative(towardsBack), towardsBack], capital.usual);
      }),
    );

  for (const [runIndex, run] of plan.runs.entries())
    for (const [index, straight] of run.straights.entries())
      pen.ring(veilOf(straight, bands[runIndex]![index]!, ratio).map(paper), {
        fill: white,
        alpha: pieceVeil,
      });

  for (const [runIndex, run] of plan.runs.entries()) {
    const own = bands[runIndex]!;
    const outOf = (straightIndex: number): readonly Point[] => {
      const straight = run.straights[straightIndex] ?? run.straights[0]!;
      const { towardsBack } = straight;
      const front = { x: -towardsBack.x, y: -towardsBack.y };
      return own[straight.index]?.side === 'back' ? [front, towardsBack] : [towardsBack, front];
    };
    for (const zone of run.zones) {
      drawZone(pen, zone, paper);
      const name = zoneTitle(zone);
      const width = drawnLength(zone.toMm - zone.fromMm, unit);
      waiting.push(() =>
        letter(
          zone.ring,
          {
            lines: [
              [name, width],
              [...broken(name), width],
            ],
            aside: `${name}  ${width}`,
          },
          ink,
          outOf(zone.straight),
          zone.kind !== 'opening',
        ),
      );
    }
    pen.line(run.backLine.map(paper), lines.back);
    for (const part of run.parts) {
      drawPart(pen, part, paper);
      waiting.push(() =>
        letter(
          part.letterRing,
          isServices ? markOf(part) : wordsOf(part, unit),
          colourOf(part),
          outOf(part.straight ?? 0),
        ),
      );
    }
    pen.line(run.frontLine.map(paper), lines.front);
    for (const { bend } of run.straights) if (bend) drawRadius(pen, bend, unit, paper);
    for (const [index, straight] of run.straights.entries()) {
      const band = own[index]!;
      const row = rows[runIndex]![index]!;
      pen.put(...bandPicture(run, straight, band, row, ratio, paper));
    }
  }
  for (const draw of cutMarks) draw();
  for (const write of waiting) write();
  for (const write of asides) write();
  if (isServices)
    for (const [runIndex, run] of plan.runs.entries()) {
      const own = bands[runIndex]!;
      for (const { at, tag, kind, straight: index } of run.services) {
        const straight = run.straights[index]!;
        const isBandInFront = own[index]?.side === 'front';
        const away = isBandInFront ? straight.towardsBack : negative(straight.towardsBack);
        label(paper(at), tag, ink, [away, negative(away)]);
        drawServiceSymbol(pen, paper(at), kind);
      }
    }
  for (const [runIndex, run] of plan.runs.entries()) {
    const datums = [...run.straights.map(({ datum, start }) => ({ name: datum, at: start })), run.lastDatum];
    for (const [index, { name, at }] of datums.entries()) {
      const straight = run.straights[Math.min(index, run.straights.length - 1)]!;
      drawDatum(pen, paper(at));
      const away = index === 0 ? -1 : 1;
      const front = { x: -straight.towardsBack.x, y: -straight.towardsBack.y };
      const along = { x: straight.along.x * away, y: straight.along.y * away };
      const slant = { x: front.x + along.x, y: front.y + along.y };
      label(paper(at), name, ink, [along, slant, front, { x: -front.x, y: -front.y }], capital.usual);
    }
    runName(pen, field, run, bands[runIndex]!, paper);
  }

  const picture = pen.picture();
  const bounds = boxAround([
    ...picture.letters.flatMap(({ ring }) => ring),
    ...bands.flat().flatMap(({ ring }) => ring.map(paper)),
    ...plan.runs.flatMap((run) =>
      [...run.frontLine, ...run.backLine, ...run.parts.flatMap(({ ring }) => ring)].map(paper),
    ),
  ]);
  return { picture, bounds: bounds ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 } };
};

const footprintOf = (run: FloorRun, straight: FloorStraight): readonly Point[] => {
  const [frontMm, backMm] = bodyOf(run, straight);
  const { start, end, towardsBack } = straight;
  const off = ({ x, y }: Point, mm: number): Point => ({
    x: x + towardsBack.x * mm,
    y: y + towardsBack.y * mm,
  });
  return [off(start, frontMm), off(end, frontMm), off(end, backMm), off(start, backMm)];
};

/** The ground under a straight's figures, on which they can be read over the plan. */
const veilOf = (straight: FloorStraight, { nearMm, farMm }: Band, ratio: number): readonly Point[] => {
  const [low, high] = reachOf(straight);
  const pad = 1.5 * ratio;
  return [
    placeOff(straight, low - pad, nearMm),
    placeOff(straight, high + pad, nearMm),
    placeOff(straight, high + pad, farMm),
    placeOff(straight, low - pad, farMm),
  ];
};

const bandPicture = (
  run: FloorRun,
  straight: FloorStraight,
  band: Band,
  row: ReturnType<typeof straightRows>,
  ratio: number,
  paper: (point: Point) => Point,
): readonly [PaperPicture, Point, number] => {
  const { towardsBack } = straight;
  const up = { x: -Math.sin(row.angleRad), y: Math.cos(row.angleRad) };
  const backIsUp = towardsBack.x * up.x + towardsBack.y * up.y > 0;
  const isUp = (band.side === 'back') === backIsUp;
  const [frontMm, backMm] = bodyOf(run, straight);
  const edgeMm = band.side === 'back' ? backMm : -frontMm;
  return [row.draw(Math.abs(band.nearMm) / ratio, isUp, edgeMm / ratio), paper(straight.start), row.angleRad];
};

const negative = ({ x, y }: Point): Point => ({ x: -x, y: -y });

const pointsOf = (run: FloorRun, straightIndex: number): readonly number[] =>
  run.services.filter(({ straight }) => straight === straightIndex).map(({ alongMm }) => alongMm);

/** On the services' sheet a piece has its mark alone, small, towards its front edge. */
const markOf = (part: FloorPart): Words => ({
  lines: part.kind === 'leftover' || part.kind === 'wedge' ? [] : [[part.mark]],
  aside: '',
});

const colourOf = (part: FloorPart) =>
  part.kind === 'leftover' || part.kind === 'wedge'
    ? vermilion
    : part.kind === 'piece' && part.isStation
      ? green
      : ink;

const wordsOf = (part: FloorPart, unit: DisplayUnit): Words => {
  // A wedge is narrow: its hatch and its row in the table name it.
  if (part.kind === 'wedge') return { lines: [[part.mark]], aside: '' };
  if (part.kind === 'corner')
    return {
      lines: [[part.mark, part.name], [part.mark, ...broken(part.name)], [part.mark]],
      aside: part.mark,
    };
  const width = drawnLength(part.widthMm, unit);
  if (part.kind === 'leftover') {
    const verdict = `${verdictWord(part.verdict)}${part.confirmed ? '' : ', measure on site'}`;
    return { lines: [], aside: `${part.mark}  ${width}  ${verdict}` };
  }
  if (!part.isStation) return { lines: [[part.mark, width], [part.mark]], aside: part.mark };
  return {
    lines: [[part.mark, ...broken(part.name), width], [part.mark, width], [part.mark]],
    aside: `${part.mark}  ${width}`,
  };
};

/** The run's number and name: beyond the figures of its longest straight or at the straight's other side, whichever is nearer. */
const runName = (
  pen: PaperPen,
  field: LabelField,
  run: FloorRun,
  bands: readonly Band[],
  paper: (point: Point) => Point,
): void => {
  const straight = run.straights.reduce((longest, one) => (one.lengthMm > longest.lengthMm ? one : longest));
  const band = bands[straight.index]!;
  const text = `${run.number}  ${run.run.name}`;
  const angleRad = uprightAngle(Math.atan2(straight.along.y, straight.along.x));
  const sign = band.side === 'front' ? -1 : 1;
  const out = { x: straight.towardsBack.x * sign, y: straight.towardsBack.y * sign };
  const otherEdgeMm = band.side === 'front' ? run.run.depthMm + run.run.allowances.claddingMm : 0;
  const foot = (offMm: number): Point => paper(placeOff(straight, straight.lengthMm / 2, offMm));
  const at = field.placeTurned(
    [
      { foot: foot(band.farMm), out },
      { foot: foot(otherEdgeMm), out: negative(out) },
    ],
    angleRad,
    pen.textWidth(text, capital.title),
    capital.title * 1.5,
  );
  pen.text({
    text,
    at,
    angleRad,
    align: 'middle',
    vertical: 'middle',
    capitalMm: capital.title,
    colour: blue,
    hasGround: true,
  });
};
