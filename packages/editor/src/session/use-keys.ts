import { useEffect } from "react";

interface Does {
  readonly undo: () => void;
  readonly redo: () => void;
  readonly save: () => void;
  readonly saveAs: () => void;
}

const isApple = /^(Mac|iP)/.test(navigator.platform);

/** How a key with Ctrl is called on this machine: "Ctrl+Z", on Apple's "Cmd+Z". */
export const keyWords = (key: string): string => `${isApple ? "Cmd" : "Ctrl"}+${key}`;

/** The keys of the document. A field that holds text has its own undo and keeps it. */
export function useKeys(does: Does | undefined): void {
  useEffect(() => {
    if (does === undefined) return;
    const press = (event: KeyboardEvent) => {
      const isHeld = isApple ? event.metaKey : event.ctrlKey;
      if (!isHeld || event.altKey) return;
      const act = actOf(event, does);
      if (act === undefined) return;
      event.preventDefault();
      act();
    };
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  }, [does]);
}

function actOf({ key, shiftKey, target, repeat }: KeyboardEvent, does: Does): (() => void) | undefined {
  switch (key.toLowerCase()) {
    case "z":
      if (holdsText(target)) return undefined;
      return shiftKey ? does.redo : does.undo;
    case "y":
      return holdsText(target) || shiftKey ? undefined : does.redo;
    case "s":
      return () => {
        if (repeat) return;
        // A field takes what was typed when it is left.
        if (holdsText(target)) target.blur();
        (shiftKey ? does.saveAs : does.save)();
      };
    default:
      return undefined;
  }
}

const PLAIN_INPUTS = new Set(["button", "checkbox", "color", "file", "radio", "range", "reset", "submit"]);

function holdsText(target: EventTarget | null): target is HTMLElement {
  if (target instanceof HTMLInputElement) return !PLAIN_INPUTS.has(target.type);
  return target instanceof HTMLTextAreaElement || (target instanceof HTMLElement && target.isContentEditable);
}
