// Finds a Chromium-family browser; installs Debian's when that is possible; else says what to do.

import { spawnSync } from "node:child_process";
import { accessSync, constants, existsSync, readFileSync } from "node:fs";
import { delimiter, join } from "node:path";

/** @param {string} p */
const isExe = (p) => {
  try {
    accessSync(p, constants.X_OK);
    return true;
  } catch {
    return false;
  }
};
/** @param {string[]} names */
const onPath = (names) => (process.env.PATH ?? "").split(delimiter).flatMap((d) => names.map((n) => join(d, n)));

export function candidates(platform = process.platform, env = process.env) {
  if (platform === "darwin") {
    const apps = ["Google Chrome", "Chromium", "Microsoft Edge"];
    return ["/Applications", join(env.HOME ?? "", "Applications")].flatMap((d) =>
      apps.map((a) => `${d}/${a}.app/Contents/MacOS/${a}`),
    );
  }
  if (platform === "win32") {
    const roots = [env.PROGRAMFILES, env["PROGRAMFILES(X86)"], env.LOCALAPPDATA].filter(Boolean);
    return roots.flatMap((r) =>
      [
        "Google\\Chrome\\Application\\chrome.exe",
        "Chromium\\Application\\chrome.exe",
        "Microsoft\\Edge\\Application\\msedge.exe",
      ].map((p) => `${r}\\${p}`),
    );
  }
  return onPath([
    "chromium",
    "chromium-browser",
    "google-chrome-stable",
    "google-chrome",
    "microsoft-edge-stable",
    "microsoft-edge",
  ]);
}

const isDebianLike = () => {
  try {
    return /^(ID|ID_LIKE)=.*(debian|ubuntu)/m.test(readFileSync("/etc/os-release", "utf8"));
  } catch {
    return false;
  }
};

export function findBrowser({ install = true, log = console.error } = {}) {
  const asked = process.env.LOOMPROOF_BROWSER;
  if (asked) {
    if (!isExe(asked)) throw new Error(`LOOMPROOF_BROWSER=${asked} is not a program that can be run.`);
    return asked;
  }
  const found = candidates().find((p) => (process.platform === "win32" ? existsSync(p) : isExe(p)));
  if (found) return found;
  if (install && process.platform === "linux" && isDebianLike() && process.getuid?.() === 0) {
    log("No browser found: installing Debian's chromium (about a minute) ...");
    const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
    /** @param {string[]} args */
    const run = (args) => spawnSync("apt-get", args, { env, stdio: ["ignore", "ignore", "inherit"] }).status === 0;
    if (run(["-q", "update"]) && run(["-q", "install", "-y", "--no-install-recommends", "chromium"])) {
      const now = candidates().find(isExe);
      if (now) return now;
    }
    throw new Error("apt-get could not install chromium. See the lines above.");
  }
  throw new Error(
    "The browser tests need Chromium, Chrome or Edge, and none was found.\n  Debian/Ubuntu: sudo apt-get install chromium\n  Otherwise: install one of them, or set LOOMPROOF_BROWSER=/path/to/it.",
  );
}

/**
 * What a browser does beside the page. Without the last two it loads two pages of its own for the address line with each
 * window, which costs more than our page does; without the others it asks networks, or behaves unlike on a person's desk.
 * The list takes the place of playwright's own, so what is needed of that stands here too. Names unknown to a browser do
 * nothing.
 */
const FEATURES_OFF = [
  "AvoidUnnecessaryBeforeUnloadCheckSync",
  "DestroyProfileOnBrowserClose",
  "HttpsUpgrades",
  "HttpsFirstBalancedModeAutoEnable",
  "LensOverlay",
  "MediaRouter",
  "PaintHolding",
  "ThirdPartyStoragePartitioning",
  "OptimizationHints",
  "NetworkTimeServiceQuerying",
  "AimEnabled",
  "PreconnectToSearch",
  "WebUIOmniboxPopup",
  "WebUIOmniboxAimPopup",
];

/** Launch options shared by every browser test.
 * @param {string} executablePath */
export function launchOptions(executablePath) {
  const root = process.getuid?.() === 0;
  return {
    executablePath,
    headless: true,
    args: [
      ...(root ? ["--no-sandbox"] : []),
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      `--disable-features=${FEATURES_OFF.join(",")}`,
    ],
  };
}
if (process.argv[1] === import.meta.filename) {
  try {
    console.log(findBrowser());
  } catch (e) {
    console.error(e instanceof Error ? e.message : e);
    process.exit(1);
  }
}
