import { sizeWords } from '../access/sizeWords.ts';
import { sizeNames } from '../document/obstacleKinds.ts';
import type { ProjectAccess } from './projectAccess.ts';
import type { SiteMeasure } from './siteMeasure.ts';

/**
 * The clear sizes of the chosen way in to take on site. One decides where a piece's verdict hangs on the obstacle's
 * uncertainty, or where its size is a usual one that nobody has measured.
 */
export const wayInMeasures = ({ wayIn, groups }: ProjectAccess): readonly SiteMeasure[] =>
  wayIn.measured.flatMap(({ drawn, name, sizes }) => {
    const place = wayIn.obstacleIds.indexOf(drawn.id);
    const hanging = groups.filter(
      ({ verdict, answer }) =>
        verdict === 'measure-on-site' &&
        answer.obstacles.some((at, index) => index === place && at.doubt === 'sizes'),
    );
    const marks = hanging.flatMap((group) => group.marks);
    const why =
      marks.length > 0
        ? `Whether ${marks.join(', ')} ${marks.length === 1 ? 'passes' : 'pass'} hangs on it`
        : drawn.confirmOnSite
          ? 'A usual size; nobody has measured it here'
          : 'For the record: every verdict holds over its uncertainty';
    return sizeNames.flatMap((sizeName): SiteMeasure[] => {
      const size = sizes[sizeName];
      if (!size) return [];
      return [
        {
          run: 'Way in',
          straight: null,
          kind: 'way-in',
          what: `${name}: ${sizeWords[sizeName].toLowerCase()}`,
          unit: 'mm',
          drawn: size.lengthMm,
          plusMinus: size.plusMinusMm,
          decides: marks.length > 0 || drawn.confirmOnSite,
          why,
        },
      ];
    });
  });
