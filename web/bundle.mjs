// Bundles the browser sources into one folder: hashed names, a manifest of them, and the licences of what is in them.
import { build } from "esbuild";
import { readFile, rm, writeFile } from "node:fs/promises";
import { basename, join } from "node:path";
import { readdirSync } from "node:fs";

const out = process.argv[2];
const views = readdirSync("web/views").filter((name) => name.endsWith(".js"));

// The styles of pages that have their own come after those of all pages, and paper has the last word.
const styles = {
  name: "styles",
  setup: (build) => build.onLoad({ filter: /style.main\.css$/ }, async ({ path }) => {
    const first = await readFile(path, "utf8");
    const own = readdirSync("web/style").filter((name) => name.endsWith(".css") && !["main.css", "print.css"].includes(name));
    const more = own.filter((name) => !first.includes(`/${name}"`)).sort();
    return { loader: "css", contents: [first, ...[...more, "print.css"].map((name) => `@import "./${name}";`)].join("\n") };
  }),
};

await rm(out, { recursive: true, force: true });
const { metafile } = await build({
  entryPoints: ["web/style/main.css", ...views.map((name) => `web/views/${name}`)],
  outdir: out,
  entryNames: "[name]-[hash]",
  chunkNames: "shared-[hash]",
  bundle: true,
  splitting: true,
  format: "esm",
  target: "es2022",
  minify: true,
  legalComments: "none",
  metafile: true,
  logLevel: "warning",
  plugins: [styles],
});

const manifest = {};
for (const [path, made] of Object.entries(metafile.outputs)) {
  if (made.entryPoint) manifest[basename(made.entryPoint)] = basename(path);
}
await writeFile(join(out, "manifest.json"), JSON.stringify(manifest, null, 1));
await writeFile(join(out, "licences.txt"), await licences(Object.keys(metafile.inputs)));

async function licences(inputs) {
  const folders = new Set(inputs.map((path) => path.match(/node_modules\/(?:@[^/]+\/)?[^/]+/)?.[0]).filter(Boolean));
  const texts = [];
  for (const folder of [...folders].sort()) {
    const { name, version, license } = JSON.parse(await readFile(join(folder, "package.json"), "utf8"));
    const file = readdirSync(folder).find((entry) => /^licen[cs]e/i.test(entry));
    const text = file ? await readFile(join(folder, file), "utf8") : `Licence: ${license}`;
    texts.push(`${name} ${version}\n\n${text.trim()}\n`);
  }
  return texts.join(`\n${"-".repeat(72)}\n\n`);
}
