// The canvas: a camera without perspective, drawn on change, on resize and before printing, and at no other time.
import {
  AmbientLight, Box3, Color, DirectionalLight, OrthographicCamera, Plane, Scene, Sphere, Vector3, WebGLRenderer,
} from "three";
import { OrbitControls } from "three/addons/controls/OrbitControls.js";

const DIRECTIONS = { turned: [-0.62, -1, 0.55], front: [0, -1, 0], side: [1, 0, 0], top: [0, -0.0001, 1] };
const ROOM = 1.3;
const AXES = { front: [0, 1, 0], left: [1, 0, 0], above: [0, 0, -1] };
const SLOW_MS = 40; // between frames while it is turned; slower ones are drawn coarser until it stands still
const COARSEST = 0.5;

// Smoothed edges halve the frames where no graphics processor helps.
function drawnByProcessor() {
  const trial = document.createElement("canvas").getContext("webgl2");
  const told = trial?.getExtension("WEBGL_debug_renderer_info");
  const name = trial?.getParameter(told ? told.UNMASKED_RENDERER_WEBGL : trial.RENDERER) ?? "";
  trial?.getExtension("WEBGL_lose_context")?.loseContext();
  return /swiftshader|llvmpipe|software|basic render/i.test(name);
}

export function openStage(canvas, paper) {
  const renderer = new WebGLRenderer({ canvas, antialias: !drawnByProcessor() });
  const fine = Math.min(devicePixelRatio, 2);
  renderer.setPixelRatio(fine);
  const scene = new Scene();
  const camera = new OrthographicCamera(-1, 1, 1, -1, -1e5, 1e5);
  camera.up.set(0, 0, 1);
  const light = new DirectionalLight("#fff", 2.2);
  camera.add(light);
  light.position.set(-0.4, 0.7, 1);
  scene.add(camera, new AmbientLight("#fff", 1.1));
  const controls = new OrbitControls(camera, canvas);
  controls.enableDamping = false;
  const sphere = new Sphere(new Vector3(), 1);
  const box = new Box3();
  const cut = new Plane(new Vector3(0, 1, 0), 0);
  const after = [];
  let asked = 0;
  let turning = false;
  let coarse = fine;
  let before = 0;
  let view = "turned";

  function drawNow() {
    asked = 0;
    if (turning) keepUp();
    renderer.render(scene, camera);
    after.forEach((then) => then());
  }
  const draw = () => (asked ||= requestAnimationFrame(drawNow));

  function keepUp() {
    const now = performance.now();
    if (before && now - before > SLOW_MS && now - before < 1000 && coarse > COARSEST) coarse = Math.max(coarse * 0.75, COARSEST);
    before = now;
    if (renderer.getPixelRatio() !== coarse) renderer.setPixelRatio(coarse);
  }

  function turn(begins) {
    turning = begins;
    before = 0;
    if (begins) view = "";
    else if (renderer.getPixelRatio() !== fine) {
      renderer.setPixelRatio(fine);
      draw();
    }
  }

  function resize() {
    const { clientWidth: wide, clientHeight: high } = canvas.parentElement;
    if (!wide || !high) return;
    renderer.setSize(wide, high, false);
    const [across, up] = seenSize();
    const scale = Math.max(across / wide, up / high) * ROOM;
    const [x, y] = [(wide * scale) / 2, (high * scale) / 2];
    Object.assign(camera, { left: -x, right: x, top: y, bottom: -y });
    camera.updateProjectionMatrix();
    draw();
  }

  // How large the box round the piece is as the camera sees it.
  function seenSize() {
    camera.updateMatrixWorld();
    const seen = new Box3();
    for (const x of [box.min.x, box.max.x]) for (const y of [box.min.y, box.max.y]) for (const z of [box.min.z, box.max.z]) {
      seen.expandByPoint(new Vector3(x, y, z).applyMatrix4(camera.matrixWorldInverse));
    }
    const size = seen.getSize(new Vector3());
    return [size.x, size.y];
  }

  function look(name) {
    view = name;
    camera.zoom = 1;
    controls.target.copy(sphere.center);
    camera.position.copy(sphere.center).addScaledVector(new Vector3(...DIRECTIONS[name]).normalize(), sphere.radius * 3);
    controls.update();
    resize();
  }

  function fit(low, high) {
    const first = sphere.radius === 1;
    box.set(new Vector3(...low), new Vector3(...high)).getBoundingSphere(sphere);
    if (first || view) look(view);
    else draw();
  }

  // What lies before the cut, seen from the side that it is cut from, is left out.
  function cutAt(from, share, low, high) {
    const along = new Vector3(...AXES[from]);
    const ends = [new Vector3(...low).dot(along), new Vector3(...high).dot(along)].sort((a, b) => a - b);
    cut.normal.copy(along);
    cut.constant = -(ends[0] + share * (ends[1] - ends[0]));
    renderer.clippingPlanes = share > 0 ? [cut] : [];
    draw();
  }

  const keeps = (point) => renderer.clippingPlanes.every((plane) => plane.distanceToPoint(point) >= 0);

  const repaint = (colour) => { scene.background = new Color(colour); draw(); };
  repaint(paper);
  controls.addEventListener("change", draw);
  controls.addEventListener("start", () => turn(true));
  controls.addEventListener("end", () => turn(false));
  new ResizeObserver(() => { resize(); drawNow(); }).observe(canvas.parentElement);
  window.addEventListener("beforeprint", drawNow);
  return { scene, camera, controls, draw, look, fit, cutAt, keeps, repaint, onDrawn: (then) => after.push(then) };
}
