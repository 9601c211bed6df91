// One direction: netlist -> analyzer -> drawing -> { cli, editor }; inside the analyzer
// circuit < solve < behave < timeline < facts < rules < report.

const order = ["circuit", "solve", "behave", "timeline", "facts", "rules", "report"];
const upward = order.flatMap((room, i) => {
  const above = order.slice(i + 1);
  return above.length === 0
    ? []
    : [
        {
          name: `${room}-looks-up`,
          severity: "error",
          from: { path: `^packages/analyzer/src/${room}/`, pathNot: "\\.test\\.ts$" },
          to: { path: `^packages/analyzer/src/(${above.join("|")})/` },
        },
      ];
});

/** A package may import only the faces of the packages named. */
const only = (name, allowed) => ({
  name: `${name}-stays-low`,
  severity: "error",
  from: { path: `^packages/${name}/src/` },
  to: { path: "^packages/", pathNot: `^packages/(${[name, ...allowed].join("|")})/` },
});

module.exports = {
  forbidden: [
    only("netlist", []),
    only("analyzer", ["netlist"]),
    only("drawing", ["netlist", "analyzer"]),
    only("cli", ["netlist", "analyzer", "drawing"]),
    only("editor", ["netlist", "analyzer", "drawing"]),
    ...upward,
    {
      name: "parts-look-up",
      severity: "error",
      from: { path: "^packages/netlist/src/(parts|reference|units)/", pathNot: "\\.test\\.ts$" },
      to: { path: "^packages/netlist/src/(loom|nets|edit|change)/" },
    },
    {
      name: "no-deep-imports",
      severity: "error",
      from: { path: "^packages/([^/]+)/" },
      to: { path: "^packages/([^/]+)/src/(?!index\\.ts$)", pathNot: "^packages/$1/" },
    },
    {
      // A package may have a second face, for tests only.
      name: "tests-use-faces",
      severity: "error",
      from: { path: "^test/" },
      to: { path: "^packages/[^/]+/src/(?!(testing/)?index\\.ts$)" },
    },
    {
      name: "core-does-no-input-or-output",
      severity: "error",
      from: { path: "^packages/(netlist|analyzer|drawing)/src/", pathNot: "\\.test\\.ts$" },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "no-circles",
      severity: "error",
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ["type-only"] } },
    },
    { name: "resolvable", severity: "error", from: {}, to: { couldNotResolve: true, pathNot: "\\?(raw|worker)" } },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    exclude: { path: "(^|/)(dist|build)/" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.base.json" },
    enhancedResolveOptions: {
      exportsFields: ["exports"],
      conditionNames: ["import", "default"],
      extensions: [".ts", ".tsx", ".mjs", ".js", ".json"],
    },
  },
};
