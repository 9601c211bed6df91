import type { Finding } from "@loomproof/analyzer";
import { type Placed, scene, toSvg } from "@loomproof/drawing";
import type { ResolvedLoom } from "@loomproof/netlist";
import { useEffect, useMemo, useRef, useState } from "react";
import { litArea, marksOf } from "./marks.ts";
import { usePanZoom } from "./pan-zoom.ts";

interface Props {
  readonly loom: ResolvedLoom;
  readonly placed: Placed | undefined;
  readonly finding: Finding | undefined;
  readonly theme: "light" | "dark";
}

/** The drawing on its sheet. Pan by dragging, zoom with the wheel or the keys + and −, 0 fits. */
export function Sheet({ loom, placed, finding, theme }: Props) {
  const frame = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState({ width: 1, height: 1 });
  const view = usePanZoom(frame, size);
  const drawn = useMemo(() => {
    if (placed === undefined) return undefined;
    const items = scene(loom, placed, finding === undefined ? undefined : marksOf(loom, finding));
    const lit = finding === undefined ? undefined : litArea(items);
    return { text: toSvg(items, { theme, title: loom.title }), width: items.width, height: items.height, lit };
  }, [loom, placed, finding, theme]);
  if (drawn !== undefined && (drawn.width !== size.width || drawn.height !== size.height))
    setSize({ width: drawn.width, height: drawn.height });
  const { fit, show } = view;
  const lit = drawn?.lit;
  const picked = finding?.id;
  const shown = useRef<string>(undefined);
  useEffect(() => {
    // Only a new pick moves the drawing: another theme leaves it where the person put it.
    if (shown.current === picked) return;
    shown.current = picked;
    if (lit === undefined) fit();
    else show(lit.all, lit.heart);
  }, [picked, lit, fit, show]);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: the sheet takes the keys for pan and zoom
    <section className="sheet" ref={frame} tabIndex={0} aria-label={`Drawing of ${loom.title}`} {...view.handlers}>
      {drawn === undefined ? (
        <p className="drawing-wait">Drawing …</p>
      ) : (
        <div
          className="drawing"
          style={{ width: drawn.width, height: drawn.height, transform: view.transform }}
          // biome-ignore lint/security/noDangerouslySetInnerHtml: our own SVG; every text in it is escaped by toSvg, which a test feeds with markup
          dangerouslySetInnerHTML={{ __html: drawn.text }}
        />
      )}
      <div className="zoom">
        <button type="button" onClick={() => view.zoomBy(1.25)} aria-label="Zoom in">
          +
        </button>
        <button type="button" onClick={() => view.zoomBy(0.8)} aria-label="Zoom out">
          −
        </button>
        <button type="button" onClick={view.fit}>
          Fit
        </button>
      </div>
    </section>
  );
}
