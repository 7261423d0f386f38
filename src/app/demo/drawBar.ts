import { bar } from './demoVenue.ts';
import type { PlanPen, XY } from './planPen.ts';

const counter = { pen: 0.35 };
const thin = { pen: 0.18 };
const faint = { pen: 0.13, grey: 0.3 };
const hidden = { pen: 0.13, dash: [1.8, 1.2] };

/** A place on straight 1: so far from the corner, so far back from the front line. */
const onStraight = (alongMm: number, backMm: number): XY => [bar.corner[0] + alongMm, bar.corner[1] + backMm];

/**
 * The front bar as an architect shows it: front and back line, a pass with a lifting flap, the serving shelf over the
 * customer side dashed, the glasswasher under the top dashed, and the back bar with its coolers.
 */
export const drawBar = (pen: PlanPen): void => {
  const { depthMm, flap, glasswasherBay, columnBite } = bar;
  const [cornerX, frontY] = bar.corner;
  const wallY = bar.wallEnd[1];
  const endX = bar.exposedEnd[0];
  const backX = cornerX + depthMm;
  const backY = frontY + depthMm;
  const biteDepth = 200;

  pen.layer('Counter', () => {
    pen.polyline(
      [bar.wallEnd, bar.corner, onStraight(flap.fromMm, 0), onStraight(flap.fromMm, depthMm)],
      counter,
    );
    pen.polyline(
      [
        onStraight(flap.fromMm, depthMm),
        onStraight(columnBite.toMm, depthMm),
        onStraight(columnBite.toMm, depthMm - biteDepth),
        onStraight(columnBite.fromMm, depthMm - biteDepth),
        onStraight(columnBite.fromMm, depthMm),
        [backX, backY],
        [backX, wallY],
      ],
      counter,
    );
    pen.polyline(
      [
        onStraight(flap.toMm, depthMm),
        onStraight(flap.toMm, 0),
        [endX, frontY],
        [endX, backY],
        onStraight(flap.toMm, depthMm),
      ],
      counter,
    );
  });

  pen.layer('Counter details', () => {
    const shelf = 250;
    pen.polyline(
      [[cornerX + shelf, wallY], [cornerX + shelf, frontY + shelf], onStraight(flap.fromMm, shelf)],
      hidden,
    );
    pen.line(onStraight(flap.toMm, shelf), [endX, frontY + shelf], hidden);

    pen.line(onStraight(flap.fromMm, 60), onStraight(flap.toMm, 60), thin);
    pen.line(onStraight(flap.fromMm, depthMm - 60), onStraight(flap.toMm, depthMm - 60), thin);
    pen.line(onStraight(flap.fromMm, 60), onStraight(flap.toMm, depthMm - 60), hidden);
    pen.line(onStraight(flap.fromMm, depthMm - 60), onStraight(flap.toMm, 60), hidden);

    pen.polyline(
      [
        onStraight(glasswasherBay.fromMm + 40, 40),
        onStraight(glasswasherBay.toMm - 40, 40),
        onStraight(glasswasherBay.toMm - 40, depthMm - 40),
        onStraight(glasswasherBay.fromMm + 40, depthMm - 40),
      ],
      hidden,
      true,
    );

    const founts = onStraight(2_000, 430);
    pen.rectangle(founts[0] - 260, founts[1] - 60, 520, 120, thin);
    for (let tap = 0; tap < 6; tap += 1) pen.circle([founts[0] - 200 + tap * 80, founts[1]], 24, faint);

    const basin: XY = [cornerX + 440, 8_500];
    pen.rectangle(basin[0] - 170, basin[1] - 170, 340, 340, thin);
    pen.circle(basin, 130, faint);
    pen.circle(basin, 18, faint);

    const well = onStraight(7_800, 430);
    pen.rectangle(well[0] - 300, well[1] - 170, 600, 340, thin);
    pen.rectangle(well[0] - 270, well[1] - 140, 540, 280, faint);
    for (const pan of [-520, -420]) pen.rectangle(well[0] + pan, well[1] - 150, 80, 300, faint);
  });

  const back = bar.backBar;
  pen.layer('Counter', () => {
    pen.rectangle(back.x0, back.y0, back.x1 - back.x0, back.y1 - back.y0, counter);
  });
  pen.layer('Counter details', () => {
    pen.line([back.x0, back.y0 + 280], [back.x1, back.y0 + 280], hidden);
    for (let x = back.x0 + 800; x < back.x1 - 1; x += 800) pen.line([x, back.y0], [x, back.y0 + 280], faint);
  });
};

/** What the bar says: names beside it, never on its lines. */
export const letterBar = (pen: PlanPen): void => {
  pen.layer('Text', () => {
    const bay = onStraight((bar.glasswasherBay.fromMm + bar.glasswasherBay.toMm) / 2, bar.depthMm / 2);
    pen.letter('GW', bay, { cap: 1.8, align: 'centre', vertical: 'middle' });
    const flap = onStraight((bar.flap.fromMm + bar.flap.toMm) / 2, bar.depthMm + 160);
    pen.letter('LIFTING FLAP', flap, { cap: 1.5, align: 'centre' });
    pen.letter('FRONT BAR', [7_600, 7_175], { cap: 2, align: 'centre', bold: true });
    pen.letter('BACK BAR: COOLERS UNDER', [(bar.backBar.x0 + bar.backBar.x1) / 2, 9_620], {
      cap: 1.6,
      align: 'centre',
      vertical: 'middle',
    });
  });
};
