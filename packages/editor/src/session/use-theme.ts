import { useCallback, useEffect, useState } from "react";
import type { PageTheme } from "../sheet/drawing.tsx";

/** Light or dark as the system has it, until a person chooses. */
export function useTheme(): { readonly theme: PageTheme; readonly turn: () => void } {
  const [chosen, choose] = useState<PageTheme>();
  const [preferred, setPreferred] = useState<PageTheme>(systemTheme);
  useEffect(() => {
    const watch = window.matchMedia(DARK);
    const take = () => setPreferred(systemTheme());
    watch.addEventListener("change", take);
    return () => watch.removeEventListener("change", take);
  }, []);
  const theme = chosen ?? preferred;
  useEffect(() => {
    document.documentElement.dataset.theme = theme;
  }, [theme]);
  const turn = useCallback(() => choose(theme === "light" ? "dark" : "light"), [theme]);
  return { theme, turn };
}

const DARK = "(prefers-color-scheme: dark)";
const systemTheme = (): PageTheme => (window.matchMedia(DARK).matches ? "dark" : "light");
