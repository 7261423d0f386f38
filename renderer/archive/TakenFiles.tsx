import type { ProjectId } from '../../src/document/ids.ts';
import type { TakingIn } from './useTakeInMany.ts';

/** How far the taking in of many files is, and what came of each. */
export const TakenFiles = ({
  taking,
  onOpen,
  onChoose,
}: {
  readonly taking: TakingIn;
  /** A project file has parted from the archive's project. */
  readonly onChoose: (file: File) => void;
  readonly onOpen: (projectId: ProjectId) => void;
}) => {
  const { files } = taking;
  if (!files) return null;
  const troubled = files.done.filter(({ isTrouble }) => isTrouble).length;
  return (
    <section className="taken-files" aria-label="Files taken in">
      <p role="status">
        {files.isBusy
          ? `Taking in ${Math.min(files.done.length + 1, files.of)} of ${files.of} …`
          : `${files.done.length - troubled} of ${files.of} taken in${troubled > 0 ? `, ${troubled} not` : ''}.`}{' '}
        <button type="button" className="word-button" onClick={files.isBusy ? taking.stop : taking.putAway}>
          {files.isBusy ? 'Stop' : 'Put away'}
        </button>
      </p>
      {files.isBusy && <progress value={files.done.length} max={files.of} aria-label="Files taken in" />}
      <ul>
        {files.done.map(({ fileName, words, projectId, isTrouble, parted }, index) => (
          // Two files may have one name; their order never changes.
          // biome-ignore lint/suspicious/noArrayIndexKey: the list only grows at its end
          <li key={index} className={isTrouble ? 'alert' : undefined}>
            {projectId ? (
              <button type="button" className="word-button" onClick={() => onOpen(projectId)}>
                {fileName}
              </button>
            ) : (
              <span className="taken-name">{fileName}</span>
            )}
            {isTrouble ? ': ' : ' '}
            {words}
            {parted && (
              <>
                {' '}
                <button type="button" className="word-button" onClick={() => onChoose(parted)}>
                  Compare and choose
                </button>
              </>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
};
