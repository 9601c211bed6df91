/** A sheet that is begun has room around what stands on it, px at 100 %. */
export const LEAST_SHEET = { width: 1040, height: 640 };
