import { useEffect } from "react";

/** Where the keyboard can go at once, in this order: the sheet, the tabs of the tray, the findings. */
const REGIONS = [".sheet", '.tray [role="tab"][aria-selected="true"]', ".margin button"];

/** F6 leads from region to region, Shift+F6 back, as in many programs with several panes (common practice). */
export function useRegions(): void {
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (event.key !== "F6" || event.ctrlKey || event.altKey || event.metaKey) return;
      const there = REGIONS.map((r) => document.querySelector<HTMLElement>(r)).filter((e) => e !== null);
      if (there.length === 0) return;
      event.preventDefault();
      const at = [".sheet", ".tray", ".margin"].findIndex((r) => document.activeElement?.closest(r));
      const step = event.shiftKey ? -1 : 1;
      const next = at < 0 ? 0 : (at + step + there.length) % there.length;
      there[next]?.focus();
    };
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  }, []);
}
