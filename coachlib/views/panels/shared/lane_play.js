// The row that plays the ball: real time or a quarter of it, a foot at a time, and what the ball does in words.
// Nothing moves unless asked; where less motion is wanted nothing rolls, and the ball is shown at three places.

const HOLD_S = 0.6;  // a ball rests at the pins for so long before the next one starts
const LONGEST_FRAME_S = 0.5;  // a page that was away goes on where it stopped
const LINES = { now: "Line now", then: "Line next" };

// What the ball does, for the eye; `is_alone` where there is no other line to tell it from.
function phaseWords(ball, ft, is_alone) {
  const what = ft >= ball.end_ft ? `at the pins after ${timeAt(ball, ball.end_ft).toFixed(1)} s` : `${PHASES[phaseAt(ball, ft)]}, ${Math.floor(ft + 1e-6)} ft`;
  return is_alone ? what[0].toUpperCase() + what.slice(1) : `${LINES[ball.which]}: ${what}`;
}

function stillWords(ball, is_alone) {
  const { hook_ft, roll_ft, end_ft } = ball, feet = (at) => `${Math.round(at)} ft`;
  const parts = [hook_ft === null ? "does not hook" : `begins to hook at ${feet(hook_ft)}`, roll_ft === null ? "never quite rolls" : `rolls from ${feet(roll_ft)}`,
    `at the pins after ${timeAt(ball, end_ft).toFixed(1)} s`], words = parts.join(", ");
  return is_alone ? words[0].toUpperCase() + words.slice(1) : `${LINES[ball.which]}: ${words}`;
}

function makeRow(box, actions) {
  const add = (tag, cls, parent) => Object.assign(parent.appendChild(document.createElement(tag)), { className: cls });
  const row = add("div", "coach-play", box), buttons = {};
  set(row, { role: "group", "aria-label": "Play the ball" });
  Object.entries({ play: "Play", slow: "Quarter speed", back: "1 ft back", on: "1 ft on" }).forEach(([name, words]) => {
    const node = buttons[name] = add("button", "", row);
    Object.assign(node, { type: "button", textContent: words, onclick: (event) => actions[name](event) });
    node.setAttribute("data-lm-suppress-shortcuts", "true");
  });
  const phase = add("span", "coach-phase", row), sample = add("i", "", phase), words = add("span", "", phase);
  phase.setAttribute("aria-hidden", "true");
  const spoken = add("span", "coach-spoken", row);
  spoken.setAttribute("role", "status");
  row.addEventListener("keydown", (event) => {
    const name = { ArrowRight: "on", ArrowUp: "on", ArrowLeft: "back", ArrowDown: "back", Home: "first", End: "last" }[event.key];
    if (name === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    event.stopPropagation();
    actions[name](event);
  });
  return { row, buttons, phase, sample, words, spoken };
}

// What is played: ball number `k` of `balls` at `time_s`; null while none is on the lane.
function makePlayer(box, svg, roll) {
  const less = matchMedia("(prefers-reduced-motion: reduce)");
  let scene = null, place = null, balls = [], k = null, time_s = 0, is_playing = false, is_still = false, is_slow = false, frame = 0, last_ms = null;

  const ball = () => balls[k], start_s = (n) => timeAt(balls[n], place.from_ft), end_s = (n) => timeAt(balls[n], balls[n].end_ft);
  const is_done = () => k === balls.length - 1 && time_s >= end_s(k);
  const feet = () => (time_s >= end_s(k) ? ball().end_ft : feetAt(ball(), time_s));
  const write_once = (node, words) => { if (node.textContent !== words) node.textContent = words; };

  function tell() {
    const words = k === null ? "" : is_still ? stillWords(ball(), balls.length === 1) : phaseWords(ball(), feet(), balls.length === 1);
    write_once(ui.words, words);
    const phase = k === null || is_still ? "" : ["skid", "hook", "roll"][phaseAt(ball(), feet())];
    if (ui.phase.dataset.phase !== phase) ui.phase.dataset.phase = phase;
    if (!is_playing) write_once(ui.spoken, words);
  }

  function label() {
    const next = k === null ? 0 : k + 1;
    const still = !is_still ? "Show the ball at three places" : next < balls.length ? "Show it on the next line" : "Put the ball away";
    write_once(ui.buttons.play, less.matches ? still : is_playing ? "Pause" : "Play");
    ui.buttons.slow.setAttribute("aria-pressed", String(is_slow));
    ui.buttons.slow.hidden = less.matches;
  }

  // The picture of the state as it is; the ball laid anew where it is another one.
  function look(is_new_ball) {
    if (is_new_ball) layRoll(svg, roll, k === null ? null : ball(), scene, place);
    if (k !== null && is_still) drawStills(roll, ball(), scene, place);
    else if (k !== null) moveRoll(roll, ball(), place, feet());
    tell();
  }

  function go_to(number, at_s) {
    const is_new = number !== k || is_still;
    [k, time_s, is_still] = [number, at_s, false];
    look(is_new);
  }

  function tick(now_ms) {
    const passed_s = last_ms === null ? 0 : Math.min(LONGEST_FRAME_S, (now_ms - last_ms) / 1000);
    last_ms = now_ms;
    const at_s = time_s + passed_s * (is_slow ? 0.25 : 1), is_last = k === balls.length - 1;
    if (is_last && at_s >= end_s(k)) { go_to(k, end_s(k)); pause(); return; }
    if (at_s >= end_s(k) + HOLD_S) go_to(k + 1, start_s(k + 1));
    else go_to(k, at_s);
    frame = requestAnimationFrame(tick);
  }

  function pause() {
    cancelAnimationFrame(frame);
    [is_playing, last_ms] = [false, null];
    label();
    if (k !== null) tell();
  }

  function play() {
    if (k === null || is_still || is_done()) go_to(0, start_s(0));
    [is_playing, last_ms] = [true, null];
    write_once(ui.spoken, "");
    label();
    frame = requestAnimationFrame(tick);
  }

  function next_still() {
    const next = is_still ? k + 1 : 0;
    [k, is_still] = next < balls.length ? [next, true] : [null, false];
    look(true);
    label();
  }

  // A foot on or back, over to the other ball past an end; the feet are whole ones but for the pins.
  function step(way) {
    if (is_playing) pause();
    if (k === null || is_still) go_to(way > 0 ? 0 : balls.length - 1, way > 0 ? start_s(0) : end_s(balls.length - 1));
    else if (way > 0 && feet() >= ball().end_ft) { if (k + 1 < balls.length) go_to(k + 1, start_s(k + 1)); }
    else if (way < 0 && feet() <= place.from_ft) { if (k > 0) go_to(k - 1, end_s(k - 1)); }
    else scrub(way > 0 ? Math.floor(feet() + 1e-6) + 1 : Math.ceil(feet() - 1e-6) - 1);
    label();
  }

  function scrub(ft) {
    go_to(k, timeAt(ball(), clamp(ft, place.from_ft, ball().end_ft)));
  }

  const ui = makeRow(box, {
    play: () => (less.matches ? next_still() : is_playing ? pause() : play()),
    slow: () => { is_slow = !is_slow; label(); },
    on: (event) => step(event.shiftKey ? -1 : 1), back: () => step(-1),
    first: () => { pause(); go_to(0, start_s(0)); label(); },
    last: () => { pause(); go_to(balls.length - 1, end_s(balls.length - 1)); label(); },
  });

  // The lane is the scrubber: a ball that is on it can be dragged along its path.
  roll.ball.onpointerdown = (event) => { pause(); roll.ball.setPointerCapture(event.pointerId); event.preventDefault(); event.stopPropagation(); };
  roll.ball.onpointermove = (event) => {
    if (!roll.ball.hasPointerCapture(event.pointerId)) return;
    const { left, top } = svg.getBoundingClientRect(), [x, y] = place.at(place.from_ft, 20);
    scrub(place.from_ft + (place.is_upright ? y - (event.clientY - top) : event.clientX - left - x) / place.foot);
  };

  const calm = () => { pause(); [k, is_still] = [null, false]; if (place) look(true); label(); };
  less.addEventListener("change", calm);

  return {
    // A new scene stops the ball and puts it away; another width or view only moves it.
    show(new_scene, new_place, is_playable) {
      const is_new = new_scene !== scene;
      [scene, place] = [new_scene, new_place];
      balls = is_playable ? rollingBalls(scene) : [];
      ui.row.hidden = !is_playable || (balls.length === 0 && !scene.is_plain);
      ui.row.classList.toggle("coach-play-none", balls.length === 0);  // its room stays, so that nothing moves
      if (is_new || (k !== null && k >= balls.length)) calm();
      else if (k !== null) { time_s = Math.max(time_s, start_s(k)); look(true); }
    },
    hide() { if (place) calm(); ui.row.hidden = true; },
    forget() { cancelAnimationFrame(frame); less.removeEventListener("change", calm); },
  };
}
