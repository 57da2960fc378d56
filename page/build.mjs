// Bundle the parts that others wrote into an ignored folder of the package, with their licences beside them.
import { build } from "esbuild";
import { copyFile, mkdir, rename, rm } from "node:fs/promises";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const goal = join(here, "..", "src", "pourwright", "web", "static", "built");
const stage = `${goal}.new`;
const bundled = ["three", "uplot"];

await rm(stage, { recursive: true, force: true });
await mkdir(join(stage, "licences"), { recursive: true });
await build({
  absWorkingDir: here,
  entryPoints: bundled.map((name) => ({ in: `${name}.mjs`, out: name })),
  outdir: stage,
  bundle: true,
  minify: true,
  format: "esm",
  target: "es2022",
  legalComments: "inline",
});
await copyFile(join(here, "node_modules", "uplot", "dist", "uPlot.min.css"), join(stage, "uplot.css"));
for (const name of bundled) {
  await copyFile(join(here, "node_modules", name, "LICENSE"), join(stage, "licences", `${name}.txt`));
}
await rm(goal, { recursive: true, force: true });
await rename(stage, goal);
