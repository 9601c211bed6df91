import { write } from "@loomproof/netlist";
import { useCallback, useEffect, useRef } from "react";
import type { OpenDocument } from "./open-document.ts";
import type { Session } from "./session.ts";
import { useSession } from "./use-session.ts";

/** Has the open loom drawn and proved, and again after each edit. */
export function useChecking(document: OpenDocument | undefined): {
  readonly session: Session;
  readonly stop: () => void;
  readonly again: () => void;
} {
  const { session, open, change, stop, close } = useSession();
  const shown = useRef<number>(undefined);
  const isOpen = document !== undefined;
  const { opened, loom } = document ?? {};
  // The name is only what a drawing is remembered by.
  const name = document?.name || document?.id || "";
  const isExample = document?.example !== undefined;
  useEffect(() => {
    if (!isOpen || loom === undefined) {
      shown.current = undefined;
      close();
      return;
    }
    const opening = { name, text: write(loom), isExample };
    if (shown.current === opened) change(opening);
    else open(opening);
    shown.current = opened;
  }, [isOpen, opened, loom, name, isExample, open, change, close]);
  const again = useCallback(() => {
    if (session.opening !== undefined) change(session.opening);
  }, [session.opening, change]);
  return { session, stop, again };
}
