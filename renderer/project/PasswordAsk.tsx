import { type FormEvent, useState } from 'react';

/** Asks for the password of a protected plan. It is used while the window is open and never kept. */
export const PasswordAsk = (props: {
  readonly isWrong: boolean;
  readonly onPassword: (password: string) => void;
}) => {
  const [typed, setTyped] = useState('');
  const enter = (event: FormEvent) => {
    event.preventDefault();
    if (typed) props.onPassword(typed);
  };
  return (
    <form className="board-message" onSubmit={enter}>
      <label className="field">
        <span className={props.isWrong ? 'alert' : undefined} aria-live="polite">
          {props.isWrong ? 'That password does not open it. Try another' : 'This plan has a password'}
        </span>
        <input type="password" value={typed} onChange={(event) => setTyped(event.target.value)} />
      </label>
      <p>
        <button type="submit" className="main-button" disabled={!typed}>
          Open
        </button>
      </p>
    </form>
  );
};
