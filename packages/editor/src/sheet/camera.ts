// Where the drawing stands in its frame. No React and no DOM: the sheet, the tools and the tests share one.

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** A drawing: its size, and where its corner lies from a point that edits do not move, px at 100 %. */
export interface Content extends Size {
  readonly origin: { readonly x: number; readonly y: number };
}

/** A part of the drawing, px at 100 %. */
export interface Area {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** A spot of the drawing stands in its frame at x + scale · spot. */
export interface View {
  readonly x: number;
  readonly y: number;
  readonly scale: number;
}

/** What is kept in view while the frame changes its size, until a person moves the drawing. */
type Aim = { readonly all: Area; readonly heart: Area } | "whole" | undefined;

const LEAST = 0.04;
const MOST = 6;
/** Below this an area that fits can only be seen, not followed. */
const SEEN = 0.3;
/** Its texts stand a little above 10 px. */
const READ = 1;
const CLOSEST = 1.4;
const AROUND = 40;
const EDGE = 6;
/** So much of the drawing stays in the frame, px: it cannot be lost. */
const HELD = 60;

const clamp = (v: number, least: number, most: number): number => Math.min(most, Math.max(least, v));

export class Camera {
  #view: View = { x: 0, y: 0, scale: 1 };
  #frame: Size = { width: 1, height: 1 };
  #content: Content = { width: 1, height: 1, origin: { x: 0, y: 0 } };
  #aim: Aim = "whole";
  readonly #listeners = new Set<() => void>();

  get view(): View {
    return this.#view;
  }

  get frame(): Size {
    return this.#frame;
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  setFrame(frame: Size): void {
    if (frame.width === this.#frame.width && frame.height === this.#frame.height) return;
    this.#frame = frame;
    this.#take();
  }

  /** @param isSame whether it is the drawing of before, edited: then what is seen stays where it is */
  setContent({ width, height, origin }: Content, isSame = false): void {
    const was = this.#content;
    if (width === was.width && height === was.height && origin.x === was.origin.x && origin.y === was.origin.y) return;
    this.#content = { width, height, origin };
    if (!isSame) {
      this.#take();
      return;
    }
    this.#aim = undefined;
    const { x, y, scale } = this.#view;
    this.#set({ scale, x: x + (origin.x - was.origin.x) * scale, y: y + (origin.y - was.origin.y) * scale });
  }

  /** The whole drawing. */
  readonly fit = (): void => {
    this.#aim = "whole";
    this.#take();
  };

  /** Brings an area into view. Where it would be too small to follow, its heart is shown at a size that can be read. */
  show(all: Area, heart: Area): void {
    this.#aim = { all, heart };
    this.#take();
  }

  /** The whole drawing again after an area, unless a person has moved it or drawn on it meanwhile. */
  readonly leave = (): void => {
    if (this.#aim !== undefined) this.fit();
  };

  /** Brings an area into the middle, at the size it has, if it is not all in the frame. */
  reveal({ x0, y0, x1, y1 }: Area): void {
    const { x, y, scale } = this.#view;
    const { width, height } = this.#frame;
    const isSeen = x + x0 * scale >= 0 && y + y0 * scale >= 0 && x + x1 * scale <= width && y + y1 * scale <= height;
    if (isSeen) return;
    this.#aim = undefined;
    this.#set({ scale, x: width / 2 - ((x0 + x1) / 2) * scale, y: height / 2 - ((y0 + y1) / 2) * scale });
  }

  pan(dx: number, dy: number): void {
    this.#aim = undefined;
    this.#set({ ...this.#view, x: this.#view.x + dx, y: this.#view.y + dy });
  }

  /** Zooms about a spot of the frame, which stays where it is. */
  zoomAt(factor: number, x: number, y: number): void {
    this.#aim = undefined;
    const scale = clamp(this.#view.scale * factor, LEAST, MOST);
    const by = scale / this.#view.scale;
    this.#set({ scale, x: x - (x - this.#view.x) * by, y: y - (y - this.#view.y) * by });
  }

  zoomBy(factor: number): void {
    this.zoomAt(factor, this.#frame.width / 2, this.#frame.height / 2);
  }

  #take(): void {
    const { width, height } = this.#frame;
    if (this.#aim === undefined || width <= 2 * EDGE || height <= 2 * EDGE) {
      this.#set(this.#view);
      return;
    }
    const whole = { x0: 0, y0: 0, x1: this.#content.width, y1: this.#content.height };
    const { all, heart } = this.#aim === "whole" ? { all: whole, heart: whole } : this.#aim;
    const around = this.#aim === "whole" ? 0 : AROUND;
    const fitting = Math.min(
      (width - 2 * EDGE) / (all.x1 - all.x0 + 2 * around),
      (height - 2 * EDGE) / (all.y1 - all.y0 + 2 * around),
    );
    const isSeen = this.#aim === "whole" || fitting >= SEEN;
    const scale = clamp(isSeen ? Math.min(fitting, CLOSEST) : READ, LEAST, MOST);
    const { x0, y0, x1, y1 } = isSeen ? all : heart;
    this.#set({
      scale,
      x: onPaper(width / 2 - ((x0 + x1) / 2) * scale, width, this.#content.width * scale),
      y: onPaper(height / 2 - ((y0 + y1) / 2) * scale, height, this.#content.height * scale),
    });
  }

  #set({ x, y, scale }: View): void {
    const { width, height } = this.#frame;
    this.#view = {
      scale,
      x: clamp(x, HELD - this.#content.width * scale, Math.max(HELD, width - HELD)),
      y: clamp(y, HELD - this.#content.height * scale, Math.max(HELD, height - HELD)),
    };
    for (const listener of this.#listeners) listener();
  }
}

/** Nothing beside the paper is shown as long as there is paper to show; paper that fits stands in the middle. */
const onPaper = (at: number, frame: number, paper: number): number =>
  paper <= frame - 2 * EDGE ? (frame - paper) / 2 : clamp(at, frame - paper - EDGE, EDGE);
