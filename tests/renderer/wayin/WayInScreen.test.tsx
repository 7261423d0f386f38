// @vitest-environment happy-dom
import { act } from 'react';
import { createRoot, type Root } from 'react-dom/client';
import { afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { newObstacle, withPreset } from '../../../renderer/wayin/newObstacle.ts';
import { ObstacleList } from '../../../renderer/wayin/ObstacleList.tsx';
import { type Cell, PiecesByObstacles } from '../../../renderer/wayin/PiecesByObstacles.tsx';
import { accessSentence, shortAccessWords } from '../../../renderer/wayin/wayInWords.ts';
import { liftPresets } from '../../../src/access/liftPresets.ts';
import { obstacleSchema } from '../../../src/access/wayInSchema.ts';
import type { ObstacleId } from '../../../src/document/ids.ts';
import { obstacleKinds } from '../../../src/document/obstacleKinds.ts';
import type { ProjectDocument } from '../../../src/document/projectDocument.ts';
import { drawnObstacleSchema } from '../../../src/document/wayInRecords.ts';
import { fitRun } from '../../../src/fitting/fitRun.ts';
import { poseProblem } from '../../../src/fitting/poseProblem.ts';
import { type ProjectAccess, projectAccess } from '../../../src/quote/projectAccess.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { demoProject } from '../../access/demoProject.ts';

(globalThis as { IS_REACT_ACT_ENVIRONMENT?: boolean }).IS_REACT_ACT_ENVIRONMENT = true;

let demo: ProjectDocument;
let access: ProjectAccess;
let root: Root;

beforeAll(async () => {
  demo = await demoProject();
  access = projectAccess(demo, demoRange, (runId) => {
    const posed = poseProblem(demo, runId, demoRange);
    return posed.ok
      ? (fitRun(posed.problem, { alternatives: 1, order: posed.order }).alternatives[0] ?? null)
      : null;
  })!;
});
beforeEach(() => {
  document.body.innerHTML = '<div id="root"></div>';
  root = createRoot(document.getElementById('root')!);
});
afterEach(() => act(() => root.unmount()));

const press = (element: Element, init: KeyboardEventInit) =>
  act(() => {
    element.dispatchEvent(new KeyboardEvent('keydown', { bubbles: true, cancelable: true, ...init }));
  });

describe('the list of obstacles', () => {
  it('goes from kerb to bar, and Alt with an arrow key puts an obstacle earlier or later', () => {
    const moves: [ObstacleId, number][] = [];
    act(() =>
      root.render(
        <ObstacleList
          wayIn={access.wayIn}
          unit="mm"
          canPick={true}
          openId={null}
          onOpen={() => undefined}
          onChange={() => undefined}
          onMove={(id, to) => moves.push([id, to])}
          onRemove={() => undefined}
          onPick={() => undefined}
        />,
      ),
    );
    const names = [...document.querySelectorAll('.way-name')];
    expect(names.map(({ textContent }) => textContent)).toEqual([
      '1 Yard door D08',
      '2 Cellar turn',
      '3 Store door D06',
      '4 Kitchen door D04',
    ]);
    press(names[1]!, { key: 'ArrowUp', altKey: true });
    press(names[1]!, { key: 'ArrowDown', altKey: true });
    press(names[0]!, { key: 'ArrowUp', altKey: true });
    press(names[1]!, { key: 'ArrowDown' });
    const { id } = access.wayIn.measured[1]!.drawn;
    expect(moves).toEqual([
      [id, 0],
      [id, 2],
    ]);
  });

  it('starts every kind with sizes that the document and the access contract take, to be confirmed on site', () => {
    for (const kind of obstacleKinds) {
      const obstacle = newObstacle(kind, 'obstacle-1' as ObstacleId);
      expect(drawnObstacleSchema.safeParse(obstacle).success, kind).toBe(true);
      const sizes = Object.fromEntries(
        Object.entries(obstacle.sizes).map(([name, size]) => [
          name,
          size.from === 'typed' ? size.lengthMm : 0,
        ]),
      );
      expect(obstacleSchema.safeParse({ kind, ...sizes, ...obstacle.figures }).success, kind).toBe(true);
      expect(obstacle.confirmOnSite).toBe(true);
    }
    const lift = withPreset(newObstacle('lift', 'obstacle-1' as ObstacleId), liftPresets[4]!);
    expect(lift.sizes.carWidthMm).toEqual({ from: 'typed', lengthMm: 2_000 });
    expect(drawnObstacleSchema.safeParse(lift).success).toBe(true);
  });
});

describe('the table of pieces by obstacles', () => {
  it('tells every cell in words, and the arrow keys walk over the cells', () => {
    const shown: Cell[] = [];
    act(() =>
      root.render(
        <PiecesByObstacles
          wayIn={access.wayIn}
          groups={access.groups}
          unit="mm"
          shown={null}
          onShow={(cell) => shown.push(cell)}
        />,
      ),
    );
    const cells = document.querySelectorAll('.way-cell');
    expect(cells).toHaveLength(access.groups.length * 4);
    const stopped = [...document.querySelectorAll('.way-cell.is-stops button')];
    expect(stopped).toHaveLength(1);
    expect(stopped[0]!.textContent).toMatch(
      /^−180 2\.01 Module 2400.* does not pass Cellar turn: 180\smm too large even at best, upright, swung round\.$/,
    );
    const first = document.querySelector<HTMLElement>('[data-cell="0.0"]')!;
    act(() => first.focus());
    press(first, { key: 'ArrowRight' });
    press(document.activeElement!, { key: 'ArrowDown' });
    expect(document.activeElement?.getAttribute('data-cell')).toBe('1.1');
    expect(shown.at(-1)).toEqual({ group: 1, obstacle: 1 });
    // Only one cell is a stop of the Tab key.
    expect(document.querySelectorAll('.way-cell button[tabindex="0"]')).toHaveLength(1);
  });
});

describe('the answer in words', () => {
  it('counts what is stopped, and says so when an obstacle cannot be judged', () => {
    expect(shortAccessWords(null)).toBe('not described');
    expect(shortAccessWords(access)).toBe('1 piece stopped');
    expect(accessSentence(access)).toBe('1 of 12 pieces does not pass whole.');
    const faulty = {
      ...access,
      wayIn: {
        ...access.wayIn,
        measured: access.wayIn.measured.map((one, index) =>
          index === 0 ? { ...one, fault: 'no scale' } : one,
        ),
      },
    };
    expect(shortAccessWords(faulty)).toBe('cannot be judged yet');
  });
});
