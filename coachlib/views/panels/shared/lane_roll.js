// The ball that rolls on the lane picture: where it is, what it does there, and the trail behind it. The times and
// the feet where hook and roll begin are the scene's own; between two feet a ball runs straight.

// The balls that can be played, line now before line next, with what the scene knows of their way.
function rollingBalls(scene) {
  return [["now", scene.played], ["then", scene.advised]].filter(([, line]) => line?.path?.rolling)
    .map(([which, line]) => ({ which, boards: line.path.meant_board, ...line.path.rolling }));
}

function readAt(values, at) {
  const i = clamp(Math.floor(at), 0, values.length - 2);
  return values[i] + (at - i) * (values[i + 1] - values[i]);
}

const timeAt = (ball, ft) => readAt(ball.time_s, ft);

function feetAt({ time_s }, time) {
  const next = time_s.findIndex((passed) => passed > time), i = (next < 0 ? time_s.length : next) - 1;
  return i >= time_s.length - 1 ? time_s.length - 1 : Math.max(0, i + (time - time_s[i]) / (time_s[i + 1] - time_s[i]));
}

const PHASES = ["skidding", "hooking", "rolling"];

// A phase that never begins is null: a ball without a hook skids until it rolls.
function phaseAt({ hook_ft, roll_ft }, ft) {
  if (roll_ft !== null && ft >= roll_ft) return 2;
  return hook_ft !== null && ft >= hook_ft ? 1 : 0;
}

// From and to which foot each phase lasts; null where it never comes.
function phaseFeet({ hook_ft, roll_ft }) {
  return [[0, hook_ft ?? roll_ft ?? FEET], hook_ft === null ? null : [hook_ft, roll_ft ?? FEET], roll_ft === null ? null : [roll_ft, FEET]];
}

// Three feet worth a look where nothing may move: it begins to hook, it begins to roll, it is at the pins.
function threeFeet({ hook_ft, roll_ft, end_ft }, from_ft) {
  const [hook, roll] = [hook_ft ?? 20, Math.min(roll_ft ?? 40, end_ft)];
  return [Math.max(hook, from_ft), Math.max(roll, from_ft), end_ft];
}

// ---- drawing, all elements made once -------------------------------------------------------------------------

function makeRoll(svg) {
  const id = `coach-trail-${Math.random().toString(36).slice(2, 10)}`, clip = make("clipPath", svg);
  set(clip, { id });
  const passed = make("rect", clip), trail = make("g", svg, "trail");
  set(trail, { "clip-path": `url(#${id})` });
  const phases = ["skid", "hook", "roll"].map((name) => make("path", trail, `trail-${name}`));
  return { passed, trail, phases, stills: [0, 1, 2].map(() => make("circle", svg, "still")), ball: make("circle", svg, "rolling") };
}

// The deck has a scale of its own: over its front and beyond, the ball stands there.
function ballSpot({ at, deck }, ball, ft) {
  const board = readAt(ball.boards, ft), behind_in = (ft - FEET) * 12;
  return behind_in < -FRONT_IN ? at(ft, board) : deck(behind_in, board);
}

function trailOf(boards, feet, place) {
  const [from, to] = [Math.max(feet?.[0] ?? 0, place.from_ft), feet?.[1] ?? 0];
  if (to <= from) return "";
  const whole = [...Array(FEET + 1).keys()].filter((ft) => ft > from && ft < to);
  return points(...[from, ...whole, to].map((ft) => place.at(ft, readAt(boards, ft))));
}

// All that does not change while a ball rolls; null clears it away.
function layRoll(svg, roll, ball, scene, place) {
  const nodes = [roll.trail, roll.ball, ...roll.stills];
  nodes.forEach((node) => show(node, ball !== null && !roll.stills.includes(node)));
  if (ball === null) { delete svg.dataset.rolling; return; }
  svg.dataset.rolling = ball.which;
  set(roll.ball, { r: scene.ball_radius_in * place.inch });
  phaseFeet(ball).forEach((feet, i) => set(roll.phases[i], { d: trailOf(ball.boards, feet, place) }));
  const [width, height] = [place.width, place.height];
  set(roll.passed, place.is_upright ? { x: 0, y: 0, width, height } : { x: -width, y: 0, width, height });
}

// One frame: the ball and the edge up to which its trail is seen are moved, nothing is laid out.
function moveRoll(roll, ball, place, ft) {
  const [x, y] = ballSpot(place, ball, ft);
  roll.ball.style.transform = `translate(${x.toFixed(2)}px, ${y.toFixed(2)}px)`;
  const [edge_x, edge_y] = place.is_upright ? [0, y] : [x, 0];
  roll.passed.style.transform = `translate(${edge_x.toFixed(2)}px, ${edge_y.toFixed(2)}px)`;
}

function drawStills(roll, ball, scene, place) {
  threeFeet(ball, place.from_ft).forEach((ft, i) => {
    const [cx, cy] = ballSpot(place, ball, ft);
    set(roll.stills[i], { cx, cy, r: scene.ball_radius_in * place.inch });
    show(roll.stills[i], true);
  });
  moveRoll(roll, ball, place, ball.end_ft);
  show(roll.ball, false);
}
