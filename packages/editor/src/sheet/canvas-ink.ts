import type { Ink } from "@loomproof/drawing";

type InkOf<K extends Ink["kind"]> = Extract<Ink, { readonly kind: K }>;

const FONT = `"Atkinson Hyperlegible Next Variable","Atkinson Hyperlegible Next",system-ui,sans-serif`;
/** Ink is never changed once made, so its path need only be read once. */
const paths = new WeakMap<InkOf<"path">, Path2D>();

/** Draws on a canvas the same ink that toSvg writes. */
export function drawInk(c: CanvasRenderingContext2D, list: readonly Ink[]): void {
  for (const ink of list) drawOne(c, ink);
}

function drawOne(c: CanvasRenderingContext2D, ink: Ink): void {
  switch (ink.kind) {
    case "path":
      drawPath(c, ink);
      return;
    case "rect":
      c.beginPath();
      c.roundRect(ink.x, ink.y, ink.width, ink.height, ink.corner ?? 0);
      fillAndStroke(c, ink.fill, ink.stroke, ink.line);
      return;
    case "circle":
      c.beginPath();
      c.arc(ink.x, ink.y, ink.radius, 0, 2 * Math.PI);
      fillAndStroke(c, ink.fill, ink.stroke, ink.line);
      return;
    case "text":
      drawText(c, ink);
      return;
    case "group":
      c.save();
      c.translate(ink.x, ink.y);
      if (ink.mirrored !== undefined) c.transform(-1, 0, 0, 1, ink.mirrored, 0);
      c.scale(ink.scale, ink.scale);
      drawInk(c, ink.ink);
      c.restore();
      return;
    default:
      ink satisfies never;
  }
}

const isInk = (colour: string | undefined): colour is string => colour !== undefined && colour !== "none";

function drawPath(c: CanvasRenderingContext2D, ink: InkOf<"path">): void {
  let path = paths.get(ink);
  if (path === undefined) {
    path = new Path2D(ink.d);
    paths.set(ink, path);
  }
  if (isInk(ink.fill)) {
    c.fillStyle = ink.fill;
    c.fill(path);
  }
  if (!isInk(ink.stroke)) return;
  c.strokeStyle = ink.stroke;
  c.lineWidth = ink.width ?? 1;
  c.lineCap = ink.roundCap ? "round" : "butt";
  c.lineJoin = ink.roundJoin ? "round" : "miter";
  c.setLineDash(ink.dash ?? []);
  c.stroke(path);
}

function fillAndStroke(
  c: CanvasRenderingContext2D,
  fill: string | undefined,
  stroke: string | undefined,
  line: number | undefined,
): void {
  if (isInk(fill)) {
    c.fillStyle = fill;
    c.fill();
  }
  if (!isInk(stroke)) return;
  c.strokeStyle = stroke;
  c.lineWidth = line ?? 1;
  c.setLineDash([]);
  c.stroke();
}

function drawText(c: CanvasRenderingContext2D, ink: InkOf<"text">): void {
  c.save();
  c.translate(ink.x, ink.y);
  if (ink.upright) c.rotate(-Math.PI / 2);
  c.textBaseline = "alphabetic";
  c.textAlign = "left";
  const words = ink.words.map(({ text, weight }) => {
    const font = `${weight} ${ink.size}px ${FONT}`;
    c.font = font;
    return { text, font, width: c.measureText(text).width };
  });
  const whole = words.reduce((sum, w) => sum + w.width, 0);
  let x = { start: 0, middle: -whole / 2, end: -whole }[ink.anchor];
  for (const { text, font, width } of words) {
    c.font = font;
    if (ink.halo !== undefined) {
      c.strokeStyle = ink.halo.colour;
      c.lineWidth = ink.halo.width;
      c.lineJoin = "round";
      c.setLineDash([]);
      c.strokeText(text, x, 0);
    }
    c.fillStyle = ink.fill;
    c.fillText(text, x, 0);
    x += width;
  }
  c.restore();
}

export const isTypefaceReady = (): boolean => document.fonts.check(`400 12px ${FONT}`);

/** Resolves once the drawing's typeface can be used: a canvas does not draw again by itself. */
export const typefaceReady = (): Promise<unknown> => document.fonts.load(`400 12px ${FONT}`);
