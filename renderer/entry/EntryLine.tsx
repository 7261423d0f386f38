import './EntryLine.css';
import { type KeyboardEvent, type RefObject, useEffect, useState } from 'react';
import type { ToolName, ToolView } from '../tools/tool.ts';

/**
 * The one entry line, at the sheet's lower edge: what to do next, where to type a length, and the acts that the tool
 * offers now.
 */
export const EntryLine = (props: {
  readonly view: ToolView;
  readonly said: string | null;
  readonly inputRef: RefObject<HTMLInputElement | null>;
  readonly onEntry: (text: string) => void;
  readonly onConfirm: () => void;
  readonly onEscape: () => void;
  readonly onDelete: () => void;
  readonly onAct: (name: string) => void;
  /** The line takes nothing any more while it had the keys. */
  readonly onDone: () => void;
  /** Tools that can be taken up at any time, by their words. */
  readonly tools: readonly {
    readonly name: ToolName;
    readonly words: string;
    readonly isOffered: boolean;
    readonly onTake: () => void;
  }[];
  readonly toolName: ToolName;
}) => {
  const { view } = props;
  const [text, setText] = useState('');
  const label = view.entry?.label ?? null;

  // biome-ignore lint/correctness/useExhaustiveDependencies: what was typed belongs to the label it was typed under
  useEffect(() => setText(''), [label]);

  const { inputRef, onDone } = props;
  useEffect(() => {
    if (label === null && document.activeElement === inputRef.current) onDone();
  }, [label, inputRef, onDone]);

  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === 'Enter') {
      event.preventDefault();
      if (text.trim()) {
        props.onEntry(text);
        setText('');
      } else props.onConfirm();
    } else if (event.key === 'Escape') {
      event.preventDefault();
      if (text) setText('');
      else props.onEscape();
    } else if ((event.key === 'Delete' || event.key === 'Backspace') && !text) {
      event.preventDefault();
      props.onDelete();
    }
    event.stopPropagation();
  };

  return (
    <div className="entry-line">
      <div className="entry-tools">
        {props.tools.map((tool) => (
          <button
            key={tool.name}
            type="button"
            className="entry-tool"
            aria-pressed={tool.name === props.toolName}
            disabled={!tool.isOffered}
            onClick={tool.onTake}
          >
            {tool.words}
          </button>
        ))}
      </div>
      <p className="entry-prompt" role="status" aria-live="polite">
        {props.said ? <span className="alert">{props.said}</span> : view.prompt}
      </p>
      <label className={view.entry ? 'entry-field' : 'entry-field is-idle'}>
        <span>{view.entry?.label ?? ''}</span>
        <input
          ref={props.inputRef}
          value={text}
          aria-label={view.entry?.label ?? 'Entry line'}
          placeholder={view.entry?.example ?? ''}
          disabled={!view.entry}
          autoComplete="off"
          spellCheck={false}
          onChange={(event) => setText(event.target.value)}
          onKeyDown={onKeyDown}
        />
      </label>
      <div className="entry-acts">
        {view.acts.map((act) => (
          <button key={act.name} type="button" className="word-button" onClick={() => props.onAct(act.name)}>
            {act.words}
            {act.key && <kbd>{act.key}</kbd>}
          </button>
        ))}
      </div>
    </div>
  );
};
