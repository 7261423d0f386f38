import { useState } from 'react';
import type { Command } from '../../src/document/command.ts';
import type { WayInId } from '../../src/document/ids.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import { freshId } from '../project/freshId.ts';

/** Which way in the pieces take, its name, and another one beside it. */
export const WayInChoice = (props: {
  readonly document: ProjectDocument;
  readonly onCommand: (command: Command) => void;
}) => {
  const { document, onCommand } = props;
  const { chosenWayInId } = document;
  const [name, setName] = useState<string | null>(null);
  const chosen = chosenWayInId && document.waysIn[chosenWayInId];
  if (!chosen) return null;
  const takeName = () => {
    const typed = name?.trim();
    setName(null);
    if (typed && typed !== chosen.name) onCommand({ type: 'name-way-in', wayInId: chosen.id, name: typed });
  };
  const another = () => {
    const id = `way-in-${freshId()}` as WayInId;
    onCommand({
      type: 'together',
      label: 'Describe another way in',
      commands: [
        { type: 'add-way-in', wayIn: { id, name: `Way in ${document.wayInIds.length + 1}`, obstacles: [] } },
        { type: 'choose-way-in', wayInId: id },
      ],
    });
  };
  return (
    <>
      {document.wayInIds.length > 1 && (
        <label className="field">
          <span>The pieces take</span>
          <select
            value={chosen.id}
            onChange={(event) => {
              const wayInId = document.wayInIds.find((id) => id === event.target.value);
              if (wayInId) onCommand({ type: 'choose-way-in', wayInId });
            }}
          >
            {document.wayInIds.map((id) => (
              <option key={id} value={id}>
                {document.waysIn[id]?.name}
              </option>
            ))}
          </select>
        </label>
      )}
      <label className="field">
        <span>Name of this way in</span>
        <input
          value={name ?? chosen.name}
          maxLength={120}
          onChange={(event) => setName(event.target.value)}
          onBlur={takeName}
          onKeyDown={(event) => {
            if (event.key === 'Enter') takeName();
            if (event.key === 'Escape') setName(null);
          }}
        />
      </label>
      <div className="acts">
        <button type="button" className="word-button" onClick={another}>
          Another way in
        </button>
        <button
          type="button"
          className="word-button"
          onClick={() => onCommand({ type: 'remove-way-in', wayInId: chosen.id })}
        >
          Remove this one
        </button>
      </div>
    </>
  );
};
