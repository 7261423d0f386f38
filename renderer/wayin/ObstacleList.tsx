import { useRef, useState } from 'react';
import type { MeasuredObstacle, MeasuredWayIn } from '../../src/access/wayInOfProject.ts';
import type { ObstacleId } from '../../src/document/ids.ts';
import type { SizeName } from '../../src/document/obstacleKinds.ts';
import type { DrawnObstacle } from '../../src/document/wayInRecords.ts';
import { type DisplayUnit, formatPlusMinus } from '../../src/units/formatLength.ts';
import { ObstacleForm } from './ObstacleForm.tsx';
import { sizesWords } from './wayInWords.ts';

/** What must be given of an obstacle, with the largest +/-. */
const SizesLine = (props: { readonly measured: MeasuredObstacle; readonly unit: DisplayUnit }) => {
  const { measured, unit } = props;
  const plusMinusMm = Math.max(0, ...Object.values(measured.sizes).map((size) => size.plusMinusMm));
  return (
    <>
      {sizesWords(measured, unit)}
      {plusMinusMm > 0 && <span className="plus-minus"> {formatPlusMinus(plusMinusMm, { unit })}</span>}
    </>
  );
};

/** The obstacles of a way in, kerb first, bar last: to open, edit in place, and put in another order. */
export const ObstacleList = (props: {
  readonly wayIn: MeasuredWayIn;
  readonly unit: DisplayUnit;
  readonly canPick: boolean;
  readonly openId: ObstacleId | null;
  readonly onOpen: (id: ObstacleId | null) => void;
  readonly onChange: (obstacle: DrawnObstacle) => void;
  readonly onMove: (id: ObstacleId, toIndex: number) => void;
  readonly onRemove: (id: ObstacleId) => void;
  readonly onPick: (obstacle: MeasuredObstacle, name: SizeName) => void;
}) => {
  const { measured } = props.wayIn;
  const [dragged, setDragged] = useState<ObstacleId | null>(null);
  const [over, setOver] = useState<number | null>(null);
  const list = useRef<HTMLOListElement>(null);
  const moveBy = (id: ObstacleId, from: number, by: 1 | -1) => {
    const to = from + by;
    if (to < 0 || to >= measured.length) return;
    props.onMove(id, to);
    // The button that moved keeps the focus: its line comes along.
    requestAnimationFrame(() => list.current?.querySelector<HTMLElement>(`[data-obstacle="${id}"]`)?.focus());
  };
  return (
    <>
      <p className="way-end">Kerb</p>
      <ol className="lines way-list" ref={list}>
        {measured.map((obstacle, index) => {
          const { id, confirmOnSite } = obstacle.drawn;
          const isOpen = props.openId === id;
          const classes = [isOpen ? 'is-open' : '', over === index && dragged ? 'is-over' : '']
            .join(' ')
            .trim();
          return (
            <li
              key={id}
              className={classes || undefined}
              onDragOver={(event) => {
                if (!dragged) return;
                event.preventDefault();
                setOver(index);
              }}
              onDrop={(event) => {
                event.preventDefault();
                if (dragged && dragged !== id) props.onMove(dragged, index);
                setDragged(null);
                setOver(null);
              }}
            >
              <button
                type="button"
                className="pick-name way-name"
                data-obstacle={id}
                draggable={true}
                aria-expanded={isOpen}
                aria-keyshortcuts="Alt+ArrowUp Alt+ArrowDown"
                title={`${obstacle.name}: drag, or Alt with an arrow key, puts it earlier or later on the way`}
                onClick={() => props.onOpen(isOpen ? null : id)}
                onDragStart={(event) => {
                  event.dataTransfer.effectAllowed = 'move';
                  event.dataTransfer.setData('text/plain', obstacle.name);
                  setDragged(id);
                }}
                onDragEnd={() => {
                  setDragged(null);
                  setOver(null);
                }}
                onKeyDown={(event) => {
                  if (!event.altKey || (event.key !== 'ArrowUp' && event.key !== 'ArrowDown')) return;
                  event.preventDefault();
                  moveBy(id, index, event.key === 'ArrowUp' ? -1 : 1);
                }}
              >
                <span className="quiet">{index + 1}</span> {obstacle.name}
              </button>
              <span className="line-note length">
                <SizesLine measured={obstacle} unit={props.unit} />
                {confirmOnSite && !obstacle.fault && ', confirm on site'}
              </span>
              {obstacle.fault && <span className="line-note alert">{obstacle.fault}</span>}
              {isOpen && (
                <ObstacleForm
                  measured={obstacle}
                  unit={props.unit}
                  canPick={props.canPick}
                  isFirst={index === 0}
                  isLast={index === measured.length - 1}
                  onChange={props.onChange}
                  onPick={(name) => props.onPick(obstacle, name)}
                  onMove={(by) => moveBy(id, index, by)}
                  onRemove={() => props.onRemove(id)}
                />
              )}
            </li>
          );
        })}
      </ol>
      <p className="way-end">Bar</p>
    </>
  );
};
