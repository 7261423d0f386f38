import './Notice.css';

/** Something the operator must know, over everything, until they put it away. */
export const Notice = ({ words, onDismiss }: { readonly words: string; readonly onDismiss: () => void }) => (
  <div className="notice" role="alert">
    <p>{words}</p>
    <button type="button" className="word-button" onClick={onDismiss}>
      Put away
    </button>
  </div>
);
