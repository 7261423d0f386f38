import { columnSizeMm, columns, type DoorOpening, type Wall, wallBoxes, walls } from './demoVenue.ts';
import type { PlanPen, XY } from './planPen.ts';
import { wallHatching, wallOutline } from './wallOutline.ts';

const cut = { pen: 0.5 };
const fine = { pen: 0.18 };
const hair = { pen: 0.1, grey: 0.35 };

/** A point of a wall: how far along it, and how far across from its centre line. */
const onWall = (wall: Wall, along: number, across: number): XY =>
  wall.along === 'x' ? [along, wall.at + across] : [wall.at + across, along];

/** Cut walls: existing ones toned and outlined, new ones hatched and outlined; columns solid. */
export const drawWalls = (pen: PlanPen): void => {
  const existing = walls.filter((wall) => wall.build === 'existing').flatMap(wallBoxes);
  const fresh = walls.filter((wall) => wall.build === 'new').flatMap(wallBoxes);
  pen.layer('Hatching', () => {
    for (const part of existing)
      pen.area(
        [
          [part.x0, part.y0],
          [part.x1, part.y0],
          [part.x1, part.y1],
          [part.x0, part.y1],
        ],
        { grey: 0.8 },
      );
    for (const [from, to] of wallHatching(fresh, 55)) pen.line(from, to, hair);
  });
  pen.layer('Walls', () => {
    for (const [from, to] of wallOutline([...existing, ...fresh])) pen.line(from, to, cut);
    const half = columnSizeMm / 2;
    for (const [x, y] of columns) {
      pen.rectangle(x - half, y - half, columnSizeMm, columnSizeMm, cut, { grey: 0.25 });
    }
  });
};

const drawLeaf = (
  pen: PlanPen,
  wall: Wall,
  gap: DoorOpening,
  hingeAt: number,
  towards: 1 | -1,
  width: number,
): void => {
  const face = (gap.side * wall.thickness) / 2;
  const leaf = 45;
  const corners: readonly XY[] = [
    onWall(wall, hingeAt, face),
    onWall(wall, hingeAt + towards * leaf, face),
    onWall(wall, hingeAt + towards * leaf, face + gap.side * width),
    onWall(wall, hingeAt, face + gap.side * width),
  ];
  pen.area(corners, { grey: 1 }, { pen: 0.25 });
  // The leaf's edge sweeps a quarter circle between shut (along the wall) and open (across it).
  const zero = onWall(wall, 0, 0);
  const degreesOf = ([x, y]: XY): number => (Math.atan2(y - zero[1], x - zero[0]) * 180) / Math.PI;
  const shutDeg = degreesOf(onWall(wall, towards, 0));
  const turnDeg = ((degreesOf(onWall(wall, 0, gap.side)) - shutDeg + 540) % 360) - 180;
  const [fromDeg, toDeg] = turnDeg > 0 ? [shutDeg, shutDeg + turnDeg] : [shutDeg + turnDeg, shutDeg];
  pen.arc(onWall(wall, hingeAt, face), width, fromDeg, toDeg, { pen: 0.13 });
};

const drawDoor = (pen: PlanPen, wall: Wall, gap: DoorOpening): void => {
  const half = wall.thickness / 2;
  for (const across of [-half, half])
    pen.line(onWall(wall, gap.from, across), onWall(wall, gap.to, across), { pen: 0.1, grey: 0.4 });
  const width = gap.to - gap.from;
  if (gap.hinge === 'both') {
    drawLeaf(pen, wall, gap, gap.from, 1, width / 2);
    drawLeaf(pen, wall, gap, gap.to, -1, width / 2);
  } else if (gap.hinge === 'from') drawLeaf(pen, wall, gap, gap.from, 1, width);
  else drawLeaf(pen, wall, gap, gap.to, -1, width);
};

/** Window: frame at both reveals, double line of glass, sill standing out. */
const drawWindow = (pen: PlanPen, wall: Wall, from: number, to: number): void => {
  const half = wall.thickness / 2;
  const outside = wall.outside ?? 1;
  const line = (across: number, style: { readonly pen: number }, inset = 0): void =>
    pen.line(onWall(wall, from + inset, across), onWall(wall, to - inset, across), style);
  line(-half, fine);
  line(half, fine);
  line(outside * 40 - 20, { pen: 0.25 }, 60);
  line(outside * 40 + 20, { pen: 0.25 }, 60);
  for (const end of [from, to]) {
    const inward = end === from ? 1 : -1;
    pen.polyline(
      [
        onWall(wall, end, outside * 40 - 50),
        onWall(wall, end + inward * 60, outside * 40 - 50),
        onWall(wall, end + inward * 60, outside * 40 + 50),
        onWall(wall, end, outside * 40 + 50),
      ],
      fine,
    );
  }
  const mullions = Math.round((to - from) / 1_200);
  for (let index = 1; index < mullions; index += 1) {
    const at = from + ((to - from) * index) / mullions;
    pen.area(
      [
        onWall(wall, at - 30, outside * 40 - 50),
        onWall(wall, at + 30, outside * 40 - 50),
        onWall(wall, at + 30, outside * 40 + 50),
        onWall(wall, at - 30, outside * 40 + 50),
      ],
      { grey: 1 },
      fine,
    );
  }
  pen.polyline(
    [
      onWall(wall, from - 40, outside * half),
      onWall(wall, from - 40, outside * (half + 50)),
      onWall(wall, to + 40, outside * (half + 50)),
      onWall(wall, to + 40, outside * half),
    ],
    fine,
  );
};

/** Doors with their swings, windows, and the dashed line of what is overhead in a plain opening. */
export const drawOpenings = (pen: PlanPen): void => {
  pen.layer('Doors and windows', () => {
    for (const wall of walls)
      for (const gap of wall.openings) {
        if (gap.kind === 'door') drawDoor(pen, wall, gap);
        else if (gap.kind === 'window') drawWindow(pen, wall, gap.from, gap.to);
        else
          for (const across of [-wall.thickness / 2, wall.thickness / 2])
            pen.line(onWall(wall, gap.from, across), onWall(wall, gap.to, across), {
              pen: 0.13,
              dash: [1.5, 1],
            });
      }
  });
  pen.layer('Text', () => {
    for (const wall of walls)
      for (const gap of wall.openings) {
        if (gap.kind !== 'door') continue;
        const at = gap.tagAt ?? onWall(wall, (gap.from + gap.to) / 2, -gap.side * (wall.thickness / 2 + 230));
        pen.circle(at, 165, { pen: 0.13 }, { grey: 1 });
        pen.letter(gap.tag, at, { cap: 1.5, align: 'centre', vertical: 'middle' });
      }
  });
};
