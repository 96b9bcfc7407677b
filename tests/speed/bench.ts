import { readdirSync, readFileSync } from "node:fs";
import { loadavg } from "node:os";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { execFileSync } from "node:child_process";
import { all, compile, create } from "mathjs";
import { planBatch } from "../../lib/batch/plan.ts";
import { readChecks, runCheck } from "../../lib/checks.ts";
import { drawBands } from "../../lib/calculations/draws.ts";
import { CALCULATION_IDS, loadGraph } from "../../lib/calculations/registry.ts";
import { listen, siteServer } from "../../lib/command/serve.ts";
import { fitHeat, type HeatReading } from "../../lib/laws/heat-fit.ts";
import {
  heatProgramme,
  programmeAt,
  sampleProgramme,
  type HeatProgramme,
} from "../../lib/laws/heat-programme.ts";
import { brent } from "../../lib/numeric/root.ts";
import { density, massFraction, strength } from "../../lib/substances/ethanol-water.ts";
import { launchBrowser } from "../helpers/browser.ts";
import { OIML_DENSITIES } from "../helpers/oiml-densities.ts";
import { calculator, live } from "../helpers/pages.ts";
import { auditPages } from "./lighthouse.ts";
import { pageSizes, precacheSize } from "./sizes.ts";

interface Line {
  readonly what: string;
  readonly value: number;
  readonly unit: string;
  /** what design asks for: at least (≥) or at most (≤) */
  readonly bar?: string;
}

/** Whether a line keeps to its bar; nothing where there is none. */
function verdict({ value, bar }: Line): string {
  if (bar === undefined) return "";
  const [sign, limit] = bar.split(" ");
  const met = sign === "≥" ? value >= Number(limit) : value <= Number(limit);
  return met ? "pass" : "MISS";
}

const lines: Line[] = [];
function report(line: Line): void {
  lines.push(line);
  console.log(JSON.stringify(line));
}

/** Calls a second, median of some rounds; the sum keeps the work from being thrown away. */
function rate(call: (i: number) => number, calls: number): number {
  const rounds = Array.from({ length: 7 }, () => {
    let sum = 0;
    const start = performance.now();
    for (let i = 0; i < calls; i++) sum += call(i);
    const seconds = (performance.now() - start) / 1000;
    if (Number.isNaN(sum)) throw new Error("a benchmark computed nothing");
    return calls / seconds;
  });
  return rounds.sort((a, b) => a - b)[3] as number;
}

function percentile(times: readonly number[], share: number): number {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[Math.min(Math.floor(share * sorted.length), sorted.length - 1)] as number;
}

function numerics(): void {
  const p = (i: number): number => (i % 997) / 997;
  const t = (i: number): number => 1 + (i % 389) / 10;
  const ours = rate((i) => density(p(i), t(i)), 2_000_000);
  report({ what: "density", value: ours, unit: "calls/s", bar: "≥ 5e6" });
  report({
    what: "strength → mass fraction",
    value: rate((i) => massFraction(p(i)), 300_000),
    unit: "calls/s",
    bar: "≥ 5e5",
  });
  // The same inverse through general tools: Brent without a slope, and a polynomial by mathjs.
  const general = rate((i) => brent((x) => strength(x) - p(i), 0, 1, 1e-14), 30_000);
  report({ what: "the same inverse by Brent's method", value: general, unit: "calls/s" });
  const coefficients = [
    998.20123, -192.9769495, 389.1238958, -1668.103923, 13522.15441, -88292.78388, 306287.4042,
    -613838.1234, 747017.2998, -547846.1354, 223446.0334, -39032.85426,
  ];
  const compiled = compile(coefficients.map((a, k) => `${a} * p^${k}`).join(" + "));
  const library = rate((i) => compiled.evaluate({ p: p(i) }) as number, 20_000);
  const at20 = rate((i) => density(p(i), 20), 2_000_000);
  report({ what: "density at 20 °C by mathjs", value: library, unit: "calls/s" });
  report({ what: "density at 20 °C, ours over mathjs", value: at20 / library, unit: "times" });
}

async function graphs(): Promise<void> {
  const graph = await loadGraph();
  const batch = (i: number) => ({ batchVolume: 0.0003 + (i % 500) * 1e-6 });
  const each = (ids: readonly string[], call: (id: string, i: number) => boolean): number =>
    milliseconds((i) => ids.filter((id) => call(id, i)).length, 10);
  const evaluated = (id: string, i: number): boolean => graph.evaluate(id, batch(i)).ok;
  const unbanded = (id: string, i: number): boolean => graph.run(id, batch(i)) !== null;
  const withoutFit = CALCULATION_IDS.filter((id) => id !== "heat-fit");
  report({
    what: "plan of what to weigh, with bands",
    value: milliseconds((i) => (planBatch(graph, batch(i)).ok ? 1 : 0), 300),
    unit: "ms",
    bar: "≤ 1",
  });
  // The bar is for all calculations. Bands ask each some forty times; a fit of readings is no part of a plan.
  for (const [what, value] of [
    ["all calculations, with bands", each(CALCULATION_IDS, evaluated)],
    ["all calculations but the fit of readings, with bands", each(withoutFit, evaluated)],
    ["all calculations, without bands", each(CALCULATION_IDS, unbanded)],
    ["all calculations but the fit of readings, without bands", each(withoutFit, unbanded)],
    ["the evening in the bath, with bands", each(["evening"], evaluated)],
  ] as const)
    report({ what, value, unit: "ms", bar: "≤ 1" });
  const start = performance.now();
  drawBands(graph, "recipe", {}, 100_000, 1, ["waterMass"]);
  report({
    what: "100 000 draws of the recipe for one result, in Node",
    value: performance.now() - start,
    unit: "ms",
    bar: "≤ 250",
  });
}

const CHECKS = fileURLToPath(new URL("../../content/checks/", import.meta.url));

/** How far ours are from what is published. */
async function accuracy(): Promise<void> {
  const graph = await loadGraph();
  const checks = readdirSync(CHECKS).flatMap((file) =>
    readChecks(JSON.parse(readFileSync(CHECKS + file, "utf8"))),
  );
  report({
    what: `largest difference from ${OIML_DENSITIES.length} printed densities of OIML R 22`,
    value: Math.max(
      ...OIML_DENSITIES.map(([byVolume, printed]) =>
        Math.abs(density(massFraction(byVolume), 20) - printed),
      ),
    ),
    unit: "kg/m³",
    bar: "≤ 0.01",
  });
  const sound = checks.filter(({ misprint, differs }) => !misprint && !differs);
  report({
    what: `published values missed, of ${sound.length}`,
    value: sound.filter((check) => !runCheck(check, graph).within).length,
    unit: "values",
    bar: "≤ 0",
  });
  report({
    what: "published values that are misprinted or of other materials, shown as such",
    value: checks.length - sound.length,
    unit: "values",
  });
}

const NODES = {
  liquidHeatCapacity: 2230,
  bathHeatCapacity: 9580,
  exchangeConductance: 6,
  liquidLossConductance: 0.3,
  bathLossConductance: 2,
  roomTemperature: 20,
} as const;
const SONICATION = { liquid: 4, bath: 32 } as const;
const START = { liquid: 20, bath: 22 } as const;
const SIX_HOURS = { stintTime: 1800, restTime: 1200, stints: 7, coolDown: 1800 } as const;

/** Milliseconds a call, median of some rounds. */
function milliseconds(call: (i: number) => number, calls: number): number {
  return 1000 / rate(call, calls);
}

async function heat(): Promise<void> {
  const evening = { nodes: NODES, start: START, sonication: SONICATION, ...SIX_HOURS };
  const heater = { power: 150, setting: 28, on: true } as const;
  report({
    what: "six hours with a thermostat, 500 points",
    value: milliseconds((i) => {
      const pieces = heatProgramme({
        ...evening,
        heater: { ...heater, setting: 26 + (i % 7) / 4 },
      });
      return sampleProgramme(pieces, 500)[499]!.liquid;
    }, 300),
    unit: "ms",
    bar: "≤ 2",
  });
  againstGeneralSolver(evening);
  const pieces = heatProgramme({ ...evening, stints: 1, heater: { ...heater, on: false } });
  const readings = Array.from({ length: 60 }, (_, i): HeatReading => {
    const { liquid, bath } = programmeAt(pieces, i * 60);
    const rounded = (x: number): number => Math.round(x * 10) / 10;
    return { time: i * 60, liquid: rounded(liquid), bath: rounded(bath), running: i < 30 };
  });
  report({
    what: "fit of 60 readings",
    value: milliseconds(
      (i) => fitHeat(readings, NODES, { liquid: 5 + (i % 5), bath: 40 }).residualSd,
      40,
    ),
    unit: "ms",
    bar: "≤ 20",
  });
  const graph = await loadGraph(["sonication"]);
  const draw = (): number =>
    drawBands(graph, "sonication", {}, 100_000, 1, ["endLiquidTemperature"]).refused;
  draw();
  report({
    what: "100 000 draws of a stint for one result, in Node",
    value: milliseconds(draw, 1),
    unit: "ms",
    bar: "≤ 250",
  });
}

type State = readonly [liquid: number, bath: number];

/** mathjs' adaptive Runge–Kutta, which its types leave out. */
const { solveODE } = create(all ?? {}) as unknown as {
  solveODE(
    slopes: (time: number, state: State) => number[],
    span: readonly [number, number],
    start: State,
    options: { readonly tol: number },
  ): { readonly y: readonly State[] };
};

/** The same six hours by a general solver of differential equations, at the accuracy of a good thermometer. */
function againstGeneralSolver(evening: Omit<HeatProgramme, "heater">): void {
  const heater = { power: 0, setting: 20, on: false } as const;
  const exact = heatProgramme({ ...evening, heater });
  const slopes =
    (running: boolean) =>
    (_: number, [liquid, bath]: State): number[] => {
      const across = NODES.exchangeConductance * (bath - liquid);
      const lost = (x: number, g: number): number => g * (x - NODES.roomTemperature);
      return [
        ((running ? SONICATION.liquid : 0) + across - lost(liquid, NODES.liquidLossConductance)) /
          NODES.liquidHeatCapacity,
        ((running ? SONICATION.bath : 0) - across - lost(bath, NODES.bathLossConductance)) /
          NODES.bathHeatCapacity,
      ];
    };
  let worst = 0;
  const general = (): number => {
    let state: State = [START.liquid, START.bath];
    for (const { start, duration, stage } of exact) {
      const { y } = solveODE(slopes(stage === "stint"), [0, duration], state, { tol: 1e-6 });
      state = y.at(-1) as State;
      const ours = programmeAt(exact, start + duration);
      worst = Math.max(worst, Math.abs(state[0] - ours.liquid), Math.abs(state[1] - ours.bath));
    }
    return state[0];
  };
  const theirs = milliseconds(general, 3);
  const ours = milliseconds(
    () => programmeAt(heatProgramme({ ...evening, heater }), 21_600).liquid,
    1000,
  );
  report({ what: "six hours by mathjs solveODE, over ours", value: theirs / ours, unit: "times" });
  report({ what: "largest difference of the two at a joint", value: worst, unit: "K" });
}

const STRENGTHS = ["41", "42", "43,5", "44", "46", "47,5", "48", "51", "52,5", "55"];
const TYPED = [
  { path: "chapters/dilution/", field: "spiritStrength", texts: STRENGTHS },
  { path: "chapters/recipe/", field: "spiritStrength", texts: STRENGTHS },
  {
    path: "chapters/sonication/",
    field: "liquidTemperature",
    texts: ["20", "20,5", "21", "21,5", "22,5", "23", "23,5", "24", "24,5", "25"],
  },
] as const;

async function inBrowser(site: string): Promise<void> {
  const browser = await launchBrowser();
  for (const slowdown of [1, 4]) {
    const context = await browser.newContext({ serviceWorkers: "block" });
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    await session.send("Emulation.setCPUThrottlingRate", { rate: slowdown });
    for (const { path, field, texts } of TYPED) {
      await page.goto(site + path);
      await live(page);
      const id = path.split("/")[1] as string;
      await calculator(page, id)
        .field(field)
        .fill(texts[0] as string);
      await page.waitForTimeout(1500); // Plot is loaded by the first edit.
      for (const inView of [false, true]) {
        if (inView) {
          await page
            .locator(`live-figure[data-calculation="${id}"]`)
            .first()
            .scrollIntoViewIfNeeded();
          await page.waitForTimeout(500);
        }
        const times = await page.evaluate(
          async ([name, inputName, typed]) => {
            const input = document.querySelector<HTMLInputElement>(
              `form[data-calculation="${name}"] input[name="${inputName}"]`,
            );
            const taken: number[] = [];
            for (let round = 0; round < 20; round++)
              for (const text of typed) {
                if (!input) throw new Error("no field");
                input.value = text;
                const start = performance.now();
                input.dispatchEvent(new InputEvent("input", { bubbles: true }));
                // Everything is repainted in the same task and the microtasks after it; then the layout.
                await Promise.resolve();
                await new Promise((resolve) => queueMicrotask(() => resolve(undefined)));
                void document.body.offsetHeight;
                taken.push(performance.now() - start);
                await new Promise((resolve) => setTimeout(resolve, 20));
              }
            return taken;
          },
          [id, field, texts] as const,
        );
        for (const [name, share] of [
          ["p50", 0.5],
          ["p95", 0.95],
        ] as const)
          report({
            what: `keystroke → repaint, ${path}, ${inView ? "figure in view, " : ""}CPU ÷ ${slowdown}, ${name}`,
            value: percentile(times, share),
            unit: "ms",
            ...(slowdown === 1 && name === "p95" ? { bar: "≤ 8" } : {}),
          });
      }
    }
    await context.close();
  }
  await searchOffline(browser, site);
  await loadedScript(browser, site);
  await browser.close();
}

type Launched = Awaited<ReturnType<typeof launchBrowser>>;

/** From the first word typed to the first result, in a browser that never searched; the index is loaded meanwhile. */
async function coldSearch(browser: Launched, site: string): Promise<number> {
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(`${site}chapters/dilution/`);
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  await context.setOffline(true);
  await page.goto(`${site}chapters/dilution/`);
  // In the page, so that the clock starts with the key and no time passes between it and the word.
  const taken = await page.evaluate(async () => {
    const start = performance.now();
    const key = { key: "k", ctrlKey: true, bubbles: true, cancelable: true };
    document.dispatchEvent(new KeyboardEvent("keydown", key));
    const input = document.querySelector<HTMLInputElement>("dialog input[role=combobox]");
    if (!input) throw new Error("no field");
    input.value = "contraction";
    input.dispatchEvent(new InputEvent("input", { bubbles: true }));
    while (!document.querySelector("[role=option]")) {
      if (performance.now() - start > 10_000) throw new Error("no result");
      await new Promise((resolve) => requestAnimationFrame(resolve));
    }
    return performance.now() - start;
  });
  await context.close();
  return taken;
}

async function searchOffline(browser: Launched, site: string): Promise<void> {
  const times: number[] = [];
  for (let round = 0; round < 5; round++) times.push(await coldSearch(browser, site));
  report({
    what: "first search result, offline, cold, median of 5",
    value: percentile(times, 0.5),
    unit: "ms",
    bar: "≤ 150",
  });
}

async function loadedScript(browser: Launched, site: string): Promise<void> {
  for (const path of ["", "chapters/dilution/", "chapters/recipe/", "batch/"]) {
    const context = await browser.newContext({ serviceWorkers: "block" });
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    await session.send("Network.enable");
    const scripts = new Set<string>();
    let bytes = 0;
    session.on("Network.responseReceived", ({ requestId, response }) => {
      if (response.url.endsWith(".js")) scripts.add(requestId);
    });
    session.on("Network.loadingFinished", ({ requestId, encodedDataLength }) => {
      if (scripts.has(requestId)) bytes += encodedDataLength;
    });
    await page.goto(site + path, { waitUntil: "networkidle" });
    report({
      what: `script loaded before the first edit, /${path}`,
      value: bytes / 1000,
      unit: "kB over the wire, with headers",
      ...(path.startsWith("chapters") ? { bar: "≤ 25" } : {}),
    });
    await context.close();
  }
}

function sizes(): void {
  const all = pageSizes();
  const chapters = all.filter(({ page }) => page.startsWith("chapters/"));
  const most = (pick: (size: (typeof all)[number]) => number): number =>
    Math.max(...chapters.map(pick));
  report({
    what: "largest chapter, HTML gzip",
    value: most((s) => s.html) / 1000,
    unit: "kB",
    bar: "≤ 45",
  });
  report({
    what: "largest chapter, CSS gzip",
    value: most((s) => s.css) / 1000,
    unit: "kB",
    bar: "≤ 17",
  });
  const { sent, stored } = precacheSize();
  report({ what: "precache, as it is sent", value: sent / 1e6, unit: "MB", bar: "≤ 3" });
  report({ what: "precache, on disk", value: stored / 1e6, unit: "MB" });
}

async function audits(): Promise<void> {
  for (const { page, scores, lcp, cls } of await auditPages()) {
    for (const [category, value] of Object.entries(scores))
      report({ what: `Lighthouse, ${page}, ${category}`, value, unit: "of 100", bar: "≥ 100" });
    report({ what: `Lighthouse, ${page}, LCP`, value: lcp, unit: "ms", bar: "≤ 1500" });
    report({ what: `Lighthouse, ${page}, CLS`, value: cls, unit: "1", bar: "≤ 0.01" });
  }
}

/** Prints one JSON line a figure and one table at the end. Timings inform; nothing fails on them. */
async function main(): Promise<void> {
  const { values } = parseArgs({ options: { "no-build": { type: "boolean" } } });
  numerics();
  await graphs();
  await heat();
  await accuracy();
  if (!values["no-build"]) {
    const start = performance.now();
    execFileSync("npm", ["run", "-s", "build"], { stdio: "ignore" });
    report({
      what: "build of the whole site",
      value: (performance.now() - start) / 1000,
      unit: "s",
      bar: "≤ 20",
    });
  }
  sizes();
  const server = siteServer(fileURLToPath(new URL("../../dist/", import.meta.url)));
  const port = await listen(server, 4600);
  await inBrowser(`http://localhost:${port}/`);
  server.closeAllConnections();
  server.close();
  await audits();
  const load = loadavg()
    .map((average) => average.toFixed(1))
    .join(", ");
  console.log(`Load of this machine over 1, 5 and 15 minutes at the end: ${load}.`);
  console.table(
    lines.map((line) => ({
      what: line.what,
      value: Number(line.value.toPrecision(4)),
      unit: line.unit,
      bar: line.bar ?? "",
      kept: verdict(line),
    })),
  );
}

await main();
