import type { Finding } from "@loomproof/analyzer";
import type { Scene } from "@loomproof/drawing";
import { type ReactNode, useEffect, useRef } from "react";
import type { Camera } from "./camera.ts";
import { Drawing, type PageTheme } from "./drawing.tsx";
import { useGestures } from "./gestures.ts";
import { litArea, litWords } from "./marks.ts";

interface Props {
  readonly title: string;
  /** What stands here as long as there is no drawing. */
  readonly wait: string;
  readonly scene: Scene | undefined;
  readonly finding: Finding | undefined;
  readonly theme: PageTheme;
  readonly camera: Camera;
  readonly pointed: readonly string[];
  /** What floats over the drawing. */
  readonly children?: ReactNode;
}

/** The drawing on its sheet. Pan by dragging, zoom with the wheel or the keys + and −, 0 fits. */
export function Sheet({ title, wait, scene, finding, theme, camera, pointed, children }: Props) {
  const frame = useRef<HTMLElement>(null);
  const handlers = useGestures(frame, camera);
  const picked = finding?.id;
  const shown = useRef<string>(undefined);
  useEffect(() => {
    if (scene === undefined) return;
    camera.setContent(scene);
    // Only a new pick moves the drawing: another theme leaves it where the person put it.
    if (shown.current === picked) return;
    shown.current = picked;
    const lit = picked === undefined ? undefined : litArea(scene);
    if (lit === undefined) camera.fit();
    else camera.show(lit.all, lit.heart);
  }, [camera, scene, picked]);
  return (
    <section
      className="sheet"
      ref={frame}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: the sheet takes the keys for pan and zoom
      tabIndex={0}
      aria-label={`Drawing of ${title}`}
      aria-describedby="lit"
      {...handlers}
    >
      {scene === undefined ? (
        <p className="drawing-wait">{wait}</p>
      ) : (
        <Drawing scene={scene} theme={theme} camera={camera} pointed={pointed} />
      )}
      {children}
      <p id="lit" className="unseen" role="status">
        {scene === undefined || finding === undefined ? "" : litWords(scene)}
      </p>
    </section>
  );
}
