import { useEffect, useState } from 'react';
import type { ApiOutput } from '../../src/app/apiMethods.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { wordsFor } from '../shell/wordsFor.ts';

type Health = ApiOutput<'archive-health'>;

const moment = (instant: string) =>
  new Date(instant).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });

const titles = {
  sound: 'The archive is sound',
  'read-only': 'The archive can be read, not written',
  damaged: 'The archive is damaged: nothing more is written to it',
} as const;

/** How the archive is: one quiet line while it is sound; what is wrong, what to do and from which backup where not. */
export const ArchiveHealth = ({ api }: { readonly api: ApiClient }) => {
  const [health, setHealth] = useState<Health | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  useEffect(() => {
    let isCurrent = true;
    api.call('archive-health', {}).then(
      (found) => isCurrent && setHealth(found),
      (thrown: unknown) => isCurrent && setTrouble(wordsFor(thrown)),
    );
    return () => {
      isCurrent = false;
    };
  }, [api]);

  if (trouble) return <p className="alert">{trouble}</p>;
  if (!health) return null;
  const [newest] = health.backups;
  if (health.state === 'sound')
    return (
      <footer className="archive-health">
        <p>
          {titles.sound}.{' '}
          {newest
            ? `Last backup ${moment(newest.at)}, ${health.backups.length} kept.`
            : 'It is backed up while Footrail runs; there is no backup yet.'}{' '}
          <span className="archive-place">{health.place}</span>
        </p>
        {health.notices.map((notice) => (
          <p key={notice}>{notice}</p>
        ))}
      </footer>
    );
  const good = health.backups.filter(({ isGood }) => isGood);
  return (
    <section className="archive-health is-troubled" role="alert">
      <h2>{titles[health.state]}</h2>
      {health.problems.length > 0 && (
        <ul>
          {health.problems.slice(0, 5).map((problem) => (
            <li key={problem}>{problem}</li>
          ))}
        </ul>
      )}
      <p>{health.advice}</p>
      {health.state === 'damaged' && (
        <p>
          Whatever is listed on this page can still be read whole: open it, or save it by its “File”. All of
          it at once, into a new archive: <code>footrail archive salvage --out FOLDER</code>
        </p>
      )}
      {good.length > 0 && (
        <>
          <h3>Good backups, looked through just now</h3>
          <ul>
            {good.map(({ name, at, byteLength }) => (
              <li key={name}>
                {moment(at)}, {Math.max(1, Math.round(byteLength / 1024))} KiB{' '}
                <code>footrail archive restore {name}</code>
              </li>
            ))}
          </ul>
        </>
      )}
      {health.notices.map((notice) => (
        <p key={notice}>{notice}</p>
      ))}
    </section>
  );
};
