// The piece as it does not stand at rest: under a load, or as welding pulls it. Lines beside the shape, exaggerated, and
// how much in words.
import { Group } from "three";
import { dispose, linesOf } from "./lines.js";
import { unpack } from "./unpack.js";

const ASK_AGAIN_MS = 700;
const WORKING = 202;

export function shapesIn(stage, base, found) {
  const group = new Group();
  const said = document.getElementById("shape-said");
  const choice = document.getElementById("shape");
  let turn = 0;
  stage.scene.add(group);

  function show(words, lines = []) {
    dispose(group);
    group.clear();
    if (lines.length) group.add(...lines);
    said.textContent = words;
    stage.draw();
  }

  async function ask(mine, address) {
    const answer = await fetch(`${base}/${address}`).catch(() => null);
    if (mine !== turn) return;
    if (answer?.status === WORKING) {
      const { step, share } = await answer.json();
      show(`Working out how welding pulls it: ${step}, ${Math.round(100 * share)} %…`);
      setTimeout(() => mine === turn && ask(mine, address), ASK_AGAIN_MS);
    } else if (answer?.status === 200) drawn(mine, unpack(await answer.arrayBuffer()));
    else if (answer?.status !== 204) show("It does not stand by itself, or nothing in it is welded, so there is nothing to show: see the findings.");
  }

  function drawn(mine, { head, edges }) {
    if (mine !== turn) return;
    if (head.cases) offer(head.cases, head.case);
    show(head.lines[0].said, head.lines.map((line) => linesOf(edges(line.edges), found().bent)));
  }

  // The load cases are those of this state of the piece; the first that is asked for is the one that moves it most.
  function offer(cases, chosen) {
    const known = choice.querySelector("optgroup");
    known.replaceChildren(...cases.map(([number, name]) => new Option(name, `bent?case=${number}`)));
    choice.value = `bent?case=${chosen}`;
  }

  function again() {
    turn += 1;
    if (!choice.value) return show("");
    ask(turn, choice.value);
  }

  choice.addEventListener("change", again);
  return { again };
}
