import { useState } from 'react';
import { liftPresets } from '../../src/access/liftPresets.ts';
import { sizeWords } from '../../src/access/sizeWords.ts';
import type { MeasuredObstacle } from '../../src/access/wayInOfProject.ts';
import { obstacleWords } from '../../src/access/wayInOfProject.ts';
import { type FigureName, obstacleDescription, type SizeName } from '../../src/document/obstacleKinds.ts';
import type { DrawnObstacle } from '../../src/document/wayInRecords.ts';
import { type DisplayUnit, formatPlusMinus } from '../../src/units/formatLength.ts';
import { LengthField } from '../rail/LengthField.tsx';
import { FigureField } from './FigureField.tsx';
import { withPreset } from './newObstacle.ts';
import { figureWords, isOnPlan, sizeLabels } from './wayInWords.ts';

/** To a tenth of a millimetre, as a field shows it. */
const tenth = (mm: number): number => Math.round(mm * 10) / 10;

const NameOfObstacle = (props: {
  readonly obstacle: DrawnObstacle;
  readonly onChange: (name: string) => void;
}) => {
  const [text, setText] = useState<string | null>(null);
  const take = () => {
    if (text !== null && text.trim() !== props.obstacle.name) props.onChange(text.trim());
    setText(null);
  };
  return (
    <label className="field is-wide">
      <span>Name</span>
      <input
        value={text ?? props.obstacle.name}
        placeholder={obstacleWords[props.obstacle.kind]}
        maxLength={120}
        onChange={(event) => setText(event.target.value)}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === 'Enter') take();
          if (event.key === 'Escape') setText(null);
        }}
      />
    </label>
  );
};

/** One size: typed, or picked on the plan with its +/-. */
const SizeEntry = (props: {
  readonly measured: MeasuredObstacle;
  readonly name: SizeName;
  readonly isNeeded: boolean;
  readonly unit: DisplayUnit;
  readonly canPick: boolean;
  readonly onSize: (name: SizeName, lengthMm: number | null) => void;
  readonly onPick: (name: SizeName) => void;
}) => {
  const { measured, name, unit } = props;
  const size = measured.sizes[name];
  const isPicked = measured.drawn.sizes[name]?.from === 'sheet';
  const isAllowance = name === 'leafMm' || name === 'thresholdMm' || name === 'wallMm' || name === 'wellMm';
  return (
    <div className="way-size">
      <LengthField
        label={sizeLabels[name]}
        lengthMm={size ? tenth(size.lengthMm) : null}
        unit={unit}
        leastMm={isAllowance ? 0 : 1}
        mostMm={100_000}
        {...(props.isNeeded ? {} : { emptyWords: 'not given' })}
        onChange={(mm) => props.onSize(name, mm)}
      />
      {isOnPlan(name) && (
        <span className="way-size-note">
          {isPicked && size && (
            <span className="quiet">picked, {formatPlusMinus(size.plusMinusMm, { unit })} </span>
          )}
          <button
            type="button"
            className="word-button"
            disabled={!props.canPick}
            onClick={() => props.onPick(name)}
          >
            {isPicked ? 'Pick again' : 'Pick on the plan'}
            <span className="visually-hidden"> {sizeWords[name]}</span>
          </button>
        </span>
      )}
    </div>
  );
};

/** Everything of one obstacle, to read and to change in place. */
export const ObstacleForm = (props: {
  readonly measured: MeasuredObstacle;
  readonly unit: DisplayUnit;
  readonly canPick: boolean;
  readonly isFirst: boolean;
  readonly isLast: boolean;
  readonly onChange: (obstacle: DrawnObstacle) => void;
  readonly onPick: (name: SizeName) => void;
  readonly onMove: (by: 1 | -1) => void;
  readonly onRemove: () => void;
}) => {
  const { measured, unit } = props;
  const { drawn } = measured;
  const description = obstacleDescription[drawn.kind];
  const changeSize = (name: SizeName, lengthMm: number | null) => {
    const { [name]: _, ...rest } = drawn.sizes;
    props.onChange({
      ...drawn,
      sizes: lengthMm === null ? rest : { ...rest, [name]: { from: 'typed', lengthMm } },
    });
  };
  const changeFigure = (name: FigureName, value: number | null) => {
    const { [name]: _, ...rest } = drawn.figures;
    props.onChange({ ...drawn, figures: value === null ? rest : { ...rest, [name]: value } });
  };
  return (
    <div className="way-form">
      <NameOfObstacle obstacle={drawn} onChange={(name) => props.onChange({ ...drawn, name })} />
      {drawn.kind === 'lift' && (
        <label className="field is-wide">
          <span>Start from a usual lift</span>
          <select
            value=""
            onChange={(event) => {
              const preset = liftPresets.find(({ name }) => name === event.target.value);
              if (preset) props.onChange(withPreset(drawn, preset));
            }}
          >
            <option value="">choose …</option>
            {liftPresets.map(({ name, carWidthMm, carDepthMm, ratedKg }) => (
              <option key={name} value={name}>
                {name}: {carWidthMm} × {carDepthMm}, {ratedKg} kg; confirm on site
              </option>
            ))}
          </select>
        </label>
      )}
      {[...description.needed, ...description.mayHave].map((name) => (
        <SizeEntry
          key={name}
          measured={measured}
          name={name}
          isNeeded={description.needed.includes(name)}
          unit={unit}
          canPick={props.canPick}
          onSize={changeSize}
          onPick={props.onPick}
        />
      ))}
      {[...description.neededFigures, ...description.mayHaveFigures].map((name) =>
        name === 'landingTurnDeg' ? (
          <label key={name} className="field">
            <span>{figureWords[name].label}</span>
            <select
              value={String(drawn.figures[name] ?? 90)}
              onChange={(event) => changeFigure(name, Number(event.target.value))}
            >
              <option value="0">straight on</option>
              <option value="90">turn 90°</option>
              <option value="180">turn 180°</option>
            </select>
          </label>
        ) : (
          <FigureField
            key={name}
            label={figureWords[name].label}
            value={drawn.figures[name] ?? null}
            emptyWords={figureWords[name].emptyWords}
            onChange={(value) => changeFigure(name, value)}
          />
        ),
      )}
      <LengthField
        label="± of what is typed"
        lengthMm={drawn.typedPlusMinusMm}
        unit={unit}
        mostMm={10_000}
        onChange={(mm) => props.onChange({ ...drawn, typedPlusMinusMm: mm ?? 0 })}
      />
      <label className="way-check">
        <input
          type="checkbox"
          checked={drawn.confirmOnSite}
          onChange={(event) => props.onChange({ ...drawn, confirmOnSite: event.target.checked })}
        />{' '}
        Still to be confirmed on site
      </label>
      <div className="acts">
        <button
          type="button"
          className="word-button"
          disabled={props.isFirst}
          onClick={() => props.onMove(-1)}
        >
          Earlier
        </button>
        <button type="button" className="word-button" disabled={props.isLast} onClick={() => props.onMove(1)}>
          Later
        </button>
        <button type="button" className="word-button" onClick={props.onRemove}>
          Remove
        </button>
      </div>
    </div>
  );
};
