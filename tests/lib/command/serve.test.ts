import { mkdir, mkdtemp, rm, utimes, writeFile } from "node:fs/promises";
import { request, type IncomingHttpHeaders, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { brotliDecompressSync, gunzipSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listen, siteServer } from "../../../lib/command/serve.ts";

const PAGE = `<!doctype html><p>${"A page that repeats itself. ".repeat(40)}</p>`;
const MISSING =
  '<html data-root="/"><link href="/a.css"><script src="/a.js"></script><a href="//example.org/">';
const FILES: Readonly<Record<string, string>> = {
  "site/index.html": PAGE,
  "site/404.html": MISSING,
  "site/chapters/index.html": "<p>Chapters</p>",
  "site/empty/note.txt": "no index here",
  "site/_astro/page.css": "p { color: red }",
  "site/mark.png": "not really a picture",
  "site/search.wasm": "not really a program",
  "site/with space/é.txt": "odd names",
  "secret.txt": "SECRET",
  "site-beside/secret.txt": "SECRET",
};

let root: string;
let folder: string;
const servers: Server[] = [];

beforeAll(async () => {
  root = await mkdtemp(join(tmpdir(), "serve-"));
  folder = join(root, "site");
  for (const [file, text] of Object.entries(FILES)) {
    await mkdir(dirname(join(root, file)), { recursive: true });
    await writeFile(join(root, file), text);
  }
});

afterAll(async () => {
  for (const server of servers) {
    server.closeAllConnections();
    await new Promise((resolve) => server.close(resolve));
  }
  await rm(root, { recursive: true });
});

/** Serves on whatever port is free. */
async function serve(base?: string, from = folder): Promise<number> {
  const server = siteServer(from, base);
  servers.push(server);
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  return (server.address() as AddressInfo).port;
}

interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: Buffer;
  readonly text: string;
}

/** The path goes out as it is written: no client tidies it. */
function ask(
  port: number,
  path: string,
  headers: Readonly<Record<string, string>> = {},
  method = "GET",
): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const asked = request({ host: "127.0.0.1", port, path, method, headers }, (response) => {
      const parts: Buffer[] = [];
      response.on("data", (part: Buffer) => parts.push(part));
      response.on("end", () => {
        const body = Buffer.concat(parts);
        resolve({
          status: response.statusCode ?? 0,
          headers: response.headers,
          body,
          text: body.toString("utf8"),
        });
      });
    });
    asked.on("error", reject);
    asked.end();
  });
}

describe("siteServer(folder)", () => {
  let port: number;
  beforeAll(async () => {
    port = await serve();
  });

  it.each([
    ["/", PAGE, "text/html; charset=utf-8"],
    ["/index.html", PAGE, "text/html; charset=utf-8"],
    ["/chapters/", "<p>Chapters</p>", "text/html; charset=utf-8"],
    ["/chapters/?x=1", "<p>Chapters</p>", "text/html; charset=utf-8"],
    ["/_astro/page.css", "p { color: red }", "text/css; charset=utf-8"],
    ["/mark.png", "not really a picture", "image/png"],
    ["/search.wasm", "not really a program", "application/wasm"],
    ["/with%20space/%C3%A9.txt", "odd names", "text/plain; charset=utf-8"],
  ])("serves %s with its type", async (path, text, type) => {
    const answer = await ask(port, path);
    expect(answer.status).toBe(200);
    expect(answer.text).toBe(text);
    expect(answer.headers["content-type"]).toBe(type);
    expect(answer.headers["content-length"]).toBe(String(answer.body.length));
    expect(answer.headers["x-content-type-options"]).toBe("nosniff");
  });

  it.each([
    "/../secret.txt",
    "/../../secret.txt",
    "/chapters/../../secret.txt",
    "/%2e%2e/secret.txt",
    "/..%2fsecret.txt",
    "/..%5csecret.txt",
    "/chapters/..%2f..%2fsecret.txt",
    "/..%2fsite-beside/secret.txt",
    "/%2e%2e%2fsite-beside%2fsecret.txt",
    "/....//secret.txt",
    "/chapters/%00/../../secret.txt",
  ])("gives nothing from outside the folder for %s", async (path) => {
    const answer = await ask(port, path);
    expect(answer.text).not.toContain("SECRET");
    expect(answer.status).toBe(404);
  });

  it.each(["/gone", "/gone/", "/chapters/gone.html", "/empty/", "/index.html/", "/%", "/%00"])(
    "shows the page for missing things for %s",
    async (path) => {
      const answer = await ask(port, path);
      expect(answer.status).toBe(404);
      expect(answer.headers["content-type"]).toBe("text/html; charset=utf-8");
      expect(answer.text).toBe(MISSING);
    },
  );

  it("says so in words where there is no such page", async () => {
    const bare = await serve("/", join(folder, "chapters"));
    expect(await ask(bare, "/gone")).toMatchObject({ status: 404, text: "Not found" });
  });

  it.each([
    ["/chapters", "/chapters/"],
    ["/chapters?x=1&y=%20", "/chapters/?x=1&y=%20"],
    ["/with%20space", "/with%20space/"],
  ])("sends %s to its slash", async (path, location) => {
    const answer = await ask(port, path);
    expect(answer.status).toBe(301);
    expect(answer.headers.location).toBe(location);
  });

  it("never sends to another host", async () => {
    for (const path of ["//example.org/chapters", "/.//example.org/..//chapters", "///chapters"]) {
      const { headers } = await ask(port, path);
      expect(headers.location ?? "/").toMatch(/^\/(?!\/)/);
    }
  });

  it.each([
    ["br", "br", brotliDecompressSync],
    ["gzip, deflate, br", "br", brotliDecompressSync],
    ["gzip, deflate", "gzip", gunzipSync],
  ])("compresses a page for who accepts %s", async (accepted, encoding, decompress) => {
    const answer = await ask(port, "/", { "accept-encoding": accepted });
    expect(answer.headers["content-encoding"]).toBe(encoding);
    expect(answer.headers["vary"]).toBe("accept-encoding");
    expect(answer.body.length).toBeLessThan(PAGE.length / 2);
    expect(answer.headers["content-length"]).toBe(String(answer.body.length));
    expect(decompress(answer.body).toString("utf8")).toBe(PAGE);
  });

  it.each([
    ["/", "deflate"],
    ["/", ""],
    ["/mark.png", "gzip, br"],
    ["/search.wasm", "gzip, br"],
  ])("sends %s as it is to who accepts “%s”", async (path, accepted) => {
    const answer = await ask(port, path, { "accept-encoding": accepted });
    expect(answer.headers).not.toHaveProperty("content-encoding");
    expect(answer.text).toBe(FILES[`site${path === "/" ? "/index.html" : path}`]);
  });

  it("says 304 with nothing to whom has it already, for that encoding only", async () => {
    const first = await ask(port, "/");
    const etag = first.headers.etag!;
    expect(etag).toMatch(/^"[^"]+"$/);
    const again = await ask(port, "/", { "if-none-match": etag });
    expect(again.status).toBe(304);
    expect(again.body).toHaveLength(0);
    expect(again.headers.etag).toBe(etag);
    const packed = await ask(port, "/", { "if-none-match": etag, "accept-encoding": "br" });
    expect(packed.status).toBe(200);
    expect(packed.headers.etag).not.toBe(etag);
    expect((await ask(port, "/", { "if-none-match": '"another"' })).status).toBe(200);
  });

  it("serves the new page after a rebuild", async () => {
    const file = join(folder, "rebuilt.html");
    const times = [1_000_000_000, 1_000_000_060];
    const answers: Answer[] = [];
    for (const [i, time] of times.entries()) {
      await writeFile(file, `page ${i}`);
      await utimes(file, time, time);
      answers.push(await ask(port, "/rebuilt.html", { "accept-encoding": "gzip" }));
    }
    expect(answers.map(({ body }) => gunzipSync(body).toString())).toEqual(["page 0", "page 1"]);
    expect(answers[0]!.headers.etag).not.toBe(answers[1]!.headers.etag);
  });

  it("lets only files with a hash in their name be kept", async () => {
    expect((await ask(port, "/_astro/page.css")).headers["cache-control"]).toContain("immutable");
    for (const path of ["/", "/mark.png", "/gone"])
      expect((await ask(port, path)).headers["cache-control"]).toBe("no-cache");
  });

  it("answers HEAD with the head alone", async () => {
    const answer = await ask(port, "/", {}, "HEAD");
    expect(answer.status).toBe(200);
    expect(answer.headers["content-length"]).toBe(String(PAGE.length));
    expect(answer.body).toHaveLength(0);
  });

  it.each(["POST", "PUT", "DELETE"])("refuses %s and says what it takes", async (method) => {
    const answer = await ask(port, "/", {}, method);
    expect(answer.status).toBe(405);
    expect(answer.headers.allow).toBe("GET, HEAD");
    expect(answer.body).toHaveLength(0);
  });
});

describe("siteServer(folder, base)", () => {
  let port: number;
  beforeAll(async () => {
    port = await serve("/some/path/");
  });

  it("serves the site under its path and nothing beside it", async () => {
    expect((await ask(port, "/some/path/")).text).toBe(PAGE);
    expect((await ask(port, "/some/path/chapters/")).text).toBe("<p>Chapters</p>");
    for (const path of ["/", "/chapters/", "/some/", "/some/pathchapters/", "/some/path2/"])
      expect((await ask(port, path)).status, path).toBe(404);
  });

  it("sends the path without its slash to the one with it, and folders likewise", async () => {
    const start = await ask(port, "/some/path?x=1");
    expect([start.status, start.headers.location]).toEqual([301, "/some/path/?x=1"]);
    const inner = await ask(port, "/some/path/chapters");
    expect([inner.status, inner.headers.location]).toEqual([301, "/some/path/chapters/"]);
  });

  it("starts the links of the page for missing things at its path", async () => {
    for (const path of ["/some/path/gone", "/some/path/deep/er/gone", "/elsewhere"])
      expect(await ask(port, path)).toMatchObject({
        status: 404,
        text: '<html data-root="/some/path/"><link href="/some/path/a.css"><script src="/some/path/a.js"></script><a href="//example.org/">',
      });
  });

  it.each([
    "/some/path/../secret.txt",
    "/some/path/..%2fsecret.txt",
    "/some/path/%2e%2e%2f%2e%2e/secret.txt",
  ])("gives nothing from outside the folder for %s", async (path) => {
    const answer = await ask(port, path);
    expect(answer.status).toBe(404);
    expect(answer.text).not.toContain("SECRET");
  });
});

describe("listen(server, from)", () => {
  it("passes over a port that is taken, and answers on the next", async () => {
    const taken = await serve();
    const server = siteServer(folder);
    servers.push(server);
    const port = await listen(server, taken);
    expect(port).toBeGreaterThan(taken);
    expect(port).toBeLessThan(taken + 20);
    expect((await ask(port, "/")).status).toBe(200);
    expect((server.address() as AddressInfo).address).toBe("127.0.0.1");
  });

  it("passes on whatever else goes wrong", async () => {
    await expect(listen(siteServer(folder), 70_000)).rejects.toThrow(RangeError);
  });
});
