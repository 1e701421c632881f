// The way in, played: a slider, step buttons and a clock that ask the server for the next picture.
import "./plain.js";

const PACE = 450;
let clock = 0;

function show(player, step) {
  const count = Number(player.dataset.count);
  const at = Math.min(Math.max(step, 0), count - 1);
  const slider = player.querySelector("input[type=range]");
  const picture = player.querySelector("img");
  slider.value = String(at);
  picture.src = `${player.dataset.way}${at}.svg?of=${player.dataset.of}`;
  picture.alt = picture.alt.replace(/step \d+ of/, `step ${at + 1} of`);
  player.querySelector("output").textContent = `step ${at + 1} of ${count}`;
}

function stop() {
  clearInterval(clock);
  clock = 0;
}

function play(player) {
  stop();
  const last = Number(player.dataset.count) - 1;
  let step = 0;
  show(player, step);
  clock = setInterval(() => {
    step += 1;
    if (step > last || !player.isConnected) stop();
    else show(player, step);
  }, PACE);
}

document.addEventListener("input", (event) => {
  const player = event.target.closest(".way-player");
  if (!player || event.target.type !== "range") return;
  stop();
  show(player, Number(event.target.value));
});

document.addEventListener("click", (event) => {
  const player = event.target.closest(".way-player");
  if (!player) return;
  const by = event.target.closest("[data-by]");
  if (by) {
    event.preventDefault();
    stop();
    show(player, Number(player.querySelector("input[type=range]").value) + Number(by.dataset.by));
  } else if (event.target.closest(".way-play")) {
    play(player);
  }
});
