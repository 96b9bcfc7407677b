import { parseHTML } from "linkedom";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { made, setText } from "../../../components/shell/elements.ts";

beforeEach(() => {
  const { document, Text } = parseHTML("<!doctype html><html><body></body></html>");
  vi.stubGlobal("document", document);
  vi.stubGlobal("Text", Text);
});
afterEach(() => void vi.unstubAllGlobals());

describe("made(tag, props, ...children)", () => {
  it("gives attributes with a value, without one, or none", () => {
    const button = made("button", { type: "button", hidden: true, disabled: false }, "Go");
    expect(["type", "hidden", "disabled"].map((name) => button.getAttribute(name))).toEqual([
      "button",
      "",
      null,
    ]);
    expect(button.textContent).toBe("Go");
  });

  it("takes text for text, whatever it says", () => {
    expect(made("p", {}, "1 < 2 ", made("b", {}, "<i>")).innerHTML).toBe(
      "1 &lt; 2 <b>&lt;i&gt;</b>",
    );
  });
});

describe("setText(place, text)", () => {
  it("changes the one text there is, and puts no other in its place", () => {
    const place = made("p", {}, "12 g");
    const before = place.firstChild;
    setText(place, "13 g");
    expect(place.textContent).toBe("13 g");
    expect(place.firstChild).toBe(before);
  });

  it("leaves alone what says so already, elements in it too", () => {
    const place = made("p", {}, "12 ", made("b", {}, "g"));
    setText(place, "12 g");
    expect(place.innerHTML).toBe("12 <b>g</b>");
  });

  it.each([
    ["nothing", []],
    ["an element", [["b", "12 g"]]],
    ["several texts", ["12", " g"]],
  ] as const)("writes over %s", (_, parts) => {
    const children = parts.map((part) =>
      typeof part === "string" ? part : made(part[0], {}, part[1]),
    );
    const place = made("p", {}, ...children);
    setText(place, "13 g");
    expect(place.innerHTML).toBe("13 g");
  });

  it("empties", () => {
    const place = made("p", {}, "12 g");
    setText(place, "");
    expect(place.textContent).toBe("");
  });

  it("does nothing where there is no place", () => {
    expect(() => setText(null, "12 g")).not.toThrow();
  });
});
