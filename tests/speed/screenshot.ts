import { fileURLToPath } from "node:url";
import { listen, siteServer } from "../../lib/command/serve.ts";
import { launchBrowser } from "../helpers/browser.ts";
import { live } from "../helpers/pages.ts";

/** Makes the picture in README.md from the built site. */
const server = siteServer(fileURLToPath(new URL("../../dist/", import.meta.url)));
const port = await listen(server, 4700);
const browser = await launchBrowser();
const page = await browser.newPage({
  viewport: { width: 1280, height: 900 },
  colorScheme: "light",
});
await page.goto(`http://localhost:${port}/chapters/dilution/`);
await live(page);
await page.locator('form[data-calculation="dilution"]').scrollIntoViewIfNeeded();
await page.screenshot({ path: fileURLToPath(new URL("../screenshot.png", import.meta.url)) });
await browser.close();
server.closeAllConnections();
server.close();
