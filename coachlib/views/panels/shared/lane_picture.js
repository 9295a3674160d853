// The lane from above, drawn from a scene (made by coachlib/views): across on a laptop, upright where it is narrow.
// Every element is made once; a new scene, view or width only sets attributes, so nothing piles up.

const RULER = [5, 10, 15, 20, 25, 30, 35];
const SOLE = "M-13 0C-13-4.2-8-4.6-4-3.4C0-2.4 3-5 7-5C11-5 13-2.6 13 0C13 2.6 11 5 7 5C3 5 0 2.4-4 3.4C-8 4.6-13 4.2-13 0Z";

// ---- the elements, made once -----------------------------------------------------------------------------

function makeParts(svg) {
  const many = (list, tag, cls) => list.map(() => make(tag, svg, cls));
  const ten = [...Array(10)], five = [...Array(5)], three = [0, 1, 2];
  return {
    gutters: many([0, 1], "rect", "gutter"), wood: make("path", svg, "wood"), film: makeBalls(svg),
    boards: many(RULER, "line", "board"),
    pocket: make("path", svg, "pocket"), oil: make("line", svg, "across"), columns: many(three, "line", "across"),
    edge: make("line", svg, "edge"), ticks: many(five, "line", "tick"), foul: make("line", svg, "foul"),
    arrows: many(RULER, "path", "arrow"), dots: many(ten, "circle", "dot"),
    pins: many(ten, "circle", "pin"), pin_numbers: many(ten, "text", "pin-number"),
    now: [make("path", svg, "path balls now"), make("path", svg, "dots dots-now"), make("path", svg, "dots dots-now struck")],
    then: [make("path", svg, "path balls then"), make("path", svg, "dots dots-then"), make("path", svg, "dots dots-then struck")],
    contact_now: make("circle", svg, "contact contact-now"), contact_then: make("circle", svg, "contact contact-then"),
    now_halo: make("path", svg, "path halo"), now_far: make("path", svg, "path now far"),
    now_near: make("path", svg, "path now"), then_far: make("path", svg, "path then far"),
    then_near: make("path", svg, "path then"),
    marks_now: many(three, "circle", "mark-now"), marks_then: many(three, "circle", "mark-then"),
    leader: make("line", svg, "leader"), target_now: make("path", svg, "mark-now"),
    target_then: make("path", svg, "mark-then"), pivot: make("path", svg, "pivot"),
    sole_now: make("path", svg, "sole mark-now"), sole_then: make("path", svg, "sole mark-then"),
    turn: make("circle", svg, "turn"), crossed: make("circle", svg, "seen"), ball: make("circle", svg, "seen"),
    bet: makeBet(svg),
    ruler: many(RULER, "text", ""), tick_words: many(five, "text", ""),
    gutter_words: many([0, 1], "text", ""), gutter_boards: many([0, 1], "text", ""),
    oil_words: make("text", svg, "on-lane"), pivot_words: make("text", svg, "on-lane"),
    turn_words: make("text", svg, "on-lane"), pocket_words: make("text", svg, ""),
    counts: [make("text", svg, "count now-word"), make("text", svg, "count then-word")],
    counts_of: many([0, 1], "text", ""), dots_words: make("text", svg, ""),
    crossed_words: make("text", svg, "on-lane"), ball_words: make("text", svg, "on-lane"),
    simulated_head: make("text", svg, ""), simulated: make("text", svg, "said bold"),
    shift_head: make("text", svg, ""), shifts: many(three, "text", "said bold"),
    feet_leader: make("line", svg, "leader"),
    target: makeBig(svg, "on-lane"), target_words: make("text", svg, "on-lane"),
    target_was: make("text", svg, "on-lane"), feet: makeBig(svg, ""), feet_words: make("text", svg, ""), feet_was: make("text", svg, ""),
    roll: makeRoll(svg), probe: makeProbe(svg),
  };
}

// ---- drawing ---------------------------------------------------------------------------------------------

function drawLane(parts, scene, place) {
  const { at, deck, is_upright, edges, from_ft, em, px, behind_in: pit } = place, is_whole = from_ft === 0;
  const [low, high] = scene.pocket_board;
  set(parts.wood, { d: points(at(from_ft, 0.5), at(from_ft, 39.5), deck(pit, 39.5), deck(pit, 0.5)) + "Z" });
  set(parts.pocket, { d: points(at(58, low), at(58, high), deck(0, high), deck(0, low)) + "Z" });
  const [x0, y0] = at(from_ft, 20), [x1, y1] = deck(pit, 20);
  [edges[0] - GUTTER, edges[1]].forEach((edge, side) => set(parts.gutters[side], is_upright
    ? { x: edge, y: y1, width: GUTTER, height: y0 - y1 } : { x: x0, y: edge, width: x1 - x0, height: GUTTER }));
  RULER.forEach((own, i) => {
    const [x, y] = at(from_ft, own);
    segment(parts.boards[i], [x, y], at(FEET, own));
    const is_named = !is_upright || own % 10 === 0 || 5 * place.board > px("35") + 3;
    write(parts.ruler[i], is_named ? String(own) : "", is_upright ? [x, y + 4 + 13 * em] : [x - 7, y + 4.5], is_upright ? "middle" : "end");
  });
  segment(parts.foul, at(0, 0.5), at(0, 39.5));
  [parts.foul, ...parts.arrows, ...parts.dots].forEach((node) => show(node, is_whole));
  segment(parts.edge, at(FEET, 0.5), at(FEET, 39.5));
  scene.arrows.forEach(([ft, own], i) => {
    const [x, y] = at(ft, own);
    set(parts.arrows[i], { d: is_upright ? `M${x - 4} ${y + 5}H${x + 4}L${x} ${y - 5}Z` : `M${x - 5} ${y - 4}V${y + 4}L${x + 5} ${y}Z` });
  });
  scene.dots.forEach(([ft, own], i) => { const [cx, cy] = at(ft, own); set(parts.dots[i], { cx, cy, r: 1.3 }); });
}

function drawPins(parts, scene, place) {
  scene.pins.forEach((pin, i) => {
    const [cx, cy] = place.deck(pin.behind_in, pin.board), cls = pin.is_left ? " left" : "";
    set(parts.pins[i], { cx, cy, r: scene.pin_radius_in * place.inch, class: `pin${cls}` });
    set(parts.pin_numbers[i], { class: `pin-number${cls}` });
    write(parts.pin_numbers[i], place.is_small ? "" : String(pin.number), [cx, cy + 4]);
  });
}

// Where a straight line is at some distance; both ends are kept in what is drawn.
function straight(line, from, to, { at, from_ft }) {
  const start = clamp(from, Math.max(from_ft, line.start_ft), line.end_ft), end = clamp(to, start, line.end_ft);
  const slope = (line.end_board - line.start_board) / (line.end_ft - line.start_ft);
  const place = (ft) => at(ft, line.start_board + slope * (ft - line.start_ft));
  return end > start ? points(place(start), place(end)) : "";
}

// Simulated: the ball as meant, and the aim line under it to the pivot. Else the lever on paper, thin past the target.
function drawLine(line, scene, place, near, far, halo) {
  [near, far, halo].forEach((path) => path && show(path, line !== null));
  if (line === null) return;
  const aimed_ft = Math.max(line.target_ft, scene.pivot?.at_ft ?? 0), is_simulated = line.path !== null;
  const whole = is_simulated ? footByFoot(line.path.meant_board, place) : straight(line, 0, FEET, place);
  set(near, { d: is_simulated ? whole : straight(line, 0, line.target_ft, place) });
  set(far, { d: is_simulated ? straight(line, 0, aimed_ft, place) : straight(line, line.target_ft, FEET, place) });
  if (is_simulated && place.quiet) show(far, false);
  if (halo) set(halo, { d: whole });
}

function diamond(path, line, place, size) {
  const is_shown = line !== null && line.target_ft >= place.from_ft;
  show(path, is_shown);
  if (!is_shown) return;
  const [x, y] = place.at(line.target_ft, line.target_board);
  set(path, { d: `M${x - size} ${y}L${x} ${y - size}L${x + size} ${y}L${x} ${y + size}Z` });
}

function drawShifts(parts, scene, place) {
  const { at, is_upright, edges, inward, quiet, em, px } = place, own = inward > 0 ? edges[0] - GUTTER - 5 : edges[1] + GUTTER + 5;
  const row = scene.simulated_text && !is_upright ? 6 + 16 * em : 6, beyond = is_upright ? own : edges[0] - GUTTER - row, own_side = inward > 0 ? "end" : "start";
  parts.shifts.forEach((words, i) => {
    const given = quiet ? undefined : scene.shifts[i], shift = given && given.at_ft >= place.from_ft ? given : undefined;
    const [x, y] = at(shift?.at_ft ?? 0, 20), has_marks = shift !== undefined && scene.played.path === null;
    show(parts.columns[i], shift !== undefined && i < 2);
    segment(parts.columns[i], at(shift?.at_ft ?? 0, 0.5), at(shift?.at_ft ?? 0, 39.5));
    write(words, shift?.text ?? "", is_upright ? [beyond, y + 4.5] : [x, beyond], is_upright ? own_side : "middle");
    [[parts.marks_now[i], shift?.played_board, 3], [parts.marks_then[i], shift?.advised_board, 4]].forEach(([mark, own, r]) => {
      show(mark, has_marks && own !== null);
      const [cx, cy] = at(shift?.at_ft ?? 0, own ?? 0);
      set(mark, { cx, cy, r });
    });
  });
  const first = scene.shifts.find(({ at_ft }) => at_ft >= place.from_ft), [from, y] = at(is_upright ? FEET : place.from_ft, 20);
  const until = at(first?.at_ft ?? FEET, 20)[0] - px(first?.text ?? "", "bold") / 2 - 8, whole = "next line, on paper:";
  const head = until - from > px(whole) ? whole : "on paper:", x = Math.min(from, until - px(head));
  write(parts.shift_head, scene.shifts.length && !quiet ? (is_upright ? "on paper" : head) : "",
    is_upright ? [beyond, y - 17 * em] : [x, beyond], is_upright ? own_side : "start");
}

function drawPivot(parts, scene, { at, is_upright, inward, from_ft, quiet }) {
  const pivot = quiet ? null : scene.pivot, is_apart = pivot !== null && pivot.is_apart && pivot.at_ft >= from_ft;
  show(parts.pivot, is_apart);
  const [x, y] = is_apart ? at(pivot.at_ft, pivot.board) : [0, 0];
  set(parts.pivot, { d: `M${x - 6} ${y - 6}L${x + 6} ${y + 6}M${x - 6} ${y + 6}L${x + 6} ${y - 6}` });
  const free = scene.played.target_board > scene.played.laydown_board ? -inward : inward, line = scene.advised ?? scene.played;
  const side = is_upright && is_apart && Math.abs(pivot.at_ft - line.target_ft - 5) < 9 ? -free : free;  // the target's words stand there
  write(parts.pivot_words, is_apart ? pivot.text : "", is_upright ? [x + 12 * side, y + 4.5] : [x, y - 19 * inward + 4.5],
    is_upright ? (side > 0 ? "start" : "end") : "middle");
}

// The last ball: a ring where it crossed, its outline in true size where it met the pins. The words stand on the
// side of the line that is free before the target, `free` in boards: -1 outside.
// A quiet lane shows both without words, and where it met the pins only where no drawn ball stands there.
function drawSeen(parts, scene, { at, deck, is_upright, inward, inch, from_ft, quiet, px }) {
  const last = scene.last, arrived = quiet && scene.played.path !== null ? "" : last?.arrival_text ?? "";
  const crossed = (last?.crossed_ft ?? 0) < from_ft ? "" : last?.crossed_text ?? "";
  const ring = (node, words_node, words, [cx, cy], r, free) => {
    const way = free * inward, gap = r + 5;
    show(node, words !== "");
    set(node, { cx, cy, r });
    write(words_node, quiet ? "" : words, is_upright ? [cx + gap * way, cy + 4.5] : [cx, cy + (gap + 7) * way + 4.5],
      is_upright ? (way > 0 ? "start" : "end") : "middle");
  };
  const free = !is_upright && scene.played.target_board > scene.played.laydown_board ? 1 : -1;
  ring(parts.crossed, parts.crossed_words, crossed, crossed ? at(last.crossed_ft, last.crossed_board) : [0, 0], 9, free);
  if (crossed && !is_upright) {
    set(parts.crossed_words, { x: Math.max(at(last.crossed_ft, 0)[0], at(0, 0)[0] + Math.max(84, px(crossed) + 6)), "text-anchor": "end" });
  }
  ring(parts.ball, parts.ball_words, arrived, arrived ? deck(-last.before_head_pin_in, last.arrival_board) : [0, 0],
    scene.ball_radius_in * inch, -1);
}

// Words that give way where they would stand on others, the least needed first.
const YIELDING = ["pocket_words", "simulated_head", "gutter_words", "gutter_boards", "tick_words", "oil_words", "turn_words", "pivot_words",
  "crossed_words", "ball_words", "dots_words", "target_was", "feet_was", "shift_head", "shifts", "counts_of"];

function draw(box, svg, caption, deck, parts, { scene, oil, view, bet }, width) {
  show(svg, Boolean(scene.played));
  drawDeck(deck, scene.deck ?? []);
  if (!scene.played) { caption.textContent = ""; return null; }
  svg.classList.toggle("small", isSmall(width));  // before its words are measured
  const place = placeOf(scene, width, view, roomOf(box, parts.probe, scene), Boolean(box.closest(".coach-lesson"))), moves = scene.advised !== null, next = scene.advised ?? scene.played;
  const cls = `${moves ? "two" : "one"}${scene.played.path === null ? "" : " thrown"}${scene.is_asked ? " asked" : ""}${bet?.is_open ? " bets" : ""}`;
  set(svg, { viewBox: `0 0 ${width} ${place.height.toFixed(1)}`, "aria-label": scene.summary, class: cls });
  svg.style.height = `${place.height}px`;
  box.classList.toggle("coach-lane-upright", place.is_upright);
  box.classList.toggle("coach-lane-end", place.from_ft > 0);
  svg.classList.toggle("small", place.is_small);
  drawLane(parts, scene, place);
  drawOil(parts.film, oil, scene, place);
  drawTicks(parts, scene, place);
  drawPins(parts, scene, place);
  drawBalls(parts.now, scene.played, 0, place);
  drawBalls(parts.then, scene.advised, 1, place);
  drawContact(parts.contact_now, scene.played, scene, place);
  drawContact(parts.contact_then, scene.advised, scene, place);
  drawLine(scene.played, scene, place, parts.now_near, parts.now_far, parts.now_halo);
  drawLine(scene.advised, scene, place, parts.then_near, parts.then_far);
  diamond(parts.target_now, scene.played, place, 6);
  diamond(parts.target_then, scene.advised, place, 7);
  drawTarget(parts, next, moves ? scene.played : null, place);
  drawFeet(parts, next, moves ? scene.played : null, place);
  drawShifts(parts, scene, place);
  drawPivot(parts, scene, place);
  drawBreakpoint(parts.turn, parts.turn_words, next, scene, place);
  drawCounts(parts, scene, place);
  drawSeen(parts, scene, place);
  drawBet(parts.bet, bet, scene, place);
  parts.place = place;
  keepReadable(svg, YIELDING.flatMap((name) => parts[name]), width, place.height);
  const times = Math.round((place.board / BOARD_IN) * 12 / place.foot), from = place.from_ft ? "From 40 to 60" : "Up to 60";
  const told = place.is_small ? [scene.sheet_text] : [scene.sheet_text, scene.note];
  caption.textContent = [...told, `${from} ft a board is drawn ${times} times too wide.`].filter(Boolean).join(" ");
  box.classList.toggle("coach-lane-small", place.is_small);
  return place;
}

// ---- whole lane or its end, remembered for the next time ---------------------------------------------------

const VIEWS = { whole: "Whole lane", end: "Last 20 ft" }, KEPT_AT = "coach-lane-view";

function keptView() {
  try { return localStorage.getItem(KEPT_AT) in VIEWS ? localStorage.getItem(KEPT_AT) : "whole"; } catch { return "whole"; }
}

function keepView(view) {
  try { localStorage.setItem(KEPT_AT, view); } catch { /* a browser that keeps nothing still shows the view */ }
}

function makeSwitch(box, model) {
  const group = box.appendChild(document.createElement("div"));
  group.className = "coach-view";
  set(group, { role: "group", "aria-label": "View of the lane" });
  const buttons = Object.entries(VIEWS).map(([view, words]) => {
    const node = group.appendChild(document.createElement("button"));
    node.type = "button";
    node.textContent = words;
    node.setAttribute("data-lm-suppress-shortcuts", "true");
    node.onclick = () => { keepView(view); model.set("view", view); model.save_changes(); };
    return [view, node];
  });
  return (view, is_shown) => {
    group.hidden = !is_shown;
    buttons.forEach(([name, node]) => node.setAttribute("aria-pressed", name === view));
  };
}

function render({ model, el }) {
  const box = el.appendChild(document.createElement("div"));
  box.className = "coach-lane";
  const svg = make("svg", box, "one"), parts = makeParts(svg), player = makePlayer(box, svg, parts.roll);
  const deck = makeDeck(box), choose = makeSwitch(box, model), caption = box.appendChild(document.createElement("p"));
  svg.setAttribute("role", "img");
  const redraw = () => {
    const width = Math.round(box.clientWidth);  // 0 until the box is on the page: then the observer below calls again
    const look = { bet: model.get("bet"), scene: model.get("scene"), oil: model.get("oil"), view: model.get("view") || keptView() };
    choose(look.view, Boolean(look.scene.played));
    const place = width > 0 ? draw(box, svg, caption, deck, parts, look, Math.max(160, width)) : null;
    if (place) player.show(look.scene, place, model.get("is_playable") !== false);
    else player.hide();
  };
  const watched = "change:scene change:view change:oil change:is_playable";
  redraw();
  const leaveBet = followBet(el, svg, model, () => parts.place, redraw);
  model.on("change:bet", redraw);
  model.on(watched, redraw);
  const watch = new ResizeObserver(redraw);
  watch.observe(box);
  const forget = whenFontsCome(redraw), leave = () => { leaveBet(); player.forget(); model.off("change:bet", redraw); };
  return () => { leave(); watch.disconnect(); forget(); model.off(watched, redraw); };
}

export default { render };
