// Reads a packed scene (its format is told in fitwright/web/packed/scene.py).
const MAGIC = "FWS1";

export function unpack(buffer) {
  const text = new TextDecoder();
  if (text.decode(new Uint8Array(buffer, 0, 4)) !== MAGIC) throw new Error("this is not a packed scene");
  const length = new DataView(buffer).getUint32(4, true);
  const head = JSON.parse(text.decode(new Uint8Array(buffer, 8, length)));
  const positionsAt = 8 + length;
  const normalsAt = positionsAt + head.corners * 12;
  const edgesAt = normalsAt + head.corners * 4;
  return {
    head,
    positions: ([first, count]) => new Float32Array(buffer, positionsAt + first * 12, count * 3),
    normals: ([first, count]) => new Int8Array(buffer, normalsAt + first * 4, count * 4),
    edges: ([first, count]) => new Float32Array(buffer, edgesAt + first * 24, count * 6),
  };
}
