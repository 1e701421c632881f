// The bodies of a packed scene as two objects to draw, one of faces and one of edges, however many parts there are.
import { BufferAttribute, BufferGeometry, Color, DoubleSide, FrontSide, Group, InterleavedBuffer, InterleavedBufferAttribute, Mesh } from "three";
import { linesOf } from "./lines.js";

const WOOD = ["softwood", "hardwood", "plywood"];
const kindOf = (body) => (body.kind === "hardware" ? "bought" : WOOD.includes(body.material) ? "wood" : "metal");

export function bodiesOf(packed, found) {
  const { bodies, corners } = packed.head;
  const lines = bodies.reduce((last, { edges }) => Math.max(last, edges[0] + edges[1]), 0);
  const faces = moved(packed.positions([0, corners]), ({ corners: [first, count] }) => [3 * first, 3 * count]);
  const edges = moved(packed.edges([0, lines]), ({ edges: [first, count] }) => [6 * first, 6 * count]);
  const colours = new Float32Array(3 * corners);
  const shape = new BufferGeometry();
  shape.setAttribute("position", faces.attribute);
  shape.setAttribute("normal", new InterleavedBufferAttribute(new InterleavedBuffer(packed.normals([0, corners]), 4), 3, 0, true));
  shape.setAttribute("color", new BufferAttribute(colours, 3));
  const mesh = new Mesh(shape, found.body);
  const group = new Group().add(mesh, linesOf(edges.attribute, found.edge));

  function paint(mark) {
    const colour = Object.fromEntries(["metal", "wood", "bought", "tapped"].map((name) => [name, new Color(found[name])]));
    for (const body of bodies) {
      const { r, g, b } = colour[mark && body.mark === mark ? "tapped" : kindOf(body)];
      for (let at = body.corners[0]; at < body.corners[0] + body.corners[1]; at++) colours.set([r, g, b], 3 * at);
    }
    shape.attributes.color.needsUpdate = true;
  }

  function spread(apart) {
    for (const all of [faces, edges]) all.spread(bodies, apart);
    shape.computeBoundingSphere();
  }

  paint(null);
  return {
    group, mesh, paint, spread,
    open: (cut) => { found.body.side = cut ? DoubleSide : FrontSide; found.body.needsUpdate = true; },
    at: (face) => bodies.find(({ corners: [first, count] }) => 3 * face >= first && 3 * face < first + count),
    marked: (mark) => bodies.find((body) => body.mark === mark),
  };
}

// Points that go where their body goes when the piece is drawn apart.
function moved(drawn, rangeOf) {
  const attribute = new BufferAttribute(new Float32Array(drawn), 3);
  return {
    attribute,
    spread(bodies, apart) {
      for (const body of bodies) {
        const [first, count] = rangeOf(body);
        for (let k = first; k < first + count; k++) attribute.array[k] = drawn[k] + apart * body.apart[(k - first) % 3];
      }
      attribute.needsUpdate = true;
    },
  };
}
