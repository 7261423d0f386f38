import { useCallback, useDeferredValue, useEffect, useMemo, useRef, useState } from 'react';
import { differenceWords, stockDifference } from '../../src/stock/stockDifference.ts';
import { type DraftFault, type DraftRow, readDraft } from '../../src/stock/stockDraft.ts';
import type { StockRange } from '../../src/stock/stockSchema.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import { type ApiClient, CallRefused } from '../api/apiClient.ts';
import { wordsFor } from '../shell/wordsFor.ts';
import { CsvPanel } from './CsvPanel.tsx';
import { faultsByPlace } from './faultsByPlace.ts';
import { PieceTable } from './PieceTable.tsx';
import { groupOf } from './pieceWords.ts';
import { RangeHead } from './RangeHead.tsx';
import { RulesForm } from './RulesForm.tsx';
import type { StockShelf } from './stockShelf.ts';
import { useOpenDraft } from './useOpenDraft.ts';

const freshCells = {
  module: { name: 'New module', kind: 'module', widthMm: '600', support: 'standing', id: 'module' },
  station: { name: 'New station', kind: 'station', widthMm: '600', support: 'carried', id: 'station' },
  'corner-unit': { name: 'New corner unit', widthMm: '700', id: 'corner' },
} as const;

const groups = ['module', 'station', 'corner-unit'] as const;

/** Where a fault is, as the element that can be typed in. */
const elementOf = (within: HTMLElement, { place }: DraftFault): HTMLElement | null => {
  if (place.in === 'head') return within.querySelector(`[data-head="${place.field}"] input`);
  if (place.in === 'rule') return within.querySelector(`[data-rule="${place.path}"] input`);
  const row = within.querySelector(`tr[data-row="${CSS.escape(place.key)}"]`);
  const more = row?.parentElement?.querySelector(`tr[data-row="${CSS.escape(place.key)}"] ~ .piece-more`);
  return (
    row?.querySelector<HTMLElement>(`[data-column="${place.column}"]`) ??
    more?.querySelector<HTMLElement>(`[data-column="${place.column}"]`) ??
    row?.querySelector<HTMLElement>('.services') ??
    null
  );
};

/** One range, opened from one of its versions: all of it typed in place, saved as the next version. */
export const RangeEditor = (props: {
  readonly api: ApiClient;
  readonly shelf: StockShelf;
  readonly draftKey: string;
  readonly base: StockRange;
  /** The newest version in the archive; 0 for a copy that is not saved yet. */
  readonly latest: number;
  readonly unit: DisplayUnit;
  readonly onSaved: (range: StockRange) => void;
  readonly onCopy: (range: StockRange) => void;
}) => {
  const { base, latest, unit, shelf } = props;
  const isNew = latest === 0;
  const { open, acts } = useOpenDraft(shelf, props.draftKey, base);
  const { draft } = open;
  const [search, setSearch] = useState('');
  const sought = useDeferredValue(search.trim().toLowerCase());
  const [openRow, setOpenRow] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [isSaving, setIsSaving] = useState(false);
  const within = useRef<HTMLDivElement>(null);

  const reading = useMemo(() => readDraft(draft, Math.max(1, latest + 1)), [draft, latest]);
  const faults = useMemo(() => faultsByPlace(reading.ok ? [] : reading.faults), [reading]);
  const current = reading.ok ? reading.range : null;
  const difference = useMemo(() => current && stockDifference(base, current), [base, current]);
  const changes = difference ? differenceWords(difference) : '';
  const hasChanges = isNew || !current || changes !== '';

  useEffect(() => {
    if (!hasChanges) return;
    const warn = (event: BeforeUnloadEvent) => event.preventDefault();
    window.addEventListener('beforeunload', warn);
    return () => window.removeEventListener('beforeunload', warn);
  }, [hasChanges]);

  // A piece that was added is there to be named.
  const [added, setAdded] = useState<string | null>(null);
  useEffect(() => {
    if (!added) return;
    const name = within.current?.querySelector<HTMLInputElement>(
      `tr[data-row="${CSS.escape(added)}"] [data-column="name"]`,
    );
    name?.scrollIntoView({ block: 'center' });
    name?.focus();
    name?.select();
  }, [added]);
  useEffect(() => {
    if (isNew) within.current?.querySelector<HTMLInputElement>('.head-name input')?.select();
  }, [isNew]);

  const focusOn = (fault: DraftFault) => {
    if (fault.place.in === 'row') {
      setSearch('');
      if (openRow !== fault.place.key) setOpenRow(fault.place.key);
    }
    window.requestAnimationFrame(() => {
      const element = within.current && elementOf(within.current, fault);
      element?.scrollIntoView({ block: 'center' });
      element?.focus();
    });
  };

  const save = async () => {
    if (!reading.ok) {
      const [first] = reading.faults;
      if (first) focusOn(first);
      return;
    }
    setIsSaving(true);
    setTrouble(null);
    try {
      const saved = await shelf.save(reading.range, latest);
      shelf.keepDraft(props.draftKey, null);
      props.onSaved(saved);
    } catch (thrown) {
      setTrouble(wordsFor(thrown));
      if (thrown instanceof CallRefused && thrown.code === 'stock-range-moved-on') await shelf.read();
    } finally {
      setIsSaving(false);
    }
  };

  const matches = useCallback(
    ({ cells }: DraftRow) =>
      sought === '' ||
      `${cells.name ?? ''} ${cells.id ?? ''} ${cells.services ?? ''} ${cells.widthMm ?? ''}`
        .toLowerCase()
        .includes(sought),
    [sought],
  );
  const onToggle = useCallback((key: string) => setOpenRow((before) => (before === key ? null : key)), []);
  const { addRow } = acts;
  const onCopy = useCallback(
    (row: DraftRow) => {
      const name = `${row.cells.name ?? ''} (copy)`.slice(0, 120);
      const key = addRow(row.row, { ...row.cells, name }, row.key);
      setOpenRow(key);
      setAdded(key);
    },
    [addRow],
  );
  const faultCount = reading.ok ? 0 : reading.faults.length;
  return (
    <div className="range-editor" ref={within}>
      <RangeHead
        draft={draft}
        faults={faults.head}
        isNew={isNew}
        onHead={acts.head}
        onInvented={acts.invented}
      />
      <div className="range-tools">
        <label className="field find-piece">
          <span>Find a piece</span>
          <input
            type="search"
            value={search}
            placeholder="Name, id, width or service"
            onChange={(event) => setSearch(event.target.value)}
          />
        </label>
        <button type="button" className="word-button" onClick={() => props.onCopy(current ?? base)}>
          Copy this range under another name
        </button>
        {!isNew && <CsvPanel api={props.api} saved={base} current={current} onTake={acts.takePieces} />}
      </div>
      {draft.rows.length === 0 && (
        <p className="quiet">No pieces yet. Add the first one below, or read a CSV list.</p>
      )}
      {groups.map((group) => {
        const rows = draft.rows.filter((row) => groupOf(row) === group);
        const shown = rows.filter(matches);
        return (
          <PieceTable
            key={group}
            group={group}
            rows={shown}
            of={rows.length}
            faults={faults.rows}
            unit={unit}
            currency={draft.head.currency}
            openRow={openRow}
            onCell={acts.cell}
            onToggle={onToggle}
            onCopy={onCopy}
            onRemove={acts.removeRow}
            onAdd={(which) => {
              setSearch('');
              const key = addRow(which === 'corner-unit' ? 'corner-unit' : 'item', freshCells[which]);
              setOpenRow(key);
              setAdded(key);
            }}
          />
        );
      })}
      <RulesForm
        rules={draft.rules}
        faults={faults.rules}
        unit={unit}
        currency={draft.head.currency}
        onRule={acts.rule}
      />
      <footer className="save-bar">
        <div className="save-state" role="status">
          {trouble ? (
            <span className="alert">{trouble}</span>
          ) : faultCount > 0 ? (
            <span className="alert">
              {faultCount === 1 ? 'One cell needs' : `${faultCount} cells need`} work before this can be
              saved.
            </span>
          ) : hasChanges ? (
            isNew ? (
              'A copy that is not saved yet.'
            ) : (
              `Not saved: ${changes}.`
            )
          ) : (
            `Version ${base.version}, as saved.`
          )}
        </div>
        <span className="acts">
          {!reading.ok && reading.faults[0] && (
            <button
              type="button"
              className="word-button"
              onClick={() => reading.faults[0] && focusOn(reading.faults[0])}
            >
              Go to the first
            </button>
          )}
          <button type="button" className="word-button" disabled={open.past.length === 0} onClick={acts.undo}>
            Undo
          </button>
          <button
            type="button"
            className="word-button"
            disabled={open.future.length === 0}
            onClick={acts.redo}
          >
            Redo
          </button>
          {!isNew && hasChanges && (
            <button type="button" className="word-button" onClick={acts.discard}>
              Drop the changes
            </button>
          )}
          <button
            type="button"
            className="main-button"
            disabled={isSaving || !hasChanges}
            onClick={() => void save()}
          >
            {isSaving ? 'Saving …' : `Save as version ${latest + 1}`}
          </button>
        </span>
      </footer>
    </div>
  );
};
