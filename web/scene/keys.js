// The picture by keyboard: arrows turn it, plus and minus come nearer and go away.
import { Spherical, Vector3 } from "three";

const TURN = Math.PI / 24;
const NEARER = 1.15;

export function keys(canvas, stage) {
  const turns = { ArrowLeft: [-TURN, 0], ArrowRight: [TURN, 0], ArrowUp: [0, -TURN], ArrowDown: [0, TURN] };
  const zooms = { "+": NEARER, "=": NEARER, "-": 1 / NEARER };
  canvas.addEventListener("keydown", (event) => {
    const turn = turns[event.key];
    const zoom = zooms[event.key];
    if (!turn && !zoom) return;
    event.preventDefault();
    if (zoom) stage.camera.zoom *= zoom;
    else round(stage, ...turn);
    stage.camera.updateProjectionMatrix();
    stage.controls.update();
    stage.draw();
  });
}

// The camera goes round what it looks at; three's spheres have y upward, ours z.
function round({ camera, controls }, across, up) {
  const from = new Vector3().subVectors(camera.position, controls.target);
  const place = new Spherical().setFromCartesianCoords(from.x, from.z, -from.y);
  place.theta += across;
  place.phi = Math.min(Math.max(place.phi + up, 0.001), Math.PI - 0.001);
  const to = new Vector3().setFromSpherical(place);
  camera.position.set(to.x, -to.z, to.y).add(controls.target);
}
