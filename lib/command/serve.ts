import { readFile, stat } from "node:fs/promises";
import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import { extname, join, normalize, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs, promisify } from "node:util";
import { brotliCompress, constants, gzip } from "node:zlib";

const HELP = `usage: npm start -- [--port 4321] [--base /some/path/]
Serves the built site on this computer only. A taken port is passed over for the next free one.`;

const TYPES: Readonly<Record<string, string>> = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".txt": "text/plain; charset=utf-8",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json; charset=utf-8",
  ".woff2": "font/woff2",
};
const COMPRESSED = /^(?:text\/|application\/(?:json|manifest)|image\/svg)/;
const PORTS_TRIED = 20;

type Encoding = "br" | "gzip" | "identity";

interface Served {
  readonly type: string;
  readonly etag: string;
  readonly body: Buffer;
}

function encodingFor(request: IncomingMessage, type: string): Encoding {
  if (!COMPRESSED.test(type)) return "identity";
  const accepted = String(request.headers["accept-encoding"] ?? "").replaceAll(
    /[\w*-]+\s*;\s*q=0(?:\.0*)?(?=\s*(?:,|$))/g,
    "",
  );
  return /\bbr\b/.test(accepted) ? "br" : /\bgzip\b/.test(accepted) ? "gzip" : "identity";
}

async function encode(body: Buffer, encoding: Encoding): Promise<Buffer> {
  if (encoding === "gzip") return promisify(gzip)(body);
  if (encoding === "identity") return body;
  // As a host would do it that compresses each file once: a tenth smaller than at 6, for some 50 ms.
  return promisify(brotliCompress)(body, { params: { [constants.BROTLI_PARAM_QUALITY]: 10 } });
}

/** "/a/b" and "a/b/" both mean "/a/b/". */
function folderPath(text: string): string {
  const inner = text.split("/").filter(Boolean).join("/");
  return inner === "" ? "/" : `/${inner}/`;
}

/**
 * A server for one folder of built files, under any base path.
 *
 * @param folder - the built site
 * @param base - path that the site's root has, with slashes around: "/" or "/a/b/"
 */
export function siteServer(folder: string, base = "/"): Server {
  // Each file is compressed once; a rebuild changes its time and so its key.
  const encoded = new Map<string, Promise<Buffer>>();

  async function read(file: string, encoding: Encoding, type: string): Promise<Served> {
    const { mtimeMs, size } = await stat(file);
    const etag = `"${Math.round(mtimeMs).toString(36)}-${size.toString(36)}-${encoding}"`;
    const key = `${file} ${etag}`;
    let body = encoded.get(key);
    if (!body) {
      body = readFile(file).then((bytes) => encode(bytes, encoding));
      encoded.set(key, body);
    }
    return { type, etag, body: await body };
  }

  async function notFound(response: ServerResponse): Promise<void> {
    const page = await readFile(join(folder, "404.html"), "utf8").catch(() => "Not found");
    // The one page that may stand at any depth: its links start at the host's root.
    const body =
      base === "/" ? page : page.replaceAll(/((?:href|src|data-root)=")\/(?!\/)/g, `$1${base}`);
    response.writeHead(404, { "content-type": TYPES[".html"], "cache-control": "no-cache" });
    response.end(body);
  }

  async function answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    if (request.method !== "GET" && request.method !== "HEAD") {
      response.writeHead(405, { allow: "GET, HEAD" });
      response.end();
      return;
    }
    // Two slashes at the start would name another host.
    const asked = request.url ?? "/";
    if (asked.startsWith("//") || !URL.canParse(asked, "http://localhost"))
      return notFound(response);
    const url = new URL(asked, "http://localhost");
    let path: string;
    try {
      path = decodeURIComponent(url.pathname);
    } catch {
      return notFound(response);
    }
    if (`${path}/` === base) return redirect(response, base + url.search);
    if (!path.startsWith(base) || path.includes("\0")) return notFound(response);
    let file = join(folder, normalize(`/${path.slice(base.length)}`));
    if (!`${file}${sep}`.startsWith(join(folder, sep))) return notFound(response);
    const entry = await stat(file).catch(() => undefined);
    if (!entry) return notFound(response);
    if (entry.isDirectory()) {
      // Links inside are relative, so a folder's address must end in a slash.
      if (!path.endsWith("/")) return redirect(response, `${url.pathname}/${url.search}`);
      file = join(file, "index.html");
      if (!(await stat(file).catch(() => undefined))) return notFound(response);
    }
    const type = TYPES[extname(file)] ?? "application/octet-stream";
    const encoding = encodingFor(request, type);
    const served = await read(file, encoding, type);
    const headers: Record<string, string> = {
      "content-type": served.type,
      "cache-control": path.includes("/_astro/")
        ? "public, max-age=31536000, immutable"
        : "no-cache",
      etag: served.etag,
      vary: "accept-encoding",
      "x-content-type-options": "nosniff",
    };
    if (request.headers["if-none-match"] === served.etag) {
      response.writeHead(304, headers);
      response.end();
      return;
    }
    if (encoding !== "identity") headers["content-encoding"] = encoding;
    headers["content-length"] = String(served.body.length);
    response.writeHead(200, headers);
    response.end(request.method === "HEAD" ? undefined : served.body);
  }

  return createServer((request, response) => {
    answer(request, response).catch((error: unknown) => {
      console.error(error);
      if (!response.headersSent) response.writeHead(500);
      response.end();
    });
  });
}

function redirect(response: ServerResponse, location: string): void {
  // A path that begins with two slashes would name another host.
  response.writeHead(301, { location: location.replace(/^\/+/, "/") });
  response.end();
}

/** Listens on the first free port from `from` on, for this computer alone. */
export async function listen(server: Server, from: number): Promise<number> {
  for (let port = from; port < from + PORTS_TRIED; port += 1) {
    const free = await new Promise<boolean>((resolve, reject) => {
      server.once("error", (error: NodeJS.ErrnoException) =>
        error.code === "EADDRINUSE" ? resolve(false) : reject(error),
      );
      server.listen(port, "127.0.0.1", () => resolve(true));
    });
    server.removeAllListeners("error");
    if (free) return port;
  }
  throw new Error(
    `no free port from ${from} to ${from + PORTS_TRIED - 1}: give another with --port`,
  );
}

async function main(): Promise<void> {
  const { values } = parseArgs({
    options: {
      port: { type: "string", default: "4321" },
      base: { type: "string", default: "/" },
      help: { type: "boolean", default: false },
    },
  });
  const port = Number(values.port);
  if (values.help || !Number.isInteger(port) || port < 1 || port > 65_535) {
    console.log(HELP);
    process.exitCode = values.help ? 0 : 1;
    return;
  }
  const folder = fileURLToPath(new URL("../../dist/", import.meta.url));
  if (!(await stat(join(folder, "index.html")).catch(() => undefined))) {
    console.error("There is no built site yet: run `npm run build` first.");
    process.exitCode = 1;
    return;
  }
  const base = folderPath(values.base);
  const taken = await listen(siteServer(folder, base), port);
  console.log(`Bilayer Bench is at http://localhost:${taken}${base} – stop it with Ctrl+C.`);
}

if (import.meta.main) await main();
