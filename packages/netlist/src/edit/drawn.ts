import type { Loom } from "../loom/schema.ts";

/** Takes places and routes out of the drawing; a group that is left empty goes too. */
export function withoutDrawn(
  loom: Loom,
  gone: { readonly places?: readonly string[]; readonly routes?: readonly string[] },
): Loom {
  const { drawing } = loom;
  if (drawing === undefined) return loom;
  const { places, routes, ...rest } = drawing;
  const left = {
    ...rest,
    ...kept("places", places, gone.places ?? []),
    ...kept("routes", routes, gone.routes ?? []),
  };
  const { drawing: _, ...others } = loom;
  return Object.keys(left).length === 0 ? others : { ...loom, drawing: left };
}

/** The group without what is gone, under its name; nothing when that leaves nothing. */
function kept<T>(name: string, group: Readonly<Record<string, T>> | undefined, gone: readonly string[]) {
  const left = Object.entries(group ?? {}).filter(([key]) => !gone.includes(key));
  return left.length === 0 ? {} : { [name]: Object.fromEntries(left) };
}
