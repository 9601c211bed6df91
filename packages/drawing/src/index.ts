export { type LayoutOptions, layout, type Placed } from "./layout/layout.ts";
export { type Measured, measure } from "./measure/measure.ts";
export type { Marks, Scene, Sleeve } from "./scene/items.ts";
export { type LitPath, pathMarks } from "./scene/path-marks.ts";
export { scene } from "./scene/scene.ts";
export { wireWidth } from "./scene/wires.ts";
export type { ThemeName } from "./svg/theme.ts";
export { type SvgOptions, toSvg } from "./svg/to-svg.ts";
