// What markdown-it and Asciidoctor take for blocks of rigs: `fences.mjs markdown|asciidoc < PAGE`, a JSON list of texts.
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";

const require = createRequire(process.cwd() + "/");
const text = readFileSync(0, "utf8").replace(/^\ufeff/, "");
const isRig = (language) => (language ?? "").split(/[\s,{}:;.()]+/).find((word) => word !== "")?.toLowerCase() === "rig";

function markdown() {
  const Markdown = require("markdown-it");
  return new Markdown("commonmark")
    .parse(text, {})
    .filter((token) => token.type === "fence" && isRig(token.info))
    .map((token) => token.content);
}

async function asciidoc() {
  const module = await import(require.resolve("@asciidoctor/core"));
  const asciidoctor = typeof module.load === "function" ? module : (module.default?.load ? module.default : module.default());
  const page = await asciidoctor.load(text, { safe: "secure", standalone: false });
  const blocks = page.findBy({}, (block) => block.getStyle() === "source" && isRig(block.getAttribute("language")));
  return blocks.map((block) => block.getSource());
}

const found = process.argv[2] === "markdown" ? markdown() : await asciidoc();
process.stdout.write(JSON.stringify(found));
