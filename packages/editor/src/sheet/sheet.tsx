import type { Finding } from "@loomproof/analyzer";
import { type Placed, scene, toSvg } from "@loomproof/drawing";
import type { ResolvedLoom } from "@loomproof/netlist";
import { useMemo, useRef, useState } from "react";
import { marksOf } from "./marks.ts";
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
  const svg = useMemo(() => {
    if (placed === undefined) return undefined;
    const text = toSvg(scene(loom, placed, finding === undefined ? undefined : marksOf(loom, finding)), {
      theme,
      title: loom.title,
    });
    const box = /viewBox="[\d.-]+ [\d.-]+ ([\d.]+) ([\d.]+)"/.exec(text);
    return { text, width: Number(box?.[1] ?? 1000), height: Number(box?.[2] ?? 700) };
  }, [loom, placed, finding, theme]);
  if (svg !== undefined && (svg.width !== size.width || svg.height !== size.height))
    setSize({ width: svg.width, height: svg.height });
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: the sheet takes the keys for pan and zoom
    <section className="sheet" ref={frame} tabIndex={0} aria-label={`Drawing of ${loom.title}`} {...view.handlers}>
      {svg === undefined ? (
        <p className="drawing-wait">Drawing …</p>
      ) : (
        <div
          className="drawing"
          style={{ width: svg.width, height: svg.height, transform: view.transform }}
          // biome-ignore lint/security/noDangerouslySetInnerHtml: our own SVG; every text in it is escaped by toSvg, which a test feeds with markup
          dangerouslySetInnerHTML={{ __html: svg.text }}
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
