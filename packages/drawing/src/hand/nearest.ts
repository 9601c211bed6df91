import type { Point } from "../route/grid.ts";

/** The place nearest to a wish that will do, sideways before up and down; undefined if there is none so near. */
export function nearestPlace(wish: Point, furthest: number, willDo: (at: Point) => boolean): Point | undefined {
  for (let far = 0; far <= furthest; far++)
    for (const [right, down] of ringOf(far)) {
      const at = { x: wish.x + right, y: wish.y + down };
      if (willDo(at)) return at;
    }
  return undefined;
}

/** Steps of this length. */
const ringOf = (far: number): readonly (readonly [number, number])[] =>
  Array.from({ length: far + 1 }, (_, i) => i).flatMap((y): (readonly [number, number])[] => [
    [far - y, y],
    [y - far, y],
    [far - y, -y],
    [y - far, -y],
  ]);
