import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { TestProject } from "vitest/node";
import { listen, siteServer } from "../../lib/command/serve.ts";
import { findBrowser } from "../helpers/browser.ts";

declare module "vitest" {
  export interface ProvidedContext {
    /** the site at a host's root, with a slash at the end */
    readonly site: string;
    /** the same built files under a folder */
    readonly subSite: string;
  }
}

const SUB_PATH = "/some/folder/";

/** Serves the built site for all browser tests, once at the root and once under a folder. */
export async function setup(project: TestProject): Promise<() => Promise<void>> {
  findBrowser(); // Missing or not, say so before the first test.
  const folder = fileURLToPath(new URL("../../dist/", import.meta.url));
  if (!existsSync(`${folder}index.html`))
    execFileSync("npm", ["run", "-s", "build"], { stdio: "inherit" });
  const servers = [siteServer(folder), siteServer(folder, SUB_PATH)] as const;
  const port = await listen(servers[0], 4400);
  const subPort = await listen(servers[1], port + 1);
  project.provide("site", `http://localhost:${port}/`);
  project.provide("subSite", `http://localhost:${subPort}${SUB_PATH}`);
  return async () => {
    for (const server of servers) {
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    }
  };
}
