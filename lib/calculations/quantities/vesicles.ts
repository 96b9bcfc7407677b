import { VESICLE_LIMITS } from "../../laws/vesicle.ts";
import {
  AREA_PER_LIPID,
  BILAYER_THICKNESS,
  LIPID_MOLAR_MASS,
  PHOSPHOLIPID_SHARE,
  type LecithinKind,
} from "../../substances/lecithin.ts";
import { quantity } from "../calculation.ts";
import { COUNT, SHARE } from "./kinds.ts";

export const NANOMETRES = { dimension: "length", units: ["nm", "µm"], digits: 3 } as const;

/** The standard deviation of what lies anywhere between two ends alike (GUM 4.3.7). memory */
function anywhereIn({ low, high }: { readonly low: number; readonly high: number }): number {
  return (high - low) / Math.sqrt(12);
}

export const outerDiameter = quantity("outerDiameter", {
  label: "Outer diameter of a vesicle",
  symbol: "d",
  ...NANOMETRES,
  limits: VESICLE_LIMITS.outerDiameter,
  default: 100e-9,
  hint: "A guess: no kitchen tool measures it, and a batch has all sizes at once",
  uncertainty: {
    relative: 0.4,
    because:
      "nobody can know it without an instrument; sonicated lecithin was seen with modes at 140 and 750 nm at once (the width is an estimate, no source)",
  },
});

export const bilayerThickness = quantity("bilayerThickness", {
  label: "Thickness of a bilayer",
  symbol: "t",
  ...NANOMETRES,
  limits: VESICLE_LIMITS.bilayerThickness,
  default: BILAYER_THICKNESS.value,
  hint: "Of one wall, both leaves; leave it unless you have a better figure",
  uncertainty: {
    absolute: anywhereIn(BILAYER_THICKNESS),
    because: "3.85 nm without the heads, 4.65 nm with them (seen); papers take 4 or 5 nm",
  },
});

export const areaPerLipid = quantity("areaPerLipid", {
  label: "Area of one lipid in a leaf",
  symbol: "a",
  dimension: "area",
  units: ["nm²"],
  digits: 3,
  limits: VESICLE_LIMITS.areaPerLipid,
  default: AREA_PER_LIPID.value,
  hint: "What one molecule takes up of the surface; leave it unless you have a better figure",
  uncertainty: {
    absolute: anywhereIn(AREA_PER_LIPID),
    because: "fluid, unsaturated phosphatidylcholines have 0.65 to 0.725 nm² (from memory)",
  },
});

export const lipidMolarMass = quantity("lipidMolarMass", {
  label: "Molar mass of the lipid",
  symbol: "M",
  dimension: "molarMass",
  units: ["g/mol"],
  digits: 3,
  limits: VESICLE_LIMITS.lipidMolarMass,
  default: LIPID_MOLAR_MASS.value,
  hint: "770 g/mol for the phosphatidylcholine of plants",
  uncertainty: {
    absolute: anywhereIn(LIPID_MOLAR_MASS),
    because: "758 to 782 g/mol for the two commonest kinds, from their formulas",
  },
});

export const layers = quantity("layers", {
  label: "Layers, one inside another",
  symbol: "n",
  ...COUNT,
  limits: VESICLE_LIMITS.layers,
  whole: true,
  default: 1,
  hint: "1 is the best case; after blending many have more than 1",
});

const kind = (of: LecithinKind, label: string) => {
  const { low, high } = PHOSPHOLIPID_SHARE[of];
  return { value: (low + high) / 2, label };
};

export const phospholipidShare = quantity("phospholipidShare", {
  label: "Phospholipids in your lecithin",
  symbol: "s",
  ...SHARE,
  limits: VESICLE_LIMITS.phospholipidShare,
  default: 0.65,
  hint: "Only they make bilayers; the rest is oil, sugars and a little water",
  presets: [
    kind("soyDeoiled", "soy, granules or powder"),
    kind("soyFluid", "soy, fluid"),
    kind("sunflowerDeoiled", "sunflower, powder"),
    kind("sunflowerFluid", "sunflower, fluid"),
  ],
  uncertainty: {
    relative: 0.15,
    because:
      "soy without its oil has 55 to 75 %, fluid soy 31 to 49 % (seen, as quoted); sunflower 50 to 80 % and 28 to 40 % (from memory); no label says",
  },
});
