// Where things go on the lane picture, in front of its other scripts. Boards are the bowler's own: `turn` turns
// the page for a left-hander, never a mirrored style sheet.

const SVG = "http://www.w3.org/2000/svg";
const BOARD_IN = 41.5 / 39, FEET = 60, FRONT_IN = 11, GUTTER = 6;
const END_FROM_FT = 40;
const clamp = (value, low, high) => Math.min(high, Math.max(low, value));

function make(tag, parent, cls) {
  const node = document.createElementNS(SVG, tag);
  if (cls !== undefined) node.setAttribute("class", cls);
  return parent.appendChild(node);
}

function set(node, attributes) {
  for (const name in attributes) node.setAttribute(name, attributes[name]);
}

function show(node, is_shown) {
  node.style.display = is_shown ? "" : "none";
}

function write(node, words, [x, y], anchor = "middle") {
  show(node, words !== "");
  set(node, { x, y, "text-anchor": anchor });
  (node.firstElementChild ?? node).textContent = words;
}

// A big number with small words after it, in one text so that they never overlap.
function makeBig(svg, cls) {
  const node = make("text", svg, cls);
  make("tspan", node, "said strong");
  make("tspan", node, "");
  return node;
}

function writeBig(node, number, words, place, anchor) {
  write(node, number, place, anchor);
  node.lastElementChild.textContent = words && `\u2009${words}`;
}

function segment(node, [x1, y1], [x2, y2]) {
  set(node, { x1, y1, x2, y2 });
}

const points = (...places) => "M" + places.map(([x, y]) => `${x.toFixed(2)} ${y.toFixed(2)}`).join("L");

const isSmall = (width) => width < 260;

// A lane side is `quiet`: it names feet, target and strikes alone, and keeps the room of dots where there are none,
// so that nothing moves when the balls come. The last 20 ft name all, as lessons do.
function partOf(scene, view, width, is_short) {
  const is_end = view === "end", has_dots = scene.is_plain || scene.played.path !== null;
  const is_small = isSmall(width), quiet = scene.is_plain && (!is_end || is_small);
  return { quiet, is_small, is_short, from_ft: is_end ? END_FROM_FT : 0, has_dots, behind_in: scene.pit_behind_in, width };
}

function placeAcross(part, turn, has_two_rows, { em, px, feet, most }) {
  const { width, from_ft, quiet, behind_in } = part, board = clamp(width / 140, 4.4, most), inch = board / BOARD_IN;
  const approach = from_ft ? Math.max(34, px("35") + 12) : Math.max(130, feet + 70), top = (quiet ? 24 : has_two_rows ? 46 : 30) * em;
  const strip = part.has_dots ? clamp(width * 0.096, 52, 83) : 0, below = (part.has_dots ? 58 : 30) * em;
  const foot = (width - approach - 2 * strip - (FRONT_IN + behind_in) * inch - 1) / (FEET - from_ft);
  const y = (own) => top + turn(own) * board, pins = approach + (FEET - from_ft) * foot;
  return {
    ...part, em, px, is_upright: false, is_small: false, board, inch, foot, strip, approach, height: top + 39 * board + below,
    at: (ft, own) => [approach + (ft - from_ft) * foot, y(own)],
    dot: (px, own) => [pins + px, y(own)],
    deck: (inches, own) => [pins + 2 * strip + (FRONT_IN + inches) * inch, y(own)],
    edges: [top, top + 39 * board], inward: turn(1) < turn(39) ? 1 : -1,
  };
}

// Upright a quiet lane lies at the far edge, with all words in a column at its inside; on a phone they lie on it.
function placeUpright(part, turn, { em, px, inside, own, far }) {
  const { width, from_ft, quiet, behind_in } = part, is_right_handed = turn(1) > turn(39), column = Math.max(152, inside + 2 * GUTTER + 9);
  const is_small = part.is_small || (quiet && width - column < 39 * 3.2);  // no room for a column: the words lie on the lane
  const beside = is_small ? 34 : quiet ? column : Math.max(78, own + 12) + Math.max(44, far + 15);
  const board = is_small ? (width - 34) / 39 : quiet ? clamp((width - beside) / 39, 3.2, part.is_short ? 4.7 : 6.1) : clamp((width - beside) / 39, 3.4, 5.6);
  const first = is_right_handed ? Math.max(44, far + 15) : Math.max(78, own + 12), rim = GUTTER + 1;
  const left = is_small ? 17 : quiet ? (is_right_handed ? width - rim - 39 * board : rim)
    : first + Math.max(0, width - beside - 39 * board) / 2;
  const inch = board / BOARD_IN, strip = part.has_dots ? (is_small || part.is_short ? 36 : 75) : 0, foot = from_ft ? 13 : is_small ? 1.9 : part.is_short ? 2.9 : 4.9;
  const pins = (quiet ? 4 : 36 * em) + (FRONT_IN + behind_in) * inch + 2 * strip, foul = pins + (FEET - from_ft) * foot;
  const x = (own) => left + turn(own) * board;
  return {
    ...part, em, px, is_small, is_upright: true, board, inch, foot, strip, foul, height: foul + (from_ft ? 26 : quiet ? (is_small ? 54 : 78) : 88) * em,
    at: (ft, own) => [x(own), foul - (ft - from_ft) * foot],
    dot: (px, own) => [x(own), pins - px],
    deck: (inches, own) => [x(own), pins - 2 * strip - (FRONT_IN + inches) * inch],
    edges: [left, left + 39 * board], inward: turn(1) < turn(39) ? 1 : -1,
  };
}

function placeOf(scene, width, view, room, is_short = false) {
  const turn = scene.hand === "left" ? (own) => own - 0.5 : (own) => 39.5 - own, part = partOf(scene, view, width, is_short);
  return width < 520 ? placeUpright(part, turn, room) : placeAcross(part, turn, scene.simulated_text !== "", room);
}
