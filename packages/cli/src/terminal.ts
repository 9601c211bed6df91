/** Where the commands write. Passed in, so that they can be run without a process. */
export interface Terminal {
  readonly colour: boolean;
  readonly print: (text: string) => void;
  readonly error: (text: string) => void;
  /** Says what is being worked on, on a terminal only; undefined clears it. */
  readonly progress: (what: string | undefined) => void;
}

export function processTerminal(): Terminal {
  // Whoever reads has read enough, such as `head`: there is nobody left to tell, and nothing is wrong.
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
    process.exit();
  });
  const live = process.stderr.isTTY === true;
  return {
    colour: process.stdout.isTTY === true && process.env.NO_COLOR === undefined,
    print: (text) => process.stdout.write(`${text}\n`),
    error: (text) => process.stderr.write(`${text}\n`),
    progress: (what) => {
      if (live) process.stderr.write(what === undefined ? "\r\u001b[K" : `\r\u001b[Klooking at ${what} ...`);
    },
  };
}
