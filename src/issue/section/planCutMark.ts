import type { Point } from '../../geometry/point.ts';
import type { PaperPen } from '../drawing/paperPen.ts';
import { type LabelField, stripe } from '../settingOut/labelField.ts';
import { placeOff } from '../settingOut/placeBands.ts';
import { capital, ink } from '../settingOut/planInk.ts';
import { turnedBox } from '../settingOut/turnedBox.ts';
import type { SectionCut } from './sectionCuts.ts';

/** Of one end of a cut, mm of paper: clear of the run, the stroke's length, the arrow's, the letter's distance. */
const clearMm = 0.8;
const strokeMm = 4.2;
const arrowMm = 4;
const letterAsideMm = 2.4;

interface CutEnd {
  readonly from: Point;
  readonly to: Point;
  readonly arrow: Point;
  readonly letter: Point;
}

/** The direction in which a section is seen that has the customer's side at its left: along the front, on paper. */
const viewOf = ({ x, y }: Point): Point => ({ x: -y, y: x });

const endsOf = ({ run, straight: index, alongMm }: SectionCut, ratio: number): readonly CutEnd[] => {
  const straight = run.straights[index];
  if (!straight) return [];
  const backMm = run.run.depthMm + run.run.allowances.claddingMm;
  const view = viewOf(straight.towardsBack);
  const paper = (offMm: number): Point => {
    const { x, y } = placeOff(straight, alongMm, offMm);
    return { x: x / ratio, y: y / ratio };
  };
  return ([-1, 1] as const).map((sign): CutEnd => {
    const edgeMm = sign === 1 ? backMm : 0;
    const out = (mm: number) => paper(edgeMm + sign * mm * ratio);
    const to = out(clearMm + strokeMm);
    const beside = out(clearMm + strokeMm - capital.usual * 0.6);
    return {
      from: out(clearMm),
      to,
      arrow: { x: to.x + view.x * arrowMm, y: to.y + view.y * arrowMm },
      letter: { x: beside.x - view.x * letterAsideMm, y: beside.y - view.y * letterAsideMm },
    };
  });
};

/**
 * The marks of a cut at both sides of its run: thick strokes with arrows in the direction of view and the cut's letter
 * (ISO 128-3, from memory). Takes its places in the field at once and gives back what draws it.
 *
 * @param led writes a letter on a leader where its own place is taken.
 */
export const planCutMark = (
  pen: PaperPen,
  field: LabelField,
  cut: SectionCut,
  ratio: number,
  led: (foot: Point, text: string) => void,
): (() => void) => {
  const width = pen.textWidth(cut.letter, capital.usual);
  const drawn = endsOf(cut, ratio).map((end) => {
    const box = turnedBox(end.letter, 0, width + 0.8, capital.usual * 1.3);
    const isClear = field.isClearOfLetters(box);
    field.take(stripe(end.from, end.to, 1));
    field.take(stripe(end.to, end.arrow, 2));
    if (isClear) field.takeLetters(box);
    return { end, isClear };
  });
  return () => {
    for (const { end, isClear } of drawn) {
      const { from, to, arrow, letter } = end;
      pen.line([from, to], { widthMm: 0.7, colour: ink });
      pen.line([to, arrow], { widthMm: 0.25, colour: ink });
      const unit = { x: (arrow.x - to.x) / arrowMm, y: (arrow.y - to.y) / arrowMm };
      const head = (along: number, aside: number): Point => ({
        x: arrow.x - unit.x * along - unit.y * aside,
        y: arrow.y - unit.y * along + unit.x * aside,
      });
      pen.ring([arrow, head(2, 0.6), head(2, -0.6)], { fill: ink });
      if (isClear)
        pen.text({
          text: cut.letter,
          at: letter,
          align: 'middle',
          vertical: 'middle',
          capitalMm: capital.usual,
          colour: ink,
          hasGround: true,
        });
      else led(to, cut.letter);
    }
  };
};
