export const VERSION = "0.1.0";
export const TOOL = `loomproof ${VERSION}`;
