import './WayInStep.css';
import { useState } from 'react';
import { ACCESS_CAUTION_TEXTS, ACCESS_CAUTIONS } from '../../src/access/accessCautions.ts';
import { sizeWords } from '../../src/access/sizeWords.ts';
import { type MeasuredObstacle, obstacleWords } from '../../src/access/wayInOfProject.ts';
import type { Command } from '../../src/document/command.ts';
import type { ObstacleId, WayInId } from '../../src/document/ids.ts';
import { type DrawnObstacleKind, obstacleKinds, type SizeName } from '../../src/document/obstacleKinds.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { loosePartWords } from '../../src/quote/loosePartWords.ts';
import type { ProjectAccess } from '../../src/quote/projectAccess.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import { type DisplayUnit, formatLength } from '../../src/units/formatLength.ts';
import { freshId } from '../project/freshId.ts';
import type { RunningTool } from '../tools/useTool.ts';
import { widthTool } from '../tools/widthTool.ts';
import { LimitOfFit } from './LimitOfFit.tsx';
import { newObstacle } from './newObstacle.ts';
import { ObstacleList } from './ObstacleList.tsx';
import { WayInChoice } from './WayInChoice.tsx';
import { accessSentence, remedyWords } from './wayInWords.ts';

const toolWords = (obstacle: MeasuredObstacle, name: SizeName): string =>
  `the ${sizeWords[name].toLowerCase()} of ${obstacle.name}`;

/** The pieces that do not simply pass: how many, what stops them, what is done. */
const Stopped = (props: { readonly access: ProjectAccess; readonly unit: DisplayUnit }) => {
  const groups = props.access.groups.filter(({ verdict }) => verdict !== 'passes');
  const { notJudged } = props.access;
  const loose = props.access.loose.filter(({ passes, sure }) => !passes || !sure);
  if (groups.length === 0 && loose.length === 0 && notJudged.length === 0) return null;
  return (
    <ul className="lines">
      {groups.map((group) => (
        <li key={group.marks.join()}>
          <span className="line-name" title={group.piece.name}>
            <b>{group.marks.join(', ')}</b> {group.piece.name}
          </span>
          <span className="line-note alert">{remedyWords(group, props.unit)}</span>
        </li>
      ))}
      {loose.map((part) => (
        <li key={part.what}>
          <span className="line-name" title={part.what}>
            {part.what}
          </span>
          <span className="line-note alert">
            {loosePartWords(part, (mm) => formatLength(mm, { unit: props.unit }))}
          </span>
        </li>
      ))}
      {notJudged.length > 0 && (
        <li>
          <span className="line-note">
            {notJudged.join(', ')}: the size is not known, so this is not judged.
          </span>
        </li>
      )}
    </ul>
  );
};

/** Cautions of the answer: those that always go with it, and those of its pieces. */
const Cautions = (props: { readonly access: ProjectAccess }) => {
  const codes = new Set(props.access.groups.flatMap(({ answer }) => answer.cautions));
  const [lead, ...more] = ACCESS_CAUTIONS;
  return (
    <div className="caution">
      <p>{lead}</p>
      {[...codes].map((code) => (
        <p key={code}>{ACCESS_CAUTION_TEXTS[code]}</p>
      ))}
      <details>
        <summary>More cautions, and the sources</summary>
        {more.map((caution) => (
          <p key={caution}>{caution}</p>
        ))}
      </details>
    </div>
  );
};

/** The way in: its obstacles in order, whether every piece passes, and the limit that the fit takes from it. */
export const WayInStep = (props: {
  readonly document: ProjectDocument;
  readonly range: StockRange | null;
  readonly access: ProjectAccess | null;
  readonly unit: DisplayUnit;
  readonly canPick: boolean;
  readonly onCommand: (command: Command) => void;
  readonly onTool: RunningTool['take'];
}) => {
  const { document, access, unit, onCommand } = props;
  const [openId, setOpenId] = useState<ObstacleId | null>(null);
  const wayInId = document.chosenWayInId;
  const toConfirm = access?.wayIn.measured.filter(({ drawn }) => drawn.confirmOnSite).length ?? 0;

  const add = (kind: DrawnObstacleKind) => {
    const id = `obstacle-${freshId()}` as ObstacleId;
    const obstacle = newObstacle(kind, id);
    if (wayInId) {
      const index = document.waysIn[wayInId]?.obstacles.length ?? 0;
      onCommand({ type: 'add-obstacle', wayInId, index, obstacle });
    } else
      onCommand({
        type: 'add-way-in',
        wayIn: { id: `way-in-${freshId()}` as WayInId, name: 'Way in', obstacles: [obstacle] },
      });
    setOpenId(id);
  };

  return (
    <>
      {!access && (
        <p className="step-lead">
          Describe the way from the kerb to the bar, and every piece is tried on it before it is ordered. Add
          what the pieces meet, in order.
        </p>
      )}
      {access && wayInId && <WayInChoice document={document} onCommand={onCommand} />}
      {access && wayInId && (
        <ObstacleList
          wayIn={access.wayIn}
          unit={unit}
          canPick={props.canPick}
          openId={openId}
          onOpen={setOpenId}
          onChange={(obstacle) => onCommand({ type: 'change-obstacle', wayInId, obstacle })}
          onMove={(obstacleId, toIndex) => onCommand({ type: 'move-obstacle', wayInId, obstacleId, toIndex })}
          onRemove={(obstacleId) => onCommand({ type: 'remove-obstacle', wayInId, obstacleId })}
          onPick={(obstacle, sizeName) =>
            props.onTool(
              widthTool({
                wayInId,
                obstacleId: obstacle.drawn.id,
                sizeName,
                words: toolWords(obstacle, sizeName),
              }),
            )
          }
        />
      )}
      <label className="field">
        <span>Add to the way</span>
        <select
          value=""
          onChange={(event) => {
            const kind = obstacleKinds.find((one) => one === event.target.value);
            if (kind) add(kind);
          }}
        >
          <option value="">an obstacle …</option>
          {obstacleKinds.map((kind) => (
            <option key={kind} value={kind}>
              {obstacleWords[kind]}
            </option>
          ))}
        </select>
      </label>
      {access && access.wayIn.measured.length > 0 && (
        <>
          <p role="status">{accessSentence(access)}</p>
          {toConfirm > 0 && (
            <p className="step-lead">
              {toConfirm === 1 ? 'One obstacle is' : `${toConfirm} obstacles are`} still to be confirmed on
              site.
            </p>
          )}
          <Stopped access={access} unit={unit} />
          {props.range && (
            <LimitOfFit
              document={document}
              range={props.range}
              access={access}
              unit={unit}
              onCommand={onCommand}
            />
          )}
          <Cautions access={access} />
        </>
      )}
    </>
  );
};
