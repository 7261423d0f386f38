import { type KeyboardEvent, useRef, useState } from 'react';
import type { DrawnPart } from '../../src/issue/drawing/drawing.ts';
import type { PartName } from '../../src/issue/fitOnPlan.ts';

/**
 * What can be pointed at in the elevation, each part under its own name. One of them is in the tab order; the arrow keys
 * go from part to part, Enter or the space bar selects; plus, minus and 0 change the size.
 */
export const PartTargets = (props: {
  readonly parts: readonly DrawnPart<PartName>[];
  readonly highlighted: PartName | null;
  readonly onHighlight: (part: PartName | null) => void;
  readonly onSelectPart: (part: PartName) => void;
  /** Larger by a step (1), smaller (-1), or back to the whole height (0). */
  readonly onZoom: (steps: number) => void;
}) => {
  const { parts } = props;
  const group = useRef<SVGGElement>(null);
  const [visited, setVisited] = useState<PartName | null>(null);
  const current = parts.some(({ part }) => part === visited) ? visited : parts[0]?.part;

  const onKeyDown = (event: KeyboardEvent<SVGGElement>): void => {
    const at = parts.findIndex(({ part }) => part === current);
    const goals: Readonly<Record<string, number>> = {
      ArrowLeft: at - 1,
      ArrowRight: at + 1,
      Home: 0,
      End: parts.length - 1,
    };
    if ((event.key === 'Enter' || event.key === ' ') && current) {
      event.preventDefault();
      props.onSelectPart(current);
      return;
    }
    const zoom = ({ '+': 1, '=': 1, '-': -1, '0': 0 } as Readonly<Record<string, number>>)[event.key];
    if (zoom !== undefined && !event.ctrlKey && !event.metaKey && !event.altKey) {
      event.preventDefault();
      props.onZoom(zoom);
      return;
    }
    const goal = goals[event.key];
    const next = goal === undefined ? undefined : parts[Math.min(parts.length - 1, Math.max(0, goal))];
    if (!next) return;
    event.preventDefault();
    const target = group.current?.querySelector<SVGElement>(`[data-part="${next.part}"]`);
    target?.focus();
    target?.scrollIntoView?.({ block: 'nearest', inline: 'nearest' });
  };

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the keys move between the buttons inside
    <g ref={group} onKeyDown={onKeyDown} onPointerLeave={() => props.onHighlight(null)}>
      {parts.map(({ part, label, box }) => (
        // biome-ignore lint/a11y/useSemanticElements: SVG has no button element
        <rect
          key={part}
          className="part-target"
          role="button"
          aria-label={label}
          aria-pressed={part === props.highlighted}
          tabIndex={part === current ? 0 : -1}
          data-part={part}
          x={box.left}
          y={-box.top}
          width={box.right - box.left}
          height={box.top - box.bottom}
          onPointerEnter={() => props.onHighlight(part)}
          onFocus={() => {
            setVisited(part);
            props.onHighlight(part);
          }}
          onBlur={() => props.onHighlight(null)}
          onClick={() => props.onSelectPart(part)}
        >
          <title>{label}</title>
        </rect>
      ))}
    </g>
  );
};
