// A tap on a part, or its mark in the list, shows which it is: in colour, with its sizes, and in words below the picture.
import { Group, Raycaster, Vector2 } from "three";
import { dispose, linesOf } from "./lines.js";
import { unpack } from "./unpack.js";

const STILL = 6;

export function tapping(canvas, stage, bodies, found, label, base) {
  const ray = new Raycaster();
  const said = document.getElementById("tapped");
  const lines = new Group();
  let begun = null;
  let tapped = null;
  let whole = true;
  stage.scene.add(lines);

  function pick(body) {
    tapped = body ?? null;
    again();
    const row = tapped && document.querySelector(`tr[data-mark="${CSS.escape(tapped.mark)}"]`);
    said.replaceChildren(...(row ? words(row, base) : []));
  }

  // After a change the same part, if there still is one of that mark.
  function again() {
    const mark = tapped?.mark ?? null;
    bodies()?.paint(mark);
    tapped = mark && (bodies()?.marked(mark) ? tapped : null);
    clear();
    if (tapped && whole) sizes(tapped.name);
  }

  function clear() {
    dispose(lines);
    lines.clear();
    label("part-size", []);
  }

  async function sizes(name) {
    const answer = await fetch(`${base}/sizes?name=${encodeURIComponent(name)}`).catch(() => null);
    if (answer?.status !== 200 || tapped?.name !== name || !whole) return;
    const packed = unpack(await answer.arrayBuffer());
    clear();
    lines.add(...packed.head.lines.map((line) => linesOf(packed.edges(line.edges), found().bent)));
    label("part-size", packed.head.lines);
  }

  canvas.addEventListener("pointerdown", (event) => { begun = [event.clientX, event.clientY]; });
  canvas.addEventListener("pointerup", (event) => {
    if (!begun || Math.hypot(event.clientX - begun[0], event.clientY - begun[1]) > STILL || !bodies()) return;
    const box = canvas.getBoundingClientRect();
    const at = new Vector2(((event.clientX - box.left) / box.width) * 2 - 1, 1 - ((event.clientY - box.top) / box.height) * 2);
    ray.setFromCamera(at, stage.camera);
    const met = ray.intersectObject(bodies().mesh, false).find(({ point }) => stage.keeps(point));
    pick(met && bodies().at(met.faceIndex));
  });
  document.addEventListener("click", ({ target }) => {
    const button = target.closest("[data-find]");
    if (button) pick(bodies()?.marked(button.dataset.find));
  });
  // Sizes stand where the part does when the piece is whole.
  function together(now) {
    if (now === whole) return;
    whole = now;
    again();
  }

  return { again, together };
}

function words(row, base) {
  const [part, count, size, stock] = [...row.cells].slice(1).map((cell) => cell.textContent.trim());
  const name = document.createElement("b");
  name.textContent = row.dataset.mark;
  const link = (address, text) => Object.assign(document.createElement("a"), { href: `${base}/${address}`, textContent: text });
  const mark = encodeURIComponent(row.dataset.mark);
  return [name, ` ${part}, ${count} of it: ${size}, ${stock}. `, link(`sheets?mark=${mark}`, "its sheet"), " ", link(`why/part/${mark}`, "why?")];
}
