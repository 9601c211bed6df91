import type { ReactNode } from "react";

interface Props {
  readonly id: string;
  readonly title: string;
  /** More about it, for who points at it or listens. */
  readonly says?: string | undefined;
  /** A short line below, such as where the catalogue has its value from. */
  readonly mark?: string | undefined;
  readonly error?: string | undefined;
  readonly children: ReactNode;
}

/** Name above, field, and below it what is wrong, where a value comes from, or while one is in it what it is. */
export function Frame({ id, title, says, mark, error, children }: Props) {
  return (
    <div className={`frame${error === undefined ? "" : " wrong"}`}>
      <label htmlFor={id}>{title}</label>
      {children}
      {error !== undefined ? (
        <p id={`${id}-says`} className="error" role="alert">
          <svg viewBox="0 0 12 12" width="10" height="10" aria-hidden="true">
            <path d="M1 1h10v10H1zM3.5 3.5l5 5M8.5 3.5l-5 5" />
          </svg>
          {error}
        </p>
      ) : (
        mark !== undefined && (
          <p id={`${id}-says`} className="whence" title={mark}>
            {mark}
          </p>
        )
      )}
      {error === undefined && says !== undefined && (
        <p className="says" aria-hidden="true">
          {says}
        </p>
      )}
    </div>
  );
}
