// Where things go on the lane picture, in front of its other scripts. Boards are the bowler's own: `turn` turns
// the page for a left-hander, never a mirrored style sheet.

const SVG = "http://www.w3.org/2000/svg";
const BOARD_IN = 41.5 / 39, FEET = 60, FRONT_IN = 11, GUTTER = 6;
const STRIP = 36, CUT_IN = 17;  // a row of dots; with dots the whole lane shows the deck only so far behind the head pin
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

// `part` says what of the lane is drawn: from which distance, how many px of dots, the deck to where.
function partOf(scene, view) {
  const has_balls = scene.played.path !== null, from_ft = view === "end" ? END_FROM_FT : 0;
  return { from_ft, strip: has_balls ? 2 * STRIP : 0, behind_in: has_balls && !from_ft ? CUT_IN : scene.pit_behind_in };
}

function placeAcross(width, { from_ft, strip, behind_in }, turn, has_two_rows, { em, feet, ruler }) {
  const board = clamp(width / 130, 4.6, 6.4), inch = board / BOARD_IN;
  const numbers = Math.max(26, ruler + 10), approach = from_ft ? numbers + 8 : Math.max(112, feet + numbers + 2);
  const top = (has_two_rows ? 46 : 30) * em;
  const foot = (width - approach - strip - (FRONT_IN + behind_in) * inch - 1) / (FEET - from_ft);
  const y = (own) => top + turn(own) * board, pins = approach + (FEET - from_ft) * foot;
  return {
    is_upright: false, board, inch, foot, from_ft, strip, behind_in, approach, width,
    height: top + 39 * board + (strip ? 46 : 30) * em, em, numbers,
    at: (ft, own) => [approach + (ft - from_ft) * foot, y(own)],
    dot: (px, own) => [pins + px, y(own)],
    deck: (inches, own) => [pins + strip + (FRONT_IN + inches) * inch, y(own)],
    edges: [top, top + 39 * board], inward: turn(1) < turn(39) ? 1 : -1,
  };
}

function placeUpright(width, { from_ft, strip, behind_in }, turn, { em, own, far }) {
  const own_room = Math.max(78, own + 12), far_room = Math.max(44, far + 15), beside = own_room + far_room;
  const board = clamp((width - beside) / 39, 3.4, 5.6), inch = board / BOARD_IN, foot = from_ft ? 13 : 4.7;
  // Distances stand on the far side, the wider margin for "simulated" on the own side.
  const first = turn(1) < turn(39) ? own_room : far_room, left = first + Math.max(0, width - beside - 39 * board) / 2;
  const pins = 36 * em + (FRONT_IN + behind_in) * inch + strip, foul = pins + (FEET - from_ft) * foot;
  const x = (own) => left + turn(own) * board;
  return {
    is_upright: true, board, inch, foot, from_ft, strip, behind_in, height: foul + (from_ft ? 26 : 88) * em, foul, width, em,
    at: (ft, own) => [x(own), foul - (ft - from_ft) * foot],
    dot: (px, own) => [x(own), pins - px],
    deck: (inches, own) => [x(own), pins - strip - (FRONT_IN + inches) * inch],
    edges: [left, left + 39 * board], inward: turn(1) < turn(39) ? 1 : -1,
  };
}

function placeOf(scene, width, view, room) {
  const turn = scene.hand === "left" ? (own) => own - 0.5 : (own) => 39.5 - own, part = partOf(scene, view);
  const has_two_rows = scene.simulated_text !== "";
  return width < 520 ? placeUpright(width, part, turn, room) : placeAcross(width, part, turn, has_two_rows, room);
}
