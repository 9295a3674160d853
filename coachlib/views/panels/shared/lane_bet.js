// A bet on the lane: a ring or a line that is dragged, and after the bet the answer drawn over it. Boards are the
// bowler's own. Whoever holds the bet's number in the same panel hears of a drag, and the lane of theirs.

const BET = "coach-bet", RING = 11;
const halves = (value) => {
  const whole = Math.floor(Math.abs(value) * 2 + 0.5) / 2, sign = value < 0 ? "−" : "";
  return sign + (whole % 1 ? `${Math.floor(whole) || ""}½` : String(whole));
};

function makeBet(svg) {
  return {
    lead: make("path", svg, "bet-lead"), ball: make("circle", svg, "bet-ball"), line: make("path", svg, "bet-line"),
    answer_line: make("path", svg, "answer-line"), answer_ball: make("circle", svg, "answer-ball"),
    cross: make("path", svg, "pivot"), ring: make("circle", svg, "bet-ring"), grip: make("path", svg, "bet-grip"),
    bracket: make("path", svg, "bet-bracket"), off: make("text", svg, "said bold on-lane"),
    words: make("text", svg, "bet-words on-lane"), answer: make("text", svg, "answer-words on-lane"),
    cross_words: make("text", svg, "bet-words on-lane"),
  };
}

const hideAll = (parts) => Object.values(parts).forEach((node) => show(node, false));

function drawBet(parts, bet, scene, place) {
  hideAll(parts);
  if (!bet?.what || place.from_ft) return;
  if (bet.cross) drawCross(parts, bet, place);
  if (bet.what === "ft") drawFeetBet(parts, bet, place);
  else if (bet.what === "board") drawBoardBet(parts, bet, scene, place);
}

// Where a ball's outline stands: at the head pin where it touches, else beside it.
function atPins(own, scene, { deck }) {
  const reach = scene.ball_radius_in + scene.pin_radius_in, across = (own - 20) * BOARD_IN;
  return deck(-Math.sqrt(Math.max(0, reach * reach - across * across)), own);
}

function drawBoardBet(parts, bet, scene, place) {
  const is_at_pins = bet.at_ft === FEET, r = is_at_pins ? scene.ball_radius_in * place.inch : RING;
  const spot = (own) => (is_at_pins ? atPins(own, scene, place) : place.at(bet.at_ft, own));
  if (bet.value !== null) {
    const [x, y] = place.at(bet.at_ft, bet.value), [bx, by] = spot(bet.value);
    show(parts.ball, true);
    set(parts.ball, { cx: bx, cy: by, r });
    if (bet.is_open) drawGrip(parts, place, x, y);
    if (is_at_pins) { show(parts.lead, true); set(parts.lead, { d: points([x, y], [bx, by]) }); }
  }
  if (bet.answer !== null && bet.answer !== undefined) {
    const [ax, ay] = spot(bet.answer);
    show(parts.answer_ball, true);
    set(parts.answer_ball, { cx: ax, cy: ay, r });
  }
  writeBoardWords(parts, bet, spot, r, place);
}

function drawGrip(parts, { is_upright }, x, y) {
  show(parts.ring, true);
  set(parts.ring, { cx: x, cy: y, r: RING });
  show(parts.grip, true);
  set(parts.grip, { d: is_upright ? `M${x - 6} ${y}l4 -4v8ZM${x + 6} ${y}l-4 -4v8Z` : `M${x} ${y - 6}l-4 4h8ZM${x} ${y + 6}l-4 -4h8Z` });
}

// The bet's words and the answer's stand on the two sides that the balls leave free, the distance between them.
function writeBoardWords(parts, bet, spot, r, { is_upright, em, px, width }) {
  const told = bet.value === null ? "" : bet.is_open ? `your bet ${halves(bet.value)}` : bet.bet_text;
  const has_answer = bet.answer !== null && bet.answer !== undefined;
  const b = spot(bet.value ?? bet.answer ?? 20), a = has_answer ? spot(bet.answer) : b;
  const axis = is_upright ? 0 : 1, before = b[axis] <= a[axis] ? -1 : 1;
  const beside = (at, side, text) => {
    if (!is_upright) return [Math.min(at[0], width - px(text, "bold") / 2 - 4), at[1] + side * (r + 7 * em) + (side > 0 ? 7 * em : 0)];
    return [at[0] + side * (r + 6), at[1] + 4.5];
  };
  const anchor = (side) => (is_upright ? (side > 0 ? "start" : "end") : "middle");
  write(parts.words, told, beside(b, before, told), anchor(before));
  write(parts.answer, has_answer ? bet.answer_text : "", beside(a, -before, bet.answer_text ?? ""), anchor(-before));
  if (!bet.off_text || is_upright || bet.value === null) return;
  const x = Math.min(a[0], b[0]) - r - 8;
  show(parts.bracket, true);
  set(parts.bracket, { d: `M${x - 4} ${a[1]}h8M${x} ${a[1]}V${b[1]}M${x - 4} ${b[1]}h8` });
  write(parts.off, bet.off_text, [x - 8, (a[1] + b[1]) / 2 + 5], "end");
}

function drawFeetBet(parts, bet, place) {
  const ends = (ft) => [place.at(ft, 0.5), place.at(ft, 39.5)], { is_upright, inward, em, px } = place;
  const label = (ft, side) => { const [x, y] = place.at(ft, side > 0 ? 36 : 4); return is_upright ? [x, y - 5] : [x + 6, y + 4.5]; };
  const middle = is_upright ? "middle" : "start";
  if (bet.value !== null) {
    show(parts.line, true);
    set(parts.line, { d: points(...ends(bet.value)) });
    const [x, y] = place.at(bet.value, 20);
    if (bet.is_open) { show(parts.ring, true); set(parts.ring, { cx: x, cy: y, r: RING }); show(parts.grip, true);
      set(parts.grip, { d: is_upright ? `M${x} ${y - 6}l-4 4h8ZM${x} ${y + 6}l-4 -4h8Z` : `M${x - 6} ${y}l4 -4v8ZM${x + 6} ${y}l-4 -4v8Z` }); }
    const text = bet.is_open ? `your bet ${Math.round(bet.value)} ft` : bet.bet_text, at = label(bet.value, 1);
    const is_late = !is_upright && at[0] + px(text, "bold") > place.at(FEET, 20)[0] + 2 * place.strip;
    write(parts.words, text, is_late ? [at[0] - 12, at[1]] : at, is_late ? "end" : middle);
  }
  if (bet.answer === null || bet.answer === undefined) return;
  show(parts.answer_line, true);
  set(parts.answer_line, { d: points(...ends(bet.answer)) });
  write(parts.answer, bet.cross ? "" : bet.answer_text, label(bet.answer, -1), middle);
}

function drawCross(parts, { cross, cross_text: words = "" }, { at, is_upright, inward, em }) {
  const [x, y] = at(cross[0], cross[1]);
  show(parts.cross, true);
  set(parts.cross, { d: `M${x - 6} ${y - 6}L${x + 6} ${y + 6}M${x - 6} ${y + 6}L${x + 6} ${y - 6}` });
  write(parts.cross_words, words, [x + 12, is_upright ? y + 4.5 : y + (inward > 0 ? 20 : -12) * em], "start");
}

// What the point under a finger is, by the step of the bet; `at` is linear both along and across the lane.
function betUnder(svg, event, bet, { at }) {
  const matrix = svg.getScreenCTM();
  if (!matrix) return null;
  const p = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
  const o = at(0, 0), u = bet.what === "ft" ? at(1, 0) : at(0, 1), [dx, dy] = [u[0] - o[0], u[1] - o[1]];
  const value = ((p.x - o[0]) * dx + (p.y - o[1]) * dy) / (dx * dx + dy * dy);
  return clamp(Math.round(value / bet.step) * bet.step, bet.low, bet.high);
}

// Tap or drag: the number goes to the panel's own control, and comes back to the lane in the same way.
function followBet(el, svg, model, placed, redraw) {
  const tell = (value) => document.dispatchEvent(new CustomEvent(BET, { detail: { value, root: el.closest(".coach") } }));
  const isOpen = () => Boolean(model.get("bet")?.is_open) && model.get("bet").what !== "";
  let is_down = false;
  const drag = (event) => {
    const value = placed() && betUnder(svg, event, model.get("bet"), placed());
    if (value !== null && value !== undefined) tell(value);
  };
  const down = (event) => { if (isOpen()) { is_down = true; svg.setPointerCapture?.(event.pointerId); drag(event); } };
  const move = (event) => { if (is_down && isOpen()) drag(event); };
  const up = () => { is_down = false; };
  const heard = ({ detail }) => {
    if (!isOpen() || detail.root !== el.closest(".coach")) return;
    model.set("bet", { ...model.get("bet"), value: detail.value });
    redraw();
  };
  svg.addEventListener("pointerdown", down);
  svg.addEventListener("pointermove", move);
  svg.addEventListener("pointerup", up);
  svg.addEventListener("pointercancel", up);
  document.addEventListener(BET, heard);
  return () => document.removeEventListener(BET, heard);
}
