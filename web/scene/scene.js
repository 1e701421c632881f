// The view in 3-D: fetches the packed scene when the job has changed, and draws it as the buttons say.
import { bodiesOf } from "./bodies.js";
import { keys } from "./keys.js";
import { labelsIn } from "./labels.js";
import { dispose, materials, surroundingsOf } from "./lines.js";
import { shapesIn } from "./shapes.js";
import { openStage } from "./stage.js";
import { tapping } from "./tapping.js";
import { unpack } from "./unpack.js";

const byId = (name) => document.getElementById(name);

export function openScene(base) {
  const canvas = byId("canvas");
  let stage;
  let found = materials();
  canvas.hidden = false;
  try {
    stage = openStage(canvas, found.paper);
  } catch {
    canvas.hidden = true; // no 3-D on this machine: the line picture stays
    return stillOnly(base);
  }
  let packed = null;
  let bodies = null;
  let around = null;
  let last = 0;
  const label = labelsIn(byId("labels"), stage);
  const taps = tapping(canvas, stage, () => bodies, () => found, label, base);
  const shapes = shapesIn(stage, base, () => found);
  keys(canvas, stage);
  stage.onDrawn(() => { if (packed) canvas.dataset.drawn = packed.head.revision; });

  async function fetchScene() {
    const mine = ++last;
    const answer = await fetch(`${base}/mesh`).catch(() => null);
    if (mine !== last) return;
    if (!answer?.ok || answer.status === 204) return shown(answer?.status === 422);
    const buffer = await answer.arrayBuffer();
    if (mine !== last) return;
    packed = unpack(buffer);
    build();
  }

  function build() {
    for (const old of [bodies?.group, around?.place, around?.size]) {
      dispose(old);
      old?.removeFromParent();
    }
    bodies = bodiesOf(packed, found);
    around = surroundingsOf(packed, found);
    stage.scene.add(bodies.group, around.place, around.size);
    stage.fit(packed.head.low, packed.head.high);
    arrange();
    taps.again();
    shapes.again();
    shown(false);
  }

  function arrange() {
    if (!packed) return;
    const apart = byId("apart").value / 100;
    const cut = byId("cut").value / 100;
    bodies.spread(apart);
    bodies.open(cut > 0);
    taps.together(apart === 0);
    around.place.visible = pressed("place");
    around.size.visible = pressed("size") && apart === 0;
    label("size", around.size.visible ? packed.head.lines : []);
    stage.cutAt(byId("cut-from").value, cut, packed.head.low, packed.head.high);
  }

  byId("views").hidden = false;
  byId("views").addEventListener("input", arrange);
  byId("views").addEventListener("click", ({ target }) => {
    const button = target.closest("button");
    if (button?.dataset.view) choose(button, stage);
    else if (button) {
      button.setAttribute("aria-pressed", String(!pressed(button.dataset.show)));
      arrange();
    }
  });
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => {
    found = materials();
    stage.repaint(found.paper);
    if (packed) build();
  });
  fetchScene();
  return { fetch: fetchScene };
}

const pressed = (what) => document.querySelector(`[data-show=${what}]`).getAttribute("aria-pressed") === "true";

function choose(button, stage) {
  for (const other of document.querySelectorAll("[data-view]")) other.setAttribute("aria-pressed", String(other === button));
  stage.look(button.dataset.view);
}

function shown(wrong) {
  byId("canvas").classList.toggle("old", wrong);
  byId("still").hidden = !wrong || byId("canvas").dataset.drawn !== undefined;
}

function stillOnly(base) {
  return { fetch: () => { byId("still").src = `${base}/still.svg?${Date.now()}`; } };
}
