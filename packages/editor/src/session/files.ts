// Real files, where the browser can write them; else its downloads.

interface Pickers {
  readonly showOpenFilePicker?: (options: object) => Promise<readonly FileSystemFileHandle[]>;
  readonly showSaveFilePicker?: (options: object) => Promise<FileSystemFileHandle>;
}

/** Not yet in the types of the DOM. */
interface Permission {
  readonly requestPermission?: (how: { readonly mode: "readwrite" }) => Promise<PermissionState>;
}

const pickers = (): Pickers => window as Pickers;
const types = [{ description: "Loom", accept: { "application/json": [".json"] } }];

/** What came of a dialog of the browser. "no dialog": it has none that gives a file to write to. */
export type Chosen = FileSystemFileHandle | "cancelled" | "no dialog";

export const chooseFile = (): Promise<Chosen> =>
  chosen(async () => (await pickers().showOpenFilePicker?.({ types }))?.[0]);

export const chooseTarget = (name: string): Promise<Chosen> =>
  chosen(() => pickers().showSaveFilePicker?.({ types, suggestedName: name }));

async function chosen(ask: () => Promise<FileSystemFileHandle | undefined> | undefined): Promise<Chosen> {
  try {
    return (await ask()) ?? "no dialog";
  } catch (error) {
    return isNamed(error, "AbortError") ? "cancelled" : "no dialog";
  }
}

/** "changed": what stands on the disk is not what was seen there last. "gone": there is no such file any more. */
export type Written = "written" | "changed" | "gone" | "refused";

/** Writes a file, unless what stands there is not what was `seen`; undefined writes in any case. */
export async function writeFile(
  handle: FileSystemFileHandle,
  text: string,
  seen: string | undefined,
): Promise<Written> {
  try {
    const { requestPermission } = handle as Permission;
    if (requestPermission !== undefined && (await requestPermission.call(handle, { mode: "readwrite" })) !== "granted")
      return "refused";
    if (seen !== undefined && (await (await handle.getFile()).text()) !== seen) return "changed";
    const out = await handle.createWritable();
    await out.write(text);
    await out.close();
    return "written";
  } catch (error) {
    return isNamed(error, "NotFoundError") ? "gone" : "refused";
  }
}

/** Hands the text to the browser's downloads. */
export function download(name: string, text: string, type = "application/json"): void {
  const url = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  // The browser has taken it by then.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

const isNamed = (error: unknown, name: string): boolean => error instanceof DOMException && error.name === name;
