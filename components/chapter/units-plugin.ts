import { bindUnits } from "../../lib/units/bind.ts";

/** Binds numbers to their units in the prose of chapters and cautions. */
export const unitsPlugin = {
  name: "units",
  text: (node: { readonly value: string }) => {
    const value = bindUnits(node.value);
    return value === node.value ? undefined : { type: "text" as const, value };
  },
};
