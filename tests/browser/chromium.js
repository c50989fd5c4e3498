// Finds a Chromium for the browser tests; run on its own, it prints the path of the one it found.
import { accessSync, constants, existsSync, mkdirSync, renameSync, rmSync, statSync } from "node:fs";
import { delimiter, join } from "node:path";
import { argv, env, pid } from "node:process";
import { fileURLToPath } from "node:url";

const NAMES = ["chromium", "chromium-browser", "google-chrome"];
const UNPACKED = fileURLToPath(new URL("node_modules/.cache/chromium", import.meta.url));

/**
 * The first of these that is there: the path in CHROMIUM, an installed browser, the one inside the npm package.
 * @returns {Promise<string>}
 */
export async function findChromium() {
  return env.CHROMIUM || installed() || (await fromPackage());
}

/** @returns {string | undefined} */
function installed() {
  const folders = (env.PATH ?? "").split(delimiter);
  return NAMES.flatMap((name) => folders.map((folder) => join(folder, name))).find(isExecutable);
}

/** @param {string} path */
function isExecutable(path) {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}

/**
 * Unpacks the browser of the npm package beside it, once. The folder gets its final name when it is
 * complete, so an interrupted run leaves no broken browser behind.
 * @returns {Promise<string>}
 */
async function fromPackage() {
  if (!existsSync(UNPACKED)) {
    const partial = `${UNPACKED}-${pid}`;
    mkdirSync(partial, { recursive: true });
    await unpackInto(partial);
    rmSync(UNPACKED, { recursive: true, force: true });
    renameSync(partial, UNPACKED);
  }
  return join(UNPACKED, "chromium");
}

/**
 * The package unpacks to the temporary folder and nowhere else.
 * @param {string} folder
 */
async function unpackInto(folder) {
  const before = env.TMPDIR;
  env.TMPDIR = folder;
  const { default: packaged } = await import("@sparticuz/chromium");
  await packaged.executablePath();
  if (before === undefined) delete env.TMPDIR;
  else env.TMPDIR = before;
}

if (argv[1] === fileURLToPath(import.meta.url)) console.log(await findChromium());
