import { useEffect, useState } from "react";

/** Pixels of the screen for one px of the page. Changes with the browser's zoom, or when the window moves to another screen. */
export function usePixelRatio(): number {
  const [ratio, setRatio] = useState(window.devicePixelRatio);
  useEffect(() => {
    const watch = window.matchMedia(`(resolution: ${ratio}dppx)`);
    const take = () => setRatio(window.devicePixelRatio);
    watch.addEventListener("change", take);
    return () => watch.removeEventListener("change", take);
  }, [ratio]);
  return ratio;
}
