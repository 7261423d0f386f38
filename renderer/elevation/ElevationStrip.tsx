import './ElevationStrip.css';
import { useId, useRef } from 'react';
import type { Drawing } from '../../src/issue/drawing/drawing.ts';
import type { PartName } from '../../src/issue/fitOnPlan.ts';
import { DrawingShapes } from './DrawingShapes.tsx';
import { DrawingTexts } from './DrawingTexts.tsx';
import { HatchPatterns } from './HatchPatterns.tsx';
import { PartTargets } from './PartTargets.tsx';
import { pxPerPaperMm } from './pxPerPaperMm.ts';
import { useElevationView } from './useElevationView.ts';
import { usePanning } from './usePanning.ts';
import { useReveal } from './useReveal.ts';
import { useSize } from './useSize.ts';

interface ElevationStripProps {
  /** Null while no run is selected, or the selected one can't be drawn yet. */
  readonly drawing: Drawing<PartName> | null;
  readonly highlighted: PartName | null;
  readonly onHighlight: (part: PartName | null) => void;
  readonly onSelectPart: (part: PartName) => void;
  /** Said in place of the drawing while there is none. */
  readonly emptyText?: string;
}

/** The developed elevation under the sheet: the selected run as it will stand, tied to the plan by its parts. */
export const ElevationStrip = (props: ElevationStripProps) => (
  <section className="elevation" aria-label="Developed elevation">
    {props.drawing ? (
      // Another run starts at its whole height; the same run keeps its size while it is changed.
      <Elevation key={props.drawing.title} {...props} drawing={props.drawing} />
    ) : (
      <p className="elevation-empty">
        {props.emptyText ??
          'Select a run, and it stands here as it will be built, seen from the working side.'}
      </p>
    )}
  </section>
);

const Elevation = (props: ElevationStripProps & { readonly drawing: Drawing<PartName> }) => {
  const { drawing } = props;
  const scroller = useRef<HTMLDivElement>(null);
  const size = useSize(scroller);
  const view = useElevationView(drawing, size, scroller);
  const panning = usePanning(scroller, view.zoomBy);
  useReveal(scroller, view.settled, props.highlighted);
  const prefix = `hatch-${useId().replace(/[^a-zA-Z0-9]/g, '')}`;
  const { bounds, levels, shapes, rulings, texts, parts } = view.settled;
  const high = bounds.top - bounds.bottom;
  const gutterMm = levels.widthMm;
  const spareMm = Math.max(0, size.heightPx / pxPerPaperMm - high);
  const top = bounds.top + spareMm / 2;
  const heightMm = high + spareMm;
  const lit = parts.find(({ part }) => part === props.highlighted);
  const widthMm = bounds.right - bounds.left;
  return (
    <>
      <header className="elevation-head">
        <p>
          <span className="elevation-title">{drawing.title}</span>
          <span>{drawing.caption}</span>
        </p>
        <span className="elevation-acts">
          <button type="button" className="word-button" onClick={() => view.zoomBy(1, size.widthPx / 2)}>
            Closer
          </button>
          <button type="button" className="word-button" onClick={() => view.zoomBy(-1, size.widthPx / 2)}>
            Farther
          </button>
          <button type="button" className="word-button" onClick={view.showWholeRun}>
            Whole run
          </button>
          <button type="button" className="word-button" onClick={view.showWholeHeight}>
            Whole height
          </button>
        </span>
      </header>
      <div
        className="elevation-scroller"
        ref={scroller}
        style={{ scrollPaddingInlineStart: gutterMm * pxPerPaperMm }}
        {...panning}
      >
        <div className="elevation-sheet">
          <svg
            className="elevation-levels"
            aria-hidden="true"
            width={gutterMm * pxPerPaperMm}
            height={heightMm * pxPerPaperMm}
            viewBox={`${-gutterMm} ${-top} ${gutterMm} ${heightMm}`}
          >
            <title>Heights above the floor</title>
            <DrawingShapes shapes={levels.rulings} hatchPrefix={prefix} />
            <DrawingTexts texts={levels.texts} />
          </svg>
          {/* biome-ignore lint/a11y/useSemanticElements: a fieldset can't hold the drawing's parts inside an SVG */}
          <svg
            className="elevation-drawing"
            role="group"
            aria-label={`${drawing.title}, ${drawing.caption}`}
            width={widthMm * pxPerPaperMm}
            height={heightMm * pxPerPaperMm}
            viewBox={`${bounds.left} ${-top} ${widthMm} ${heightMm}`}
          >
            <HatchPatterns prefix={prefix} />
            <DrawingShapes shapes={shapes} hatchPrefix={prefix} lineShare={view.settled.lineShare} />
            <DrawingShapes shapes={rulings} hatchPrefix={prefix} />
            <DrawingTexts texts={texts} />
            {lit && (
              <rect
                className="part-outline"
                x={lit.box.left}
                y={-lit.box.top}
                width={lit.box.right - lit.box.left}
                height={lit.box.top - lit.box.bottom}
              />
            )}
            <PartTargets
              parts={parts}
              highlighted={props.highlighted}
              onHighlight={props.onHighlight}
              onSelectPart={props.onSelectPart}
              onZoom={(steps) =>
                steps === 0 ? view.showWholeHeight() : view.zoomBy(steps, size.widthPx / 2)
              }
            />
          </svg>
        </div>
      </div>
    </>
  );
};
