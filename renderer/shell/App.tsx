import { useCallback, useEffect, useState } from 'react';
import type { ProjectId } from '../../src/document/ids.ts';
import type { StockRangeRef } from '../../src/document/projectDocument.ts';
import type { ApiClient } from '../api/apiClient.ts';
import { ArchiveScreen } from '../archive/ArchiveScreen.tsx';
import { ProjectScreen } from '../project/ProjectScreen.tsx';
import { openSession, type ProjectSession } from '../project/projectSession.ts';
import { StockScreen } from '../stock/StockScreen.tsx';
import { createStockShelf } from '../stock/stockShelf.ts';
import { Notice } from './Notice.tsx';
import { usePreferences } from './usePreferences.ts';
import { wordsFor } from './wordsFor.ts';

type Place =
  | { readonly at: 'archive' }
  | { readonly at: 'opening'; readonly name: string }
  | { readonly at: 'project'; readonly session: ProjectSession; readonly plan: File | null };

/** The project that the address names, so that a reload comes back to it. */
const projectInAddress = (): ProjectId | 'demo' | null => {
  const named = new URLSearchParams(window.location.hash.slice(1)).get('project');
  return named as ProjectId | 'demo' | null;
};

/** The whole window: the archive, or one project of it. */
export const App = ({ api }: { readonly api: ApiClient }) => {
  const [place, setPlace] = useState<Place>({ at: 'archive' });
  const [trouble, setTrouble] = useState<string | null>(null);
  const preferences = usePreferences();
  const [shelf] = useState(() => createStockShelf(api));
  /** The stock ranges lie over whatever was shown before, and leaving them comes back to it as it was. */
  const [stock, setStock] = useState<{ readonly first: StockRangeRef | null } | null>(null);

  const show = useCallback(
    async (what: ProjectId | 'demo' | { readonly create: string }, plan: File | null = null) => {
      setTrouble(null);
      setPlace({ at: 'opening', name: typeof what === 'object' ? what.create : '' });
      try {
        const opened =
          what === 'demo'
            ? await api.call('open-demo', {})
            : typeof what === 'object'
              ? await api.call('create-project', { name: what.create })
              : await api.call('open-project', { projectId: what });
        window.location.hash = `project=${opened.projectId}`;
        setPlace({ at: 'project', session: openSession(api, opened), plan });
      } catch (thrown) {
        window.location.hash = '';
        setTrouble(wordsFor(thrown));
        setPlace({ at: 'archive' });
      }
    },
    [api],
  );

  useEffect(() => {
    const named = projectInAddress();
    if (named) void show(named);
  }, [show]);

  const leave = useCallback(async () => {
    if (place.at === 'project') {
      await place.session.settled();
      // The project says why it is not saved; leaving it now would give those steps up.
      if (place.session.state().unsaved > 0) return place.session.sendAgain();
    }
    window.location.hash = '';
    setPlace({ at: 'archive' });
  }, [place]);

  return (
    <>
      {trouble && <Notice words={trouble} onDismiss={() => setTrouble(null)} />}
      <div className="place" inert={stock !== null}>
        {place.at === 'archive' && (
          <ArchiveScreen
            api={api}
            preferences={preferences}
            onStock={() => setStock({ first: null })}
            onOpen={(projectId) => void show(projectId)}
            onDemo={() => void show('demo')}
            onCreate={(name, plan) => void show({ create: name }, plan)}
          />
        )}
        {place.at === 'opening' && (
          <p className="opening" role="status">
            Opening {place.name || 'the project'} …
          </p>
        )}
        {place.at === 'project' && (
          <ProjectScreen
            key={place.session.state().projectId}
            api={api}
            shelf={shelf}
            session={place.session}
            plan={place.plan}
            preferences={preferences}
            onStock={(first) => setStock({ first })}
            onLeave={() => void leave()}
          />
        )}
      </div>
      {stock && (
        <div className="stock-over">
          <StockScreen
            api={api}
            shelf={shelf}
            preferences={preferences}
            first={stock.first}
            leaveWords={place.at === 'project' ? place.session.state().document.job.name : 'Archive'}
            onLeave={() => setStock(null)}
          />
        </div>
      )}
    </>
  );
};
