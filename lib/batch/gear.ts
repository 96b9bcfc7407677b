/** What stands on a bench and stays the same from batch to batch. */
export const GEAR_KINDS = ["scale", "vessel", "blender", "bath", "fridge", "bottles"] as const;
export type GearKind = (typeof GEAR_KINDS)[number];
