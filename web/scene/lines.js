// Lines to draw, and what everything is drawn with.
import { BufferAttribute, BufferGeometry, Group, LineBasicMaterial, LineSegments, MeshLambertMaterial } from "three";

export function materials() {
  const style = getComputedStyle(document.documentElement);
  const colour = (name) => style.getPropertyValue(`--${name}`).trim();
  const line = (name) => new LineBasicMaterial({ color: colour(name) });
  return {
    body: new MeshLambertMaterial({ vertexColors: true, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 }),
    metal: colour("metal"), wood: colour("wood"), bought: colour("bought"), tapped: colour("tapped"),
    edge: line("edge"), place: line("place"), size: line("size"), bent: line("tapped"), paper: colour("stage"),
  };
}

export function linesOf(points, material) {
  const shape = new BufferGeometry();
  shape.setAttribute("position", points.isBufferAttribute ? points : new BufferAttribute(points, 3));
  const lines = new LineSegments(shape, material);
  lines.raycast = () => {};
  return lines;
}

export function surroundingsOf(packed, found) {
  const place = new Group();
  const size = new Group();
  for (const line of packed.head.lines) {
    const group = line.what === "size" ? size : place;
    group.add(linesOf(packed.edges(line.edges), line.what === "size" ? found.size : found.place));
  }
  return { place, size };
}

export function dispose(object) {
  object?.traverse((part) => part.geometry?.dispose());
}
