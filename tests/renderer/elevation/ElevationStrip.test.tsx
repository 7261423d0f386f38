// @vitest-environment happy-dom
import { act, useState } from 'react';
import { createRoot, type Root } from 'react-dom/client';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ElevationStrip } from '../../../renderer/elevation/ElevationStrip.tsx';
import type { PartName } from '../../../src/issue/fitOnPlan.ts';
import { demoFrontBar, drawScene } from '../../issue/elevation/elevationScenes.ts';

(globalThis as { IS_REACT_ACT_ENVIRONMENT?: boolean }).IS_REACT_ACT_ENVIRONMENT = true;

const { drawing } = drawScene(demoFrontBar);
let root: Root;
let lit: PartName | null;
let selected: PartName[];

const Held = (props: { readonly isEmpty?: boolean }) => {
  const [highlighted, setHighlighted] = useState<PartName | null>(null);
  lit = highlighted;
  return (
    <ElevationStrip
      drawing={props.isEmpty ? null : drawing}
      highlighted={highlighted}
      onHighlight={setHighlighted}
      onSelectPart={(part) => selected.push(part)}
    />
  );
};

const show = (element = <Held />): void => act(() => root.render(element));
const target = (part: string): Element => document.querySelector(`[data-part="${part}"]`)!;
const press = (element: Element, key: string): void =>
  act(() => {
    element.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
  });
const shownWidth = (): number => Number(document.querySelector('.elevation-drawing')!.getAttribute('width'));

beforeEach(() => {
  document.body.innerHTML = '<div id="root"></div>';
  root = createRoot(document.getElementById('root')!);
  selected = [];
});
afterEach(() => act(() => root.unmount()));

describe('the strip under the sheet', () => {
  it('says what will stand there while no run is selected', () => {
    show(<Held isEmpty />);
    expect(document.body.textContent).toContain('Select a run');
    expect(document.querySelector('svg')).toBeNull();
  });

  it('names the run, the side it is seen from and both ends', () => {
    show();
    const text = document.body.textContent ?? '';
    for (const words of ['1 Front bar', 'seen from the working side', 'Start: wall', 'End: exposed'])
      expect(text).toContain(words);
  });

  it('offers every part by its mark, name and width, one of them in the tab order', () => {
    show();
    const buttons = [...document.querySelectorAll('[role="button"]')];
    expect(buttons).toHaveLength(drawing.parts.length);
    expect(buttons.map((button) => button.getAttribute('aria-label'))).toEqual(
      drawing.parts.map(({ label }) => label),
    );
    expect(buttons.filter((button) => button.getAttribute('tabindex') === '0')).toHaveLength(1);
  });

  it('lights up the part under the pointer and selects it on a click', () => {
    show();
    act(() => {
      target('piece:0').dispatchEvent(new PointerEvent('pointerover', { bubbles: true }));
    });
    expect(lit).toBe('piece:0');
    expect(document.querySelector('.part-outline')).not.toBeNull();
    act(() => {
      target('piece:0').dispatchEvent(new MouseEvent('click', { bubbles: true }));
    });
    expect(selected).toEqual(['piece:0']);
  });

  it('walks from part to part with the arrow keys and selects with Enter', () => {
    show();
    const [first, second] = drawing.parts;
    act(() => (target(first!.part) as SVGElement).focus());
    expect(lit).toBe(first!.part);
    press(target(first!.part), 'ArrowRight');
    expect(lit).toBe(second!.part);
    press(target(second!.part), 'Enter');
    expect(selected).toEqual([second!.part]);
    press(target(second!.part), 'End');
    expect(lit).toBe(drawing.parts.at(-1)!.part);
    press(target(drawing.parts.at(-1)!.part), 'Home');
    expect(lit).toBe(first!.part);
  });

  it('grows and shrinks with plus and minus, and 0 brings the whole height back', () => {
    show();
    const first = target(drawing.parts[0]!.part);
    const whole = shownWidth();
    press(first, '+');
    const larger = shownWidth();
    expect(larger).toBeGreaterThan(whole * 1.1);
    press(first, '-');
    press(first, '-');
    expect(shownWidth()).toBeLessThan(whole);
    press(first, '0');
    expect(shownWidth()).toBeCloseTo(whole, 6);
  });

  it('keeps lettering at one size while the drawing grows', () => {
    show();
    const sizes = () =>
      new Set(
        [...document.querySelectorAll('.elevation-drawing text')].map((text) =>
          text.getAttribute('font-size'),
        ),
      );
    const before = sizes();
    press(target(drawing.parts[0]!.part), '+');
    expect(sizes()).toEqual(before);
    expect(before.size).toBe(1);
  });
});
