import { useSyncExternalStore } from "react";

const watch = window.matchMedia("(max-width: 700px)");
const subscribe = (listener: () => void) => {
  watch.addEventListener("change", listener);
  return () => watch.removeEventListener("change", listener);
};

/** Whether the page is as narrow as a phone: findings then stand in the tray. */
export const useNarrow = (): boolean => useSyncExternalStore(subscribe, () => watch.matches);
