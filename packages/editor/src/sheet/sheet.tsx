import type { Pencil, Scene } from "@loomproof/drawing";
import { type ReactNode, type RefObject, useLayoutEffect, useRef } from "react";
import type { Camera } from "./camera.ts";
import { Drawing, type PageTheme } from "./drawing.tsx";
import { type Taker, useGestures } from "./gestures.ts";
import { litArea, litWords } from "./marks.ts";

interface Props {
  readonly title: string;
  /** What stands here as long as there is no drawing. */
  readonly wait: string;
  readonly scene: Scene | undefined;
  /** What is lit, by a name of its own: a new one moves the drawing to it. */
  readonly lit: string | undefined;
  readonly theme: PageTheme;
  readonly camera: Camera;
  readonly pointed: readonly string[];
  readonly frame: RefObject<HTMLElement | null>;
  /** The hand that edits; without it the sheet is only looked at. */
  readonly taker: Taker | undefined;
  readonly pencil: Pencil | undefined;
  /** What the pointer is on, for its shape. */
  readonly over: string | undefined;
  /** What floats over the drawing. */
  readonly children?: ReactNode;
}

/** The drawing on its sheet. Pan by dragging, zoom with the wheel or the keys + and −, 0 fits; a hand picks, moves and wires. */
export function Sheet(props: Props) {
  const { title, wait, scene, lit: picked, theme, camera, pointed, frame, taker, pencil, over, children } = props;
  const handlers = useGestures(frame, camera, taker);
  const shown = useRef<{ readonly picked: string | undefined }>(undefined);
  // Before the first frame is drawn, so that nothing is drawn where it does not stand.
  useLayoutEffect(() => {
    if (scene === undefined) return;
    camera.setContent(scene, shown.current !== undefined);
    // Only a new pick moves the drawing: another theme or an edit leaves it where the person put it.
    if (shown.current !== undefined && shown.current.picked === picked) return;
    shown.current = { picked };
    const lit = picked === undefined ? undefined : litArea(scene);
    if (lit === undefined) camera.leave();
    else camera.show(lit.all, lit.heart);
  }, [camera, scene, picked]);
  return (
    <section
      className="sheet"
      data-over={over}
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
        <Drawing scene={scene} theme={theme} camera={camera} pointed={pointed} pencil={pencil} />
      )}
      {children}
      <p id="lit" className="unseen" role="status">
        {scene === undefined || picked === undefined ? "" : litWords(scene)}
      </p>
    </section>
  );
}
