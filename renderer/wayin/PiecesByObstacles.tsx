import { type KeyboardEvent, useEffect, useRef } from 'react';
import type { ObstacleAnswer } from '../../src/access/checkWayIn.ts';
import type { MeasuredWayIn } from '../../src/access/wayInOfProject.ts';
import type { PieceGroup } from '../../src/quote/wayInVerdicts.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import { answerSentence, marginWords, verdictWords } from './wayInWords.ts';

/** A cell of the table: which group of pieces at which judged obstacle. */
export interface Cell {
  readonly group: number;
  readonly obstacle: number;
}

const cellKind = ({ passes, sure }: ObstacleAnswer): 'passes' | 'stops' | 'unsure' =>
  sure ? (passes ? 'passes' : 'stops') : 'unsure';

const cellWords = (answer: ObstacleAnswer, unit: DisplayUnit): string => {
  if (answer.spareKg !== undefined && answer.spareKg < 0) return 'too heavy';
  const margin = marginWords(answer.marginMm, unit).replace(/\u00a0mm$/, '');
  return answer.sure ? margin : `? ${margin}`;
};

/** `measure on site` would help nothing where what is open is not a size. */
const shortVerdict = ({ verdict, answer }: PieceGroup): string =>
  verdict === 'measure-on-site' && answer.obstacles.every(({ doubt }) => doubt !== 'sizes')
    ? 'try on site'
    : verdictWords[verdict];

const packedWords = ({ piece }: PieceGroup, unit: DisplayUnit): string => {
  const { lengthMm, widthMm, heightMm } = piece.piece;
  const words = [lengthMm, widthMm, heightMm].map((mm) => formatLength(mm, { unit }));
  return words.map((text, index) => (index < 2 ? text.replace(/\u00a0mm$/, '') : text)).join(' × ');
};

/** Pieces by obstacles: each cell says by how much a piece passes, or does not; the arrow keys walk over the cells. */
export const PiecesByObstacles = (props: {
  readonly wayIn: MeasuredWayIn;
  readonly groups: readonly PieceGroup[];
  readonly unit: DisplayUnit;
  readonly shown: Cell | null;
  readonly onShow: (cell: Cell) => void;
}) => {
  const { wayIn, groups, unit, shown } = props;
  const table = useRef<HTMLTableElement>(null);
  const judged = wayIn.measured.filter(({ obstacle }) => obstacle !== null);
  // The worst cell may lie far to the right: it comes into sight with the table.
  // biome-ignore lint/correctness/useExhaustiveDependencies: only when the table appears, or its way in is another one
  useEffect(() => {
    if (!shown) return;
    table.current
      ?.querySelector(`[data-cell="${shown.group}.${shown.obstacle}"]`)
      ?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }, [wayIn.id]);
  const onKeyDown = (event: KeyboardEvent, { group, obstacle }: Cell) => {
    const [down, across] =
      event.key === 'ArrowDown'
        ? [1, 0]
        : event.key === 'ArrowUp'
          ? [-1, 0]
          : event.key === 'ArrowRight'
            ? [0, 1]
            : event.key === 'ArrowLeft'
              ? [0, -1]
              : [0, 0];
    if (down === 0 && across === 0) return;
    event.preventDefault();
    const next = {
      group: Math.min(groups.length - 1, Math.max(0, group + down)),
      obstacle: Math.min(judged.length - 1, Math.max(0, obstacle + across)),
    };
    table.current?.querySelector<HTMLElement>(`[data-cell="${next.group}.${next.obstacle}"]`)?.focus();
  };
  const at = shown ?? { group: 0, obstacle: 0 };
  return (
    <table className="way-table" ref={table}>
      <caption className="visually-hidden">
        Pieces by obstacles of {wayIn.name}: how much room is left, or by how much a piece is too large
      </caption>
      <thead>
        <tr>
          <th scope="col">Piece</th>
          <th scope="col">Packed</th>
          <th scope="col">kg</th>
          <th scope="col">People</th>
          <th scope="col" className="way-verdict">
            Comes in
          </th>
          {judged.map((obstacle) => (
            <th key={obstacle.drawn.id} scope="col" className="way-obstacle" title={obstacle.name}>
              <span className="way-clamp">
                <span className="quiet">{wayIn.measured.indexOf(obstacle) + 1}</span> {obstacle.name}
              </span>
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {groups.map((group, groupIndex) => (
          <tr key={group.marks.join()}>
            <th scope="row" title={`${group.marks.join(', ')}: ${group.piece.name}`}>
              <span className="way-piece">
                <b>
                  {group.marks.length > 3
                    ? `${group.marks.length} × ${group.marks[0]} …`
                    : group.marks.join(', ')}
                </b>{' '}
                {group.piece.name.split(',')[0]}
              </span>
            </th>
            <td className={group.piece.sizeFrom === 'geometry' ? 'is-worked' : undefined}>
              {group.piece.sizeFrom === 'geometry' ? '≈ ' : ''}
              {packedWords(group, unit)}
            </td>
            <td>
              {group.piece.massFrom === 'geometry' ? '≈ ' : ''}
              {Math.round(group.piece.piece.massKg)}
            </td>
            <td>
              {group.answer.needsAid ? (
                <span title="Beyond what the guidance allows a team to lift: a trolley, skate or hoist, and these people to steer it">
                  aid + {group.answer.crew}
                </span>
              ) : (
                group.answer.crew
              )}
            </td>
            <td className={group.verdict === 'passes' ? 'way-verdict' : 'way-verdict alert'}>
              {group.verdict === 'passes' ? 'whole' : shortVerdict(group)}
            </td>
            {group.answer.obstacles.map((answer, obstacle) => {
              const cell = { group: groupIndex, obstacle };
              const isShown = at.group === groupIndex && at.obstacle === obstacle;
              return (
                <td key={answer.index} className={`way-cell is-${cellKind(answer)}`}>
                  <button
                    type="button"
                    data-cell={`${groupIndex}.${obstacle}`}
                    tabIndex={isShown ? 0 : -1}
                    aria-pressed={isShown}
                    onPointerEnter={() => props.onShow(cell)}
                    onFocus={() => props.onShow(cell)}
                    onClick={() => props.onShow(cell)}
                    onKeyDown={(event) => onKeyDown(event, cell)}
                  >
                    {cellWords(answer, unit)}
                    <span className="visually-hidden">
                      {' '}
                      {answerSentence(
                        `${group.marks.join(', ')} ${group.piece.name}`,
                        judged[obstacle]?.name ?? '',
                        answer,
                        unit,
                      )}
                    </span>
                  </button>
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
};
