// The lane from above, drawn from a scene (made by coachlib/views): across on a laptop, upright where it is narrow.
// Every element is made once; a new scene, view or width only sets attributes, so nothing piles up.

const TICKS = [0, 15, 30, 45, 60], END_TICKS = [40, 45, 50, 55, 60], RULER = [5, 10, 15, 20, 25, 30, 35];
const SOLE = "M-13 0C-13-4.2-8-4.6-4-3.4C0-2.4 3-5 7-5C11-5 13-2.6 13 0C13 2.6 11 5 7 5C3 5 0 2.4-4 3.4C-8 4.6-13 4.2-13 0Z";

// ---- the elements, made once -----------------------------------------------------------------------------

function makeParts(svg) {
  const many = (list, tag, cls) => list.map(() => make(tag, svg, cls));
  const ten = [...Array(10)], three = [0, 1, 2];
  return {
    gutters: many([0, 1], "rect", "gutter"), wood: make("path", svg, "wood"), film: makeBalls(svg),
    boards: many(RULER, "line", "board"),
    pocket: make("path", svg, "pocket"), oil: make("line", svg, "across"), columns: many(three, "line", "across"),
    edge: make("line", svg, "edge"), ticks: many(TICKS, "line", "tick"), foul: make("line", svg, "foul"),
    arrows: many(RULER, "path", "arrow"), dots: many(ten, "circle", "dot"),
    pins: many(ten, "circle", "pin"), pin_numbers: many(ten, "text", "pin-number"),
    balls_now: make("path", svg, "path balls now"), balls_then: make("path", svg, "path balls then"),
    dots_now: make("path", svg, "dots now"), dots_then: make("path", svg, "dots then"),
    now_halo: make("path", svg, "path halo"), now_far: make("path", svg, "path now far"),
    now_near: make("path", svg, "path now"), then_far: make("path", svg, "path then far"),
    then_near: make("path", svg, "path then"),
    marks_now: many(three, "circle", "mark-now"), marks_then: many(three, "circle", "mark-then"),
    leader: make("line", svg, "leader"), target_now: make("path", svg, "mark-now"),
    target_then: make("path", svg, "mark-then"), pivot: make("path", svg, "pivot"),
    sole_now: make("path", svg, "sole mark-now"), sole_then: make("path", svg, "sole mark-then"),
    turn: make("circle", svg, "turn"), crossed: make("circle", svg, "seen"), ball: make("circle", svg, "seen"),
    ruler: many(RULER, "text", ""), tick_words: many(TICKS, "text", ""),
    gutter_words: many([0, 1], "text", ""), gutter_boards: many([0, 1], "text", ""),
    oil_words: make("text", svg, "on-lane"), pivot_words: make("text", svg, "on-lane"),
    turn_words: make("text", svg, "on-lane"), dot_words: [make("text", svg, ""), make("text", svg, "then-word")],
    crossed_words: make("text", svg, "on-lane"), ball_words: make("text", svg, "on-lane"),
    simulated_head: make("text", svg, ""), simulated: make("text", svg, "said bold"),
    shift_head: make("text", svg, ""), shifts: many(three, "text", "said bold"),
    target: makeBig(svg, "on-lane"), target_words: make("text", svg, "on-lane"),
    target_was: make("text", svg, "on-lane"), feet: makeBig(svg, ""), feet_was: make("text", svg, ""), probe: makeProbe(svg),
  };
}

// ---- drawing ---------------------------------------------------------------------------------------------

function drawLane(parts, scene, place) {
  const { at, deck, is_upright, edges, from_ft, behind_in: pit } = place, is_whole = from_ft === 0;
  const [low, high] = scene.pocket_board;
  set(parts.wood, { d: points(at(from_ft, 0.5), at(from_ft, 39.5), deck(pit, 39.5), deck(pit, 0.5)) + "Z" });
  set(parts.pocket, { d: points(at(58, low), at(58, high), deck(0, high), deck(0, low)) + "Z" });
  const [x0, y0] = at(from_ft, 20), [x1, y1] = deck(pit, 20);
  [edges[0] - GUTTER, edges[1]].forEach((edge, side) => set(parts.gutters[side], is_upright
    ? { x: edge, y: y1, width: GUTTER, height: y0 - y1 } : { x: x0, y: edge, width: x1 - x0, height: GUTTER }));
  RULER.forEach((own, i) => {
    const [x, y] = at(from_ft, own);
    segment(parts.boards[i], [x, y], at(FEET, own));
    const is_named = !is_upright || own % 10 === 0 || 5 * place.board > widthOf(parts.probe, "35") + 3;
    write(parts.ruler[i], is_named ? String(own) : "", is_upright ? [x, y + 17] : [x - 6, y + 4.5], is_upright ? "middle" : "end");
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

function drawTicks(parts, scene, place) {
  const { at, is_upright, edges, inward, from_ft, strip, em } = place, far_side = inward > 0 ? "start" : "end";
  (from_ft ? END_TICKS : TICKS).forEach((ft, i) => {
    const [x, y] = at(ft, 20), has_unit = from_ft ? ft === 40 : ft % 30 === 0 || ft === 15;
    const is_in_dots = ft === FEET && strip > 0 && !is_upright, unit = has_unit ? `${ft} ft` : `${ft}`;
    const words = is_in_dots ? "" : ft === 0 && !is_upright ? "foul line" : unit;
    const out = is_upright ? inward : 1, near = edges[out > 0 ? 1 : 0] + GUTTER * out, far = near + 5 * out;
    segment(parts.ticks[i], is_upright ? [near, y] : [x, near], is_upright ? [far, y] : [x, far]);
    write(parts.tick_words[i], words, is_upright ? [far + 3 * out, y + 4.5] : [x, far + 13 * em], is_upright ? far_side : "middle");
  });
  const end = scene.oil_end_ft !== null && scene.oil_end_ft >= from_ft ? scene.oil_end_ft : null;
  show(parts.oil, end !== null);
  if (end !== null) segment(parts.oil, at(end, 0.5), at(end, 39.5));
  const [x, y] = at(end ?? 0, 39.5), [, inner] = at(from_ft, 37);
  write(parts.oil_words, end === null ? "" : `oil ends ${end} ft`,
    is_upright ? [x - 4 * inward, y - 5] : [x + 4, inner + 4.5], is_upright && inward > 0 ? "end" : "start");
  const sides = [scene.left_gutter_text, scene.right_gutter_text], px = (words) => widthOf(parts.probe, words);
  const over = Math.max(0, px(sides[0].split(" · ")[0]) + px(sides[1].split(" · ")[0]) + 8 - (edges[1] - edges[0] + 2 * GUTTER)) / 2;
  sides.forEach((whole, side) => {
    const [who, board] = whole.split(" · "), end_x = [edges[0] - GUTTER - over, edges[1] + GUTTER + over][side];
    const words = is_upright || px(whole) < place.width - endOfRow(parts.probe, scene, place, side) ? whole : who;
    const anchor = is_upright && side === 0 ? "start" : "end";
    write(parts.gutter_words[side], is_upright ? who : words,
      is_upright ? [end_x, 13 * em] : [place.width - 1, [edges[0] - GUTTER - 6, edges[1] + GUTTER + (strip ? 34 : 18) * em][side]], anchor);
    write(parts.gutter_boards[side], is_upright ? board : "", [end_x, 29 * em], anchor);
  });
}

// Where the other words end in the row in which a side of the lane is named.
function endOfRow(probe, scene, { at, strip }, side) {
  const [end] = at(FEET, 20), above = scene.simulated_text || (scene.shifts.find(({ at_ft }) => at_ft === FEET)?.text ?? "");
  if (side === 1) return strip ? 0 : end + widthOf(probe, "60 ft") / 2 + 8;
  return above ? end + widthOf(probe, above, "bold") / 2 + 8 : 0;
}

function drawPins(parts, scene, place) {
  scene.pins.forEach((pin, i) => {
    const [cx, cy] = place.deck(pin.behind_in, pin.board), cls = pin.is_left ? " left" : "";
    set(parts.pins[i], { cx, cy, r: scene.pin_radius_in * place.inch, class: `pin${cls}` });
    set(parts.pin_numbers[i], { class: `pin-number${cls}` });
    write(parts.pin_numbers[i], pin.behind_in < place.behind_in ? String(pin.number) : "", [cx, cy + 4]);
    show(parts.pins[i], pin.behind_in < place.behind_in);
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
  if (halo) set(halo, { d: whole });
}

function diamond(path, line, place, size) {
  const is_shown = line !== null && line.target_ft >= place.from_ft;
  show(path, is_shown);
  if (!is_shown) return;
  const [x, y] = place.at(line.target_ft, line.target_board);
  set(path, { d: `M${x - size} ${y}L${x} ${y - size}L${x + size} ${y}L${x} ${y + size}Z` });
}

// Beside the diamond, on the side to which the line does not run.
function targetSpot(line, is_upright) {
  const away = line.target_board > line.laydown_board ? -1 : 1, gap = is_upright ? 12 : 9, rim = is_upright ? 5 : 2.5;
  const own = clamp(line.target_board + gap * away, rim, 40 - rim);
  return Math.abs(own - line.target_board) < 5 ? line.target_board - gap * away : own;
}

function drawTarget(parts, line, was, place) {
  const { at, is_upright } = place, target = at(line.target_ft, line.target_board);
  const nodes = [parts.leader, parts.target, parts.target_words, parts.target_was];
  if (line.target_ft < place.from_ft) { nodes.forEach((node) => show(node, false)); return; }
  show(parts.leader, true);
  const [x, y] = at(line.target_ft + (is_upright ? 5 : 0), targetSpot(line, is_upright));
  const where = line.target_ft === 15 ? "" : ` at ${line.target_ft} ft`;
  const is_same = was === null || (was.target_text === line.target_text && was.target_ft === line.target_ft);
  const has_room = is_upright || place.foot > 4.5, old = is_same || !has_room ? "" : `was ${was.target_text}`;
  const way = line.target_ft > 30 ? -1 : 1;  // far targets: words towards the foul line, away from the pins
  segment(parts.leader, target, is_upright ? [x + (x > target[0] ? -24 : 24), y - 4] : [x + 9 * way, y]);
  writeBig(parts.target, line.target_text, is_upright ? "" : ` target${where}${old && `, ${old}`}`,
    is_upright ? [x, y] : [x + 12 * way, y + 9], is_upright ? "middle" : way > 0 ? "start" : "end");
  write(parts.target_words, is_upright ? `target${where}` : "", [x, y - 24]);
  write(parts.target_was, is_upright ? old : "", [x, y + 16]);
}

function drawSole(path, line, back, place) {
  const { is_upright, at, edges, approach, width } = place;
  show(path, line !== null);
  if (line === null) return [0, 0];
  const [x, y] = at(0, line.feet_board);
  const spot = is_upright ? [clamp(x, 8, width - 8), y + back] : [approach - back, clamp(y, 8, edges[1] + 20)];
  set(path, { d: SOLE, transform: `translate(${spot[0]} ${spot[1]})${is_upright ? " rotate(-90)" : ""}` });
  return spot;
}

function drawFeet(parts, line, played, place) {
  const { is_upright, edges, approach, height, numbers } = place, was = played?.feet_text === line.feet_text ? null : played;
  const [now, next] = [parts.sole_now, parts.sole_then];
  if (place.from_ft > 0) {
    [now, next, parts.feet, parts.feet_was].forEach((node) => show(node, false));
    return;
  }
  const [x, y] = drawSole(played === null ? now : next, line, 40, place);
  const [old_x, old_y] = drawSole(played === null ? next : now, was, 70, place);
  const old = was === null ? "" : `was ${was.feet_text}`;
  if (is_upright) {
    const way = x > (edges[0] + edges[1]) / 2 ? -1 : 1, anchor = way > 0 ? "start" : "end";
    writeBig(parts.feet, line.feet_text, "feet", [x + 12 * way, y + 10], anchor);
    write(parts.feet_was, old, [old_x + 12 * way, old_y + 5], anchor);
    return;
  }
  const is_above = y > 36 && (was === null || y <= old_y || y + 34 > height), base = is_above ? y - 11 : y + 31;
  const below = Math.max(y, old_y) + 22, above = Math.min(y, old_y, base - 12) - 12;
  writeBig(parts.feet, line.feet_text, "feet", [approach - numbers, base], "end");
  write(parts.feet_was, old, [approach - numbers, is_above && below < height - 2 ? below : above], "end");
}

function drawShifts(parts, scene, place) {
  const { at, is_upright, edges, inward, em } = place, own = inward > 0 ? edges[0] - GUTTER - 5 : edges[1] + GUTTER + 5;
  const row = scene.simulated_text && !is_upright ? 22 * em : 6, beyond = is_upright ? own : edges[0] - GUTTER - row, own_side = inward > 0 ? "end" : "start";
  parts.shifts.forEach((words, i) => {
    const given = scene.shifts[i], shift = given && given.at_ft >= place.from_ft ? given : undefined;
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
  const first_ft = place.from_ft ? 45 : 30, whole = "next line, on paper:";
  const needed = Math.max(160, widthOf(parts.probe, whole) + widthOf(parts.probe, scene.shifts[0]?.text ?? "", "bold") / 2 + 8);
  const has_room = place.foot * (first_ft - place.from_ft) > needed, head = has_room ? whole : "on paper:";
  const [from, y] = at(is_upright ? FEET : place.from_ft, 20), first = scene.shifts.find(({ at_ft }) => at_ft >= place.from_ft);
  const before = at(first?.at_ft ?? FEET, 20)[0] - widthOf(parts.probe, first?.text ?? "", "bold") / 2 - widthOf(parts.probe, head) - 6;
  const x = Math.min(from, before);
  write(parts.shift_head, scene.shifts.length ? (is_upright ? "on paper" : head) : "", 
    is_upright ? [beyond, y - 17 * em] : [x, beyond], is_upright ? own_side : "start");
}

function drawPivot(parts, scene, { at, is_upright, inward, from_ft }) {
  const pivot = scene.pivot, is_apart = pivot !== null && pivot.is_apart && pivot.at_ft >= from_ft;
  show(parts.pivot, is_apart);
  const [x, y] = is_apart ? at(pivot.at_ft, pivot.board) : [0, 0];
  set(parts.pivot, { d: `M${x - 6} ${y - 6}L${x + 6} ${y + 6}M${x - 6} ${y + 6}L${x + 6} ${y - 6}` });
  const side = scene.played.target_board > scene.played.laydown_board ? -inward : inward;
  write(parts.pivot_words, is_apart ? pivot.text : "", is_upright ? [x + 12 * side, y + 4.5] : [x, y - 19 * inward + 4.5],
    is_upright ? (side > 0 ? "start" : "end") : "middle");
}

// The last ball: a ring where it crossed, its outline in true size where it met the pins. The words stand on the
// side of the line that is free before the target, `free` in boards: -1 outside.
function drawSeen(parts, scene, { at, deck, is_upright, inward, inch, from_ft }) {
  const last = scene.last, crossed = (last?.crossed_ft ?? 0) < from_ft ? "" : last?.crossed_text ?? "", arrived = last?.arrival_text ?? "";
  const ring = (node, words_node, words, [cx, cy], r, free) => {
    const way = free * inward, gap = r + 5;
    show(node, words !== "");
    set(node, { cx, cy, r });
    write(words_node, words, is_upright ? [cx + gap * way, cy + 4.5] : [cx, cy + (gap + 7) * way + 4.5],
      is_upright ? (way > 0 ? "start" : "end") : "middle");
  };
  const free = !is_upright && scene.played.target_board > scene.played.laydown_board ? 1 : -1;
  ring(parts.crossed, parts.crossed_words, crossed, crossed ? at(last.crossed_ft, last.crossed_board) : [0, 0], 9, free);
  if (crossed && !is_upright) {
    set(parts.crossed_words, { x: Math.max(at(last.crossed_ft, 0)[0], at(0, 0)[0] + Math.max(84, widthOf(parts.probe, crossed) + 6)), "text-anchor": "end" });
  }
  ring(parts.ball, parts.ball_words, arrived, arrived ? deck(-last.before_head_pin_in, last.arrival_board) : [0, 0],
    scene.ball_radius_in * inch, -1);
}

function draw(svg, caption, deck, parts, { scene, oil, view }, width) {
  show(svg, Boolean(scene.played));
  drawDeck(deck, scene.deck ?? []);
  if (!scene.played) { caption.textContent = ""; return; }
  const place = placeOf(scene, width, view, roomOf(parts.probe, scene)), moves = scene.advised !== null, next = scene.advised ?? scene.played;
  const cls = `${moves ? "two" : "one"}${scene.played.path === null ? "" : " thrown"}`;
  set(svg, { viewBox: `0 0 ${width} ${place.height.toFixed(1)}`, "aria-label": scene.summary, class: cls });
  svg.style.height = `${place.height}px`;
  deck.words.classList.toggle("upright", place.is_upright);
  drawLane(parts, scene, place);
  drawOil(parts.film, oil, scene, place);
  drawTicks(parts, scene, place);
  drawPins(parts, scene, place);
  drawBalls(parts.balls_now, parts.dots_now, scene.played, 0, place);
  drawBalls(parts.balls_then, parts.dots_then, scene.advised, 1, place);
  drawLine(scene.played, scene, place, parts.now_near, parts.now_far, parts.now_halo);
  drawLine(scene.advised, scene, place, parts.then_near, parts.then_far);
  diamond(parts.target_now, scene.played, place, 6);
  diamond(parts.target_then, scene.advised, place, 7);
  drawTarget(parts, next, moves ? scene.played : null, place);
  drawFeet(parts, next, moves ? scene.played : null, place);
  drawShifts(parts, scene, place);
  drawPivot(parts, scene, place);
  drawBreakpoint(parts.turn, parts.turn_words, next, scene, place);
  drawBallWords(parts, scene, place);
  drawSeen(parts, scene, place);
  keepIn(svg, width, place.height);
  const { oil_words, turn_words, pivot_words, crossed_words, ball_words } = parts;
  keepApart(svg, [oil_words, turn_words, pivot_words, crossed_words, ball_words], place.height);
  const times = Math.round((place.board / BOARD_IN) * 12 / place.foot), from = place.from_ft ? "From 40 to 60" : "Up to 60";
  caption.textContent = `${scene.note} ${from} ft a board is drawn ${times} times too wide.`;
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
  const svg = make("svg", box, "one"), deck = makeDeck(box), choose = makeSwitch(box, model);
  const caption = box.appendChild(document.createElement("p"));
  svg.setAttribute("role", "img");
  const parts = makeParts(svg);
  const redraw = () => {
    const width = Math.round(box.clientWidth);  // 0 until the box is on the page: then the observer below calls again
    const look = { scene: model.get("scene"), oil: model.get("oil"), view: model.get("view") || keptView() };
    choose(look.view, Boolean(look.scene.played));
    if (width > 0) draw(svg, caption, deck, parts, look, Math.max(240, width));
  };
  const watched = "change:scene change:view change:oil";
  redraw();
  model.on(watched, redraw);
  const watch = new ResizeObserver(redraw);
  watch.observe(box);
  const forget = whenFontsCome(redraw);
  return () => { watch.disconnect(); forget(); model.off(watched, redraw); };
}

export default { render };
