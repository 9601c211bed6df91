import { LIMITS } from "@loomproof/netlist";

/** Takes a file that a person chose; with a handle where the browser can write it again. */
export type TakeFile = (file: File, handle?: FileSystemFileHandle) => void;

export type FileRead = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly says: string };

const MEGA = 1_000_000;

/** The text of a file, or in words why there is none. */
export async function readFile(file: File): Promise<FileRead> {
  // Asked before it is read: a film dropped by mistake would fill the memory.
  if (file.size > LIMITS.bytes)
    return {
      ok: false,
      says: `${file.name} is no loom: it has ${Math.round(file.size / MEGA)} MB, and a loom at most ${LIMITS.bytes / MEGA}.`,
    };
  try {
    return { ok: true, text: await file.text() };
  } catch {
    return {
      ok: false,
      says: `${file.name} cannot be read. Is it a folder, or has it just been changed? Choose it again.`,
    };
  }
}
