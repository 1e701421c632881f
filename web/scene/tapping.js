// A tap on a part, or its mark in the list, shows which it is: in colour, and in words below the picture.
import { Raycaster, Vector2 } from "three";

const STILL = 6;

export function tapping(canvas, stage, bodies, materials, base) {
  const ray = new Raycaster();
  const said = document.getElementById("tapped");
  let begun = null;
  let mark = null;

  function show() {
    for (const body of bodies().children) {
      body.material = body.userData.mark === mark ? materials().tapped : body.userData.plain;
    }
    stage.draw();
  }

  function pick(found) {
    mark = found;
    show();
    const row = found && document.querySelector(`tr[data-mark="${CSS.escape(found)}"]`);
    said.replaceChildren(...(row ? words(row, base) : []));
  }

  canvas.addEventListener("pointerdown", (event) => { begun = [event.clientX, event.clientY]; });
  canvas.addEventListener("pointerup", (event) => {
    if (!begun || Math.hypot(event.clientX - begun[0], event.clientY - begun[1]) > STILL) return;
    const box = canvas.getBoundingClientRect();
    const at = new Vector2(((event.clientX - box.left) / box.width) * 2 - 1, 1 - ((event.clientY - box.top) / box.height) * 2);
    ray.setFromCamera(at, stage.camera);
    pick(ray.intersectObjects(bodies().children, false)[0]?.object.userData.mark ?? null);
  });
  document.addEventListener("click", ({ target }) => {
    const button = target.closest("[data-find]");
    if (button) pick(button.dataset.find);
  });
  return { again: show };
}

function words(row, base) {
  const [part, count, size, stock] = [...row.cells].slice(1).map((cell) => cell.textContent.trim());
  const name = document.createElement("b");
  name.textContent = row.dataset.mark;
  const sheet = document.createElement("a");
  sheet.href = `${base}/sheets?mark=${encodeURIComponent(row.dataset.mark)}`;
  sheet.textContent = "its sheet";
  return [name, ` ${part}, ${count} of it: ${size}, ${stock}. `, sheet];
}
