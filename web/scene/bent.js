// The piece under load: lines beside the shape, and how much they exaggerate in words.
import { Group } from "three";
import { dispose, linesOf } from "./bodies.js";
import { unpack } from "./unpack.js";

export function bentIn(stage, base, materials) {
  const group = new Group();
  const said = document.getElementById("bent-said");
  stage.scene.add(group);

  function empty(words = "") {
    dispose(group);
    group.clear();
    said.textContent = words;
    stage.draw();
  }

  return async (wanted) => {
    if (!wanted) return empty();
    const answer = await fetch(`${base}/bent`).catch(() => null);
    if (answer?.status !== 200) return empty("It does not stand by itself, so there is nothing to show: see the findings.");
    const packed = unpack(await answer.arrayBuffer());
    empty(packed.head.lines[0].said);
    group.add(...packed.head.lines.map((line) => linesOf(packed.edges(line.edges), materials().bent)));
    stage.draw();
  };
}
