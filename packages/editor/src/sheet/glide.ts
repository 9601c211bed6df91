import { Konva } from "konva/lib/Global";
import type { Stage } from "konva/lib/Stage";
import type { Camera, View } from "./camera.ts";

// Where it stands is drawn once, here, and not again by each of its coordinates.
Konva.autoDrawEnabled = false;

/** The canvas is larger than its frame on every side, px, so that a drag does not meet an empty edge at once. */
export const OVERSCAN = 160;
/** After so long without a move the drawing is drawn afresh, ms. */
const STILL = 90;
/** A picture pulled larger than this is drawn afresh at once. */
const COARSE = 1.6;

/**
 * Keeps a stage where its camera says. While the drawing moves, the picture already drawn is moved and scaled as it is,
 * which costs next to nothing; once it lies still, or an edge shows, it is drawn sharp.
 */
export class Glide {
  readonly #stage: Stage;
  readonly #camera: Camera;
  readonly #end: () => void;
  #drawn: View;
  #frame = 0;
  #timer = 0;

  /** @param stage a new one comes with its layers hidden: they are drawn when it is known where they stand */
  constructor(stage: Stage, camera: Camera) {
    this.#stage = stage;
    this.#camera = camera;
    this.#drawn = camera.view;
    this.#end = camera.subscribe(() => this.#moved());
    if (stage.getLayers().every((l) => l.visible())) this.#draw();
    else
      this.#frame = requestAnimationFrame(() => {
        this.#frame = 0;
        for (const layer of stage.getLayers()) layer.show();
        this.#draw();
      });
  }

  end(): void {
    this.#end();
    cancelAnimationFrame(this.#frame);
    clearTimeout(this.#timer);
  }

  #moved(): void {
    clearTimeout(this.#timer);
    if (this.#isDrawn() && this.#frame === 0) {
      this.#stage.content.style.transform = "";
      return;
    }
    this.#timer = window.setTimeout(() => this.#draw(), STILL);
    if (this.#frame !== 0) return;
    this.#frame = requestAnimationFrame(() => {
      this.#frame = 0;
      if (this.#isCovered()) this.#move();
      else this.#draw();
    });
  }

  #isDrawn(): boolean {
    const { x, y, scale } = this.#camera.view;
    return x === this.#drawn.x && y === this.#drawn.y && scale === this.#drawn.scale;
  }

  /** Where the drawn picture stands now, and by how much it is scaled. */
  #place(): { readonly x: number; readonly y: number; readonly by: number } {
    const { view } = this.#camera;
    const by = view.scale / this.#drawn.scale;
    return {
      by,
      x: OVERSCAN + view.x - (OVERSCAN + this.#drawn.x) * by,
      y: OVERSCAN + view.y - (OVERSCAN + this.#drawn.y) * by,
    };
  }

  #isCovered(): boolean {
    const { x, y, by } = this.#place();
    const { width, height } = this.#camera.frame;
    const whole = { width: width + 2 * OVERSCAN, height: height + 2 * OVERSCAN };
    return (
      by < COARSE &&
      x <= OVERSCAN &&
      y <= OVERSCAN &&
      x + whole.width * by >= OVERSCAN + width &&
      y + whole.height * by >= OVERSCAN + height
    );
  }

  #move(): void {
    const { x, y, by } = this.#place();
    this.#stage.content.style.transformOrigin = "0 0";
    this.#stage.content.style.transform = `translate(${x}px, ${y}px) scale(${by})`;
  }

  #draw(): void {
    clearTimeout(this.#timer);
    this.#drawn = this.#camera.view;
    const { x, y, scale } = this.#drawn;
    this.#stage.position({ x: x + OVERSCAN, y: y + OVERSCAN });
    this.#stage.scale({ x: scale, y: scale });
    this.#stage.draw();
    this.#stage.content.style.transform = "";
  }
}
