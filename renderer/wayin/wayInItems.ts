import { wayInOfProject } from '../../src/access/wayInOfProject.ts';
import type { SheetId } from '../../src/document/ids.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { paperPoint } from '../../src/geometry/point.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import type { DisplayItem } from '../board/displayList.ts';

/** The widths of the chosen way in that are picked on a sheet, each lettered with its place in the way and its length. */
export const wayInItems = (
  document: ProjectDocument,
  sheetId: SheetId,
  unit: DisplayUnit,
): readonly DisplayItem[] => {
  const wayIn = document.chosenWayInId && wayInOfProject(document, document.chosenWayInId);
  if (!wayIn) return [];
  return wayIn.measured.flatMap(({ drawn, sizes }, index) =>
    Object.entries(drawn.sizes).flatMap(([name, size]): DisplayItem[] => {
      if (size?.from !== 'sheet' || size.sheetId !== sheetId) return [];
      const { a, b } = size;
      const found = sizes[name as keyof typeof sizes];
      const id = `way-in/${drawn.id}/${name}`;
      return [
        {
          kind: 'polyline',
          id,
          points: [a, b],
          isHittable: false,
          line: { tone: 'warning', widthPx: 2 },
        },
        {
          kind: 'label',
          id: `${id}/label`,
          at: paperPoint((a.x + b.x) / 2, (a.y + b.y) / 2),
          text: `W${index + 1}${found ? ` ${formatLength(found.lengthMm, { unit })}` : ''}`,
          tone: 'warning',
          isStrong: true,
          alongRad: Math.atan2(b.y - a.y, b.x - a.x),
          shift: { directionRad: Math.atan2(b.y - a.y, b.x - a.x) + Math.PI / 2, px: 10 },
          isHittable: false,
        },
      ];
    }),
  );
};
