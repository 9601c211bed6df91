import { get, set } from "idb-keyval";

/** The loom that was opened last, kept in this browser and nowhere else. */
export interface Kept {
  readonly name: string;
  readonly title: string;
  readonly text: string;
}

const KEY = "loomproof last";

/** Undefined if there is none, or if the browser keeps nothing. */
export async function lastKept(): Promise<Kept | undefined> {
  try {
    return await get<Kept>(KEY);
  } catch {
    return undefined;
  }
}

/** A browser that refuses to keep anything is no reason not to open a loom. */
export async function keep(kept: Kept): Promise<void> {
  try {
    await set(KEY, kept);
  } catch {
    // Nothing is lost: the file is where it was.
  }
}
