import { useSyncExternalStore } from "react";
import type { Camera } from "../sheet/camera.ts";

const STEP = 1.25;

/** Zoom in words and figures. */
export function Zoom({ camera }: { readonly camera: Camera }) {
  const percent = useSyncExternalStore(camera.subscribe, () => Math.round(camera.view.scale * 100));
  return (
    <div className="zoom">
      <button type="button" onClick={() => camera.zoomBy(1 / STEP)} aria-label="Zoom out">
        −
      </button>
      <output>{percent}&nbsp;%</output>
      <button type="button" onClick={() => camera.zoomBy(STEP)} aria-label="Zoom in">
        +
      </button>
      <button type="button" onClick={camera.fit}>
        Fit
      </button>
    </div>
  );
}
