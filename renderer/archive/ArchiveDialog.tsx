import './ArchiveDialog.css';
import { type ReactNode, useEffect, useRef } from 'react';

/** A question over the archive that is answered before anything else. Escape answers it with "no". */
export const ArchiveDialog = (props: {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}) => {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (!dialog.current?.open) dialog.current?.showModal();
  }, []);
  return (
    <dialog ref={dialog} className="archive-dialog" aria-label={props.title} onClose={props.onClose}>
      <h2>{props.title}</h2>
      {props.children}
    </dialog>
  );
};
