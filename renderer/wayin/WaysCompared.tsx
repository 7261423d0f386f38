import { useMemo } from 'react';
import { compareWaysIn } from '../../src/access/compareWaysIn.ts';
import { wayInOfProject } from '../../src/access/wayInOfProject.ts';
import type { Command } from '../../src/document/command.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import type { ProjectAccess } from '../../src/quote/projectAccess.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { marginWords } from './wayInWords.ts';

/** All ways in with the same pieces, the best first; any can be chosen. */
export const WaysCompared = (props: {
  readonly document: ProjectDocument;
  readonly access: ProjectAccess;
  readonly unit: DisplayUnit;
  readonly onCommand: (command: Command) => void;
}) => {
  const { document, access, unit } = props;
  const compared = useMemo(() => {
    const ways = document.wayInIds.flatMap((id) => {
      const way = wayInOfProject(document, id);
      return way ? [way] : [];
    });
    return compareWaysIn(
      ways.map((way) => ({ name: way.id, obstacles: way.obstacles })),
      access.pieces.map(({ piece }) => piece),
    ).flatMap((result) => {
      const way = ways.find(({ id }) => id === result.name);
      return way ? [{ ...result, way }] : [];
    });
  }, [document, access.pieces]);
  return (
    <table className="way-table">
      <thead>
        <tr>
          <th scope="col">Way in, best first</th>
          <th scope="col">Obstacles</th>
          <th scope="col">Pieces stopped</th>
          <th scope="col">To measure on site</th>
          <th scope="col">Tightest</th>
          <th scope="col">
            <span className="visually-hidden">Choose</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {compared.map(({ way, stopped, unsure, tightestMm }) => {
          const faults = way.measured.filter(({ fault }) => fault !== null).length;
          return (
            <tr key={way.id}>
              <th scope="row" title={way.name}>
                <span className="way-piece">{way.name}</span>
              </th>
              <td>
                {way.measured.length}
                {faults > 0 && <span className="alert">, {faults} not judged</span>}
              </td>
              <td className={stopped.length > 0 ? 'alert' : undefined}>
                {stopped.length === 0
                  ? 'none'
                  : `${stopped.length}: ${stopped.slice(0, 6).join(', ')}${stopped.length > 6 ? ' …' : ''}`}
              </td>
              <td>{unsure.length === 0 ? 'none' : unsure.length}</td>
              <td>
                {tightestMm === null || way.obstacles.length === 0
                  ? 'nothing'
                  : marginWords(tightestMm, unit)}
              </td>
              <td>
                {way.id === document.chosenWayInId ? (
                  'taken'
                ) : (
                  <button
                    type="button"
                    className="word-button"
                    onClick={() => props.onCommand({ type: 'choose-way-in', wayInId: way.id })}
                  >
                    Take this one
                    <span className="visually-hidden"> {way.name}</span>
                  </button>
                )}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
};
