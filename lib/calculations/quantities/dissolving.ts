import { DISSOLVING_LIMITS } from "../../laws/dissolving.ts";
import { quantity } from "../calculation.ts";
import { MASS, TEMPERATURE } from "./kinds.ts";

export const solventMass = quantity("solventMass", {
  label: "Water and alcohol to dissolve it in",
  symbol: String.raw`m_\mathrm{r}`,
  ...MASS,
  limits: DISSOLVING_LIMITS.solventMass,
  default: 0.42,
  hint: "Both together, without the powders; of the spirit, its water counts too",
});

export const dissolvingTemperature = quantity("dissolvingTemperature", {
  label: "Temperature of the liquid with the acid in it",
  symbol: "T",
  ...TEMPERATURE,
  limits: DISSOLVING_LIMITS.temperature,
  default: 20,
  hint: "While you stir; then try the coldest it will meet, such as your fridge",
});
