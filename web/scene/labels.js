// Words at places in the scene, kept where their place is drawn; each set of them is put in by its name.
import { Vector3 } from "three";

export function labelsIn(holder, stage) {
  const sets = {};
  const at = new Vector3();
  stage.onDrawn(() => {
    const { clientWidth: wide, clientHeight: high } = holder;
    for (const { element, place } of Object.values(sets).flat()) {
      at.copy(place).project(stage.camera);
      const inside = (share, room, own) => Math.min(Math.max(share * room, own / 2), room - own / 2);
      const [x, y] = [inside((at.x + 1) / 2, wide, element.offsetWidth), inside((1 - at.y) / 2, high, element.offsetHeight)];
      element.style.transform = `translate(-50%, -50%) translate(${x}px, ${y}px)`;
    }
  });
  return (name, lines) => {
    sets[name] = lines.filter((line) => line.label).map((line) => {
      const element = document.createElement("span");
      element.className = name;
      element.textContent = line.label;
      return { element, place: new Vector3(...line.at) };
    });
    holder.replaceChildren(...Object.values(sets).flat().map(({ element }) => element));
    stage.draw();
  };
}
