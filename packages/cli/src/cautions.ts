/** The six cautions that every face of the tool carries (the design's job page). */
export const CAUTIONS: readonly string[] = [
  "Disconnect the battery before you work on the loom.",
  "Fuel and sparks together start fires.",
  "Motors, fans and starters move without warning.",
  "Airbags, belt pretensioners, anti-lock brakes and anything above 60 V DC are out of scope.",
  "A computed result is a model of what was drawn, not of what was built.",
  "Local regulations, the makers' own data and licensed practice come first.",
];

export const FOOT = "A model of what was drawn, not of what was built. All cautions: loomproof cautions";
