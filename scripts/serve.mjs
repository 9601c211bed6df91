// Serves the built page on this machine only.
import { createReadStream, existsSync, statSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join, normalize, sep } from "node:path";
import { root } from "./step.mjs";

const FIRST_PORT = 4173;
const TRIES = 20;
const folder = join(root, "packages", "editor", "dist");
/** @type {Readonly<Record<string, string>>} */
const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".css": "text/css",
  ".woff2": "font/woff2",
  ".svg": "image/svg+xml",
};

const server = createServer((request, response) => {
  const path = asked(request.url ?? "/");
  const file = join(folder, path === sep ? "index.html" : path);
  if (!file.startsWith(folder + sep) || !existsSync(file) || !statSync(file).isFile()) {
    response.writeHead(404).end("Not here.");
    return;
  }
  response.writeHead(200, {
    "content-type": TYPES[extname(file)] ?? "application/octet-stream",
    "cache-control": "no-store",
  });
  createReadStream(file).pipe(response);
});

/** The path of a request; one that cannot be decoded is a file that is not there. @param {string} url */
function asked(url) {
  try {
    return normalize(decodeURIComponent(new URL(url, "http://localhost").pathname));
  } catch {
    return "";
  }
}

/** Shows an address in the person's browser, where there is a screen and someone at the terminal. @param {string} url */
export async function show(url) {
  const hasScreen = process.platform !== "linux" || process.env.DISPLAY || process.env.WAYLAND_DISPLAY;
  if (!process.stdout.isTTY || process.env.CI || !hasScreen) return;
  const { default: open } = await import("open");
  // The address stands in the terminal too: a browser that does not come up is no reason to stop.
  await open(url).catch(() => {});
}

/** Resolves with the address once the page is served; on the first free port. @returns {Promise<string>} */
export function serve(port = FIRST_PORT) {
  return new Promise((resolve, reject) => {
    server.once("error", (/** @type {NodeJS.ErrnoException} */ error) => {
      if (error.code === "EADDRINUSE" && port < FIRST_PORT + TRIES) resolve(serve(port + 1));
      else reject(error);
    });
    server.listen(port, "127.0.0.1", () => resolve(`http://127.0.0.1:${port}/`));
  });
}

for (const signal of /** @type {const} */ (["SIGINT", "SIGTERM"]))
  process.once(signal, () => {
    server.close();
    server.closeAllConnections();
    process.exit(0);
  });
