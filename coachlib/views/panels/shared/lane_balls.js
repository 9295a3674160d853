// The simulated balls and the oil on the lane picture: thin lines and dots are one path each, made once.

function makeBalls(svg) {
  const id = `coach-oil-${Math.random().toString(36).slice(2, 10)}`, mask = make("mask", svg);
  set(mask, { id, "mask-type": "alpha", maskUnits: "userSpaceOnUse" });
  const image = make("image", mask), tint = make("path", svg, "oil");
  set(image, { x: 0, y: 0, height: 39, preserveAspectRatio: "none" });
  set(tint, { mask: `url(#${id})` });
  return { mask, image, tint };
}

// The picture of the film has the lane's left edge on top, whoever bowls; the page's own `at` lays it down.
function drawOil({ mask, image, tint }, oil, scene, { at, from_ft, width, height }) {
  const is_shown = Boolean(oil) && oil.to_ft > from_ft;
  show(tint, is_shown);
  if (!is_shown) return;
  const left = scene.hand === "left" ? 0.5 : 39.5, right = 40 - left, end_ft = Math.min(FEET, oil.to_ft);
  const [x0, y0] = at(0, left), [x1, y1] = at(1, left), [x2, y2] = at(0, right);
  const per_board = [(x2 - x0) / 39, (y2 - y0) / 39];
  if (image.getAttribute("href") !== oil.image) set(image, { href: oil.image });
  set(mask, { x: 0, y: 0, width, height });
  set(image, { width: oil.to_ft, transform: `matrix(${[x1 - x0, y1 - y0, ...per_board, x0, y0].join(" ")})` });
  set(tint, { d: points(at(from_ft, 0.5), at(end_ft, 0.5), at(end_ft, 39.5), at(from_ft, 39.5)) + "Z" });
}

// A path of one board a foot from the foul line.
function footByFoot(boards, { at, from_ft }) {
  const shown = boards.slice(from_ft).map((own, i) => at(from_ft + i, own));
  return shown.length > 1 ? points(...shown) : "";
}

// Twenty dots a line in rows 1.4 boards wide, filled where the ball strikes: they are the count.
function drawBalls([thin, hollow, filled], line, column, place) {
  const path = line?.path ?? null;
  [thin, hollow, filled].forEach((node) => show(node, path !== null));
  if (path === null) return;
  set(thin, { d: path.balls_board.map((boards) => footByFoot(boards, place)).join("") });
  const most = Math.max(1, ...path.dots.map(([, rank]) => rank)), row = 1.4 * place.board;
  const pitch = Math.min(row, (place.strip - 8) / (most + 1)), r = 0.46 * pitch;
  const circles = (is_strike) => path.dots.filter(([, , struck]) => Boolean(struck) === is_strike).map(([own, rank]) => {
    const [x, y] = place.dot(column * place.strip + 3 + (rank + 0.5) * pitch, own);
    return `M${(x - r).toFixed(2)} ${y.toFixed(2)}a${r.toFixed(2)} ${r.toFixed(2)} 0 1 0 ${(2 * r).toFixed(2)} 0a${r.toFixed(2)} ${r.toFixed(2)} 0 1 0 ${(-2 * r).toFixed(2)} 0`;
  }).join("");
  set(hollow, { d: circles(false) });
  set(filled, { d: circles(true) });
}

// The thick line's ball in true size where it meets the head pin.
function drawContact(ring, line, scene, { deck, inch }) {
  const contact = scene.is_plain ? line?.path?.contact ?? null : null;
  show(ring, contact !== null);
  if (contact === null) return;
  const [cx, cy] = deck(-contact[1], contact[0]);
  set(ring, { cx, cy, r: scene.ball_radius_in * inch });
}

// A ring where the ball as meant is farthest out; its words give way to those of the pivot.
function drawBreakpoint(ring, words, line, scene, { at, is_upright, inward, edges, from_ft, quiet }) {
  const turn = line.path?.breakpoint ?? null, is_shown = turn !== null && turn.at_ft >= from_ft && !quiet;
  show(ring, is_shown);
  if (!is_shown) { write(words, "", [0, 0]); return; }
  const [x, y] = at(turn.at_ft, turn.board), pivot = scene.pivot?.is_apart ? at(scene.pivot.at_ft, 20) : null;
  const gap = pivot === null ? Infinity : is_upright ? Math.abs(y - pivot[1]) : x + 12 - pivot[0];
  set(ring, { cx: x, cy: y, r: 4.5 });
  const text = is_upright ? gap < 15 : gap > -90 && gap < 34;
  const beside = clamp(y - 19 * inward + 4.5, edges[0] + 13, edges[1] - 5);
  write(words, text ? "" : turn.text, is_upright ? [x + 12 * inward, y + 4.5] : [x + 10, beside],
    is_upright && inward < 0 ? "end" : "start");
}

// How many strike, beside each line's dots, and what the simulated balls of the two lines differ by at the pins.
function drawCounts(parts, scene, { dot, is_upright, is_small, edges, inward, strip, quiet, em, px }) {
  const on_lane = is_upright && (is_small || !quiet), first_px = px(scene.played.path?.count_text ?? "", "count");
  [scene.played, scene.advised].forEach((line, column) => {
    const told = line?.path?.count_text ?? "", [short, of] = on_lane ? [told.replace(/ of .*/, ""), told.match(/of .*/)?.[0] ?? ""] : [told, ""];
    const [x, y] = dot((column + (is_upright ? 0.5 : 0)) * strip, 20), inner = edges[inward > 0 ? 1 : 0];
    const beside = on_lane ? [inner - 5 * inward, y + 5] : [inner + (GUTTER + 6) * inward, y + 5];
    const side = (inward > 0) === on_lane ? "end" : "start", other = side === "end" ? "start" : "end";
    const across_x = column ? Math.max(x + 3, dot(0, 20)[0] + first_px + 3 + 10 * em) : x + 3;
    write(parts.counts[column], short, is_upright ? beside : [across_x, edges[1] + GUTTER + 21 * em], is_upright ? side : "start");
    write(parts.counts_of[column], of, [edges[inward > 0 ? 0 : 1] + 5 * inward, y + 5], other);
  });
  const n_lines = scene.advised === null ? 1 : 2, has_balls = scene.played.path !== null;
  const [x, y] = dot(is_upright ? (n_lines - 0.5) * strip : 3, 20), inner = edges[inward > 0 ? 1 : 0];
  const words = !has_balls || on_lane ? "" : is_upright ? "strikes filled" : `twenty balls${n_lines > 1 && scene.advised.path !== null ? " each" : ""}, strikes filled`;
  write(parts.dots_words, words, is_upright ? [inner + (GUTTER + 6) * inward, y + 5 + 18 * em] : [x, edges[1] + GUTTER + 40 * em],
    is_upright && inward < 0 ? "end" : "start");
  drawSimulated(parts, scene, { dot, is_upright, edges, inward, quiet, em, px });
}

function drawSimulated(parts, scene, { dot, is_upright, edges, inward, quiet, em, px }) {
  const [x, y] = dot(0, 20), own = inward > 0 ? edges[0] - GUTTER - 5 : edges[1] + GUTTER + 5;
  const side = inward > 0 ? "end" : "start", row = edges[0] - GUTTER - 6, told = quiet ? "" : scene.simulated_text;
  write(parts.simulated_head, told && (is_upright ? "simulated" : "simulated:"),
    is_upright ? [own, y - 17 - 34 * em] : [x - Math.max(60, px(told, "bold") / 2 + 6), row], is_upright ? side : "end");
  write(parts.simulated, told, is_upright ? [own, y - 17 - 17 * em] : [x, row], is_upright ? side : "middle");
}

// What the balls leave that do not strike, as words below the picture; their room stays where nothing is told.
function makeDeck(box) {
  const words = box.appendChild(document.createElement("div"));
  words.className = "coach-likely";
  const rows = [0, 1].map(() => {
    const row = words.appendChild(document.createElement("div"));
    return ["span", "b", "span"].map((tag) => row.appendChild(document.createElement(tag)));
  });
  return { words, rows };
}

function drawDeck({ words, rows }, told) {
  rows.forEach((parts, i) => {
    const { head, name, text } = told[i] ?? { head: "", name: "", text: "" };
    parts[0].parentNode.hidden = text === "";
    [head, name, text].forEach((part, k) => { parts[k].textContent = part && `${part} `; });
  });
}
