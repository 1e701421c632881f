// Words at places in the scene, kept where their place is drawn.
import { Vector3 } from "three";

export function labelsIn(holder, stage) {
  let labels = [];
  const at = new Vector3();
  stage.onDrawn(() => {
    const { clientWidth: wide, clientHeight: high } = holder;
    for (const { element, place } of labels) {
      at.copy(place).project(stage.camera);
      element.style.transform = `translate(-50%, -50%) translate(${((at.x + 1) * wide) / 2}px, ${((1 - at.y) * high) / 2}px)`;
    }
  });
  return (lines) => {
    labels = lines.filter((line) => line.label).map((line) => {
      const element = document.createElement("span");
      element.textContent = line.label;
      return { element, place: new Vector3(...line.at) };
    });
    holder.replaceChildren(...labels.map(({ element }) => element));
    stage.draw();
  };
}
