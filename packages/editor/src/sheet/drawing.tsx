import { figures, haloes, type Ink, type Pencil, pencilInk, type Scene, THEMES, writingAt } from "@loomproof/drawing";
import type { Context } from "konva/lib/Context";
import type { Shape as KonvaShape } from "konva/lib/Shape";
import type { Stage as KonvaStage } from "konva/lib/Stage";
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from "react";
import { Layer, Shape, Stage } from "react-konva/lib/ReactKonvaCore";
import type { Camera } from "./camera.ts";
import { drawInk, isTypefaceReady, typefaceReady } from "./canvas-ink.ts";
import { Glide, OVERSCAN } from "./glide.ts";
import { usePixelRatio } from "./pixel-ratio.ts";

export type PageTheme = "light" | "dark";

interface Props {
  readonly scene: Scene;
  readonly theme: PageTheme;
  readonly camera: Camera;
  /** Wires that a person points at in a list, or has picked. */
  readonly pointed: readonly string[];
  /** What a hand does and what is picked. */
  readonly pencil: Pencil | undefined;
}

const DOT_STEP = 20;
/** Dots closer than this on the screen would be a grey veil. */
const LEAST_DOTS = 0.45;

/** The scene on a canvas: one shape a part, all wires in one, texts and marks in one. */
export function Drawing({ scene, theme, camera, pointed, pencil: held }: Props) {
  const stage = useRef<KonvaStage>(null);
  const ratio = usePixelRatio();
  const frame = useFrame(camera);
  const drawn = useMemo(() => figures(scene, theme, false), [scene, theme]);
  const drawHaloes = useMemo(
    () => (c: Context, shape: KonvaShape) =>
      drawInk(c._context, haloes(scene, pointed, THEMES[theme].pencil, zoomOf(shape))),
    [scene, pointed, theme],
  );
  const drawHeld = useMemo(
    () => (c: Context, shape: KonvaShape) => {
      if (held !== undefined) drawInk(c._context, pencilInk(scene, theme, held, zoomOf(shape)));
    },
    [scene, theme, held],
  );
  // New functions would be new shapes: everything would be drawn again whenever a word beside the sheet changes.
  const drawDots = useMemo(
    () => (c: Context, shape: KonvaShape) => dotsOf(c, shape, scene, THEMES[theme].sheetDot),
    [scene, theme],
  );
  const drawWriting = useMemo(() => {
    const writing = writingFor(scene, theme);
    return (c: Context, shape: KonvaShape) => drawInk(c._context, writing(zoomOf(shape)));
  }, [scene, theme]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new pixel ratio makes a new stage, which must be moved afresh
  useLayoutEffect(() => {
    if (stage.current === null) return;
    const glide = new Glide(stage.current, camera);
    return () => glide.end();
  }, [camera, ratio, frame]);
  useEffect(() => {
    if (!isTypefaceReady()) void typefaceReady().then(() => stage.current?.batchDraw());
  }, []);
  return (
    <Stage
      key={ratio}
      ref={stage}
      className="drawing"
      style={{ left: -OVERSCAN, top: -OVERSCAN }}
      width={frame.width + 2 * OVERSCAN}
      height={frame.height + 2 * OVERSCAN}
      listening={false}
    >
      <Layer listening={false} visible={false}>
        <Figure name="sheet" ink={drawn.sheet} />
        <Shape name="dots" sceneFunc={drawDots} {...PLAIN} />
        <Shape name="pencil" sceneFunc={drawHaloes} {...PLAIN} />
        <Figure name="wires" ink={drawn.wires} />
        {drawn.parts.map((p, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a part may be drawn in several zones, so its id alone is no key
          <Figure key={`${p.id} ${i}`} name={`part ${p.id}`} x={p.ink.x} y={p.ink.y} ink={p.ink.ink} />
        ))}
        <Figure name="joints" ink={drawn.dots} />
        <Shape name="writing" sceneFunc={drawWriting} {...PLAIN} />
      </Layer>
      <Layer listening={false} visible={false}>
        <Shape name="hand" sceneFunc={drawHeld} {...PLAIN} />
      </Layer>
    </Stage>
  );
}

const PLAIN = { listening: false, perfectDrawEnabled: false } as const;

interface FigureProps {
  readonly name: string;
  readonly ink: readonly Ink[];
  readonly x?: number;
  readonly y?: number;
}

function Figure({ name, ink, x = 0, y = 0 }: FigureProps) {
  const draw = useMemo(() => (c: Context) => drawInk(c._context, ink), [ink]);
  return <Shape name={name} x={x} y={y} sceneFunc={draw} {...PLAIN} />;
}

const zoomOf = (shape: KonvaShape): number => shape.getAbsoluteScale().x;

/** Texts and marks for a zoom; the last ones are kept, since a drawing is often drawn again at the same zoom. */
function writingFor(scene: Scene, theme: PageTheme): (zoom: number) => readonly Ink[] {
  let last: { readonly zoom: number; readonly ink: readonly Ink[] } | undefined;
  return (zoom) => {
    if (last?.zoom !== zoom) last = { zoom, ink: writingAt(scene, theme, zoom) };
    return last.ink;
  };
}

/** A dot every 20 px of the sheet: on the screen only, it is no part of the drawing. */
function dotsOf(context: Context, shape: KonvaShape, { width, height }: Scene, colour: string): void {
  if (zoomOf(shape) < LEAST_DOTS) return;
  const c = context._context;
  c.fillStyle = colour;
  c.beginPath();
  for (let x = DOT_STEP; x < width; x += DOT_STEP)
    for (let y = DOT_STEP; y < height; y += DOT_STEP) c.rect(x - 0.6, y - 0.6, 1.2, 1.2);
  c.fill();
}

/** The frame's size, which the stage takes on. */
function useFrame(camera: Camera) {
  const [frame, setFrame] = useState(camera.frame);
  useEffect(() => {
    const take = () => setFrame(camera.frame);
    take();
    return camera.subscribe(take);
  }, [camera]);
  return frame;
}
