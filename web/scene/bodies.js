// Bodies and lines of a packed scene as objects to draw.
import {
  BufferAttribute, BufferGeometry, Group, InterleavedBuffer, InterleavedBufferAttribute, LineBasicMaterial, LineSegments,
  Mesh, MeshLambertMaterial, Vector3,
} from "three";

const WOOD = ["softwood", "hardwood", "plywood"];

const colourOf = (style, name) => style.getPropertyValue(name).trim();

export function materials() {
  const style = getComputedStyle(document.documentElement);
  const body = (name) =>
    new MeshLambertMaterial({ color: colourOf(style, name), polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 });
  const line = (name) => new LineBasicMaterial({ color: colourOf(style, name) });
  return {
    metal: body("--metal"), wood: body("--wood"), bought: body("--bought"), tapped: body("--tapped"),
    edge: line("--edge"), place: line("--place"), size: line("--size"), bent: line("--tapped"),
    paper: colourOf(style, "--stage"),
  };
}

const materialOf = (body, found) =>
  body.kind === "hardware" ? found.bought : WOOD.includes(body.material) ? found.wood : found.metal;

export function bodiesOf(packed, found) {
  const group = new Group();
  for (const body of packed.head.bodies) {
    const shape = new BufferGeometry();
    shape.setAttribute("position", new BufferAttribute(packed.positions(body.corners), 3));
    const normals = new InterleavedBuffer(packed.normals(body.corners), 4);
    shape.setAttribute("normal", new InterleavedBufferAttribute(normals, 3, 0, true));
    const mesh = new Mesh(shape, materialOf(body, found));
    mesh.add(linesOf(packed.edges(body.edges), found.edge));
    mesh.userData = { ...body, apart: new Vector3(...body.apart), plain: mesh.material };
    group.add(mesh);
  }
  return group;
}

export function linesOf(points, material) {
  const shape = new BufferGeometry();
  shape.setAttribute("position", new BufferAttribute(points, 3));
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
