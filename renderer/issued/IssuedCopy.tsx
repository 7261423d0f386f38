import { useCallback, useEffect, useRef, useState } from 'react';
import type { ApiOutput } from '../../src/app/apiMethods.ts';
import type { ProjectId } from '../../src/document/ids.ts';
import type { DisplayUnit } from '../../src/units/formatLength.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { wordsFor } from '../shell/wordsFor.ts';
import { ChangeList } from './ChangeList.tsx';
import { DeliveryView } from './DeliveryView.tsx';
import { purposeWords } from './issuedWords.ts';
import type { Issued } from './useIssuePreview.ts';

/** What was found when an issue was drawn again. */
const sameWords = ({ files, isSameProgram, madeWith }: ApiOutput<'draw-issue-again'>): string => {
  const others = files.filter(({ isSame }) => !isSame).map(({ fileName }) => fileName);
  const program = isSameProgram ? '' : ` It was made with ${madeWith}, which was another program.`;
  return others.length === 0
    ? `Drawn again from what the archive keeps, every file comes out the same, byte for byte.${program}`
    : `Drawn again, these come out differently: ${others.join(', ')}. What was issued stays as it is.${program}`;
};

/** One issue as it went out: what changed with it, its files, and whether it still comes out the same. */
export const IssuedCopy = (props: {
  readonly api: ApiClient;
  readonly projectId: ProjectId;
  readonly issue: Issued;
  readonly issues: readonly Issued[];
  readonly unit: DisplayUnit;
  readonly passwords: ReadonlyMap<string, string>;
  /** Just issued: the focus comes here, since the button that issued it is gone. */
  readonly takesFocus: boolean;
  readonly onBack: () => void;
}) => {
  const { api, projectId, issue, unit } = props;
  const { number } = issue;
  const earlier = props.issues.filter((one) => one.number < number);
  /** The number of an earlier issue; 0 for the project as it is now. */
  const [against, setAgainst] = useState(earlier.at(-1)?.number ?? 0);
  const [changes, setChanges] = useState<ApiOutput<'compare-issues'>['changes'] | null>(null);
  const [checked, setChecked] = useState<string | null>(null);
  const [isChecking, setIsChecking] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (props.takesFocus) heading.current?.focus();
  }, [props.takesFocus]);

  useEffect(() => {
    let isGone = false;
    setChanges(null);
    setTrouble(null);
    const wanted = against === 0 ? { from: number } : { from: against, to: number };
    api.call('compare-issues', { projectId, ...wanted, unit }).then(
      (answer) => !isGone && setChanges(answer.changes),
      (thrown: unknown) => !isGone && setTrouble(wordsFor(thrown)),
    );
    return () => {
      isGone = true;
    };
  }, [api, projectId, number, against, unit]);

  const load = useCallback(
    async (fileName: string) => (await api.call('issued-file', { projectId, number, fileName })).bytes,
    [api, projectId, number],
  );

  const check = async () => {
    setIsChecking(true);
    setChecked(null);
    try {
      const passwords = Object.fromEntries(props.passwords);
      setChecked(sameWords(await api.call('draw-issue-again', { projectId, number, passwords })));
    } catch (thrown) {
      setChecked(wordsFor(thrown));
    } finally {
      setIsChecking(false);
    }
  };

  return (
    <>
      <div className="issued-title">
        <h2 ref={heading} tabIndex={-1}>
          Issue {number}{' '}
          <span className="issued-beside">
            {issue.issuedAt.slice(0, 10)}, {purposeWords(issue.purpose)}
            {issue.issuedBy && `, by ${issue.issuedBy}`}
          </span>
        </h2>
        <button
          type="button"
          className="word-button"
          aria-disabled={isChecking}
          onClick={() => {
            if (!isChecking) void check();
          }}
        >
          {isChecking ? 'Drawing it again …' : 'Draw it again and compare'}
        </button>
        <button type="button" className="word-button" onClick={props.onBack}>
          Back to what goes out next
        </button>
      </div>
      {checked && (
        <p className="issued-note" role="status">
          {checked}
        </p>
      )}
      {trouble && (
        <p className="alert issued-note" role="alert">
          {trouble}
        </p>
      )}
      <ChangeList
        caption={against === 0 ? `Changes since issue ${number}` : `Changes since issue ${against}`}
        changes={changes}
        none="Nothing that is measured, fitted, checked or priced."
      >
        <label className="issued-against">
          Compare with{' '}
          <select value={against} onChange={(event) => setAgainst(Number(event.target.value))}>
            {earlier.map((one) => (
              <option key={one.number} value={one.number}>
                issue {one.number}
              </option>
            ))}
            <option value={0}>the project as it is now</option>
          </select>
        </label>
      </ChangeList>
      <DeliveryView files={issue.files} load={load} />
    </>
  );
};
