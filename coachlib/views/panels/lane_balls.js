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

function drawBalls(thin, dots, line, column, place) {
  const path = line?.path ?? null;
  [thin, dots].forEach((node) => show(node, path !== null));
  if (path === null) return;
  set(thin, { d: path.balls_board.map((boards) => footByFoot(boards, place)).join("") });
  const most = Math.max(1, ...path.dots.map(([, rank]) => rank)), pitch = Math.min(4, (STRIP - 6) / most), r = 1.7;
  set(dots, { d: path.dots.map(([own, rank]) => {
    const [x, y] = place.dot(column * STRIP + 4 + rank * pitch, own);
    return `M${(x - r).toFixed(2)} ${y.toFixed(2)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0`;
  }).join("") });
}

// A ring where the ball as meant is farthest out; its words give way to those of the pivot.
function drawBreakpoint(ring, words, line, scene, { at, is_upright, inward, edges, from_ft }) {
  const turn = line.path?.breakpoint ?? null, is_shown = turn !== null && turn.at_ft >= from_ft;
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

// "now" and "then" beside their dots, and what the simulated balls of the two lines differ by at the pins.
function drawBallWords(parts, scene, place) {
  const { dot, is_upright, edges, inward, strip, em } = place, is_two = scene.advised !== null && strip > 0;
  ["now", "then"].forEach((word, column) => {
    const [x, y] = dot((column + 0.5) * STRIP, 20), [end] = dot(STRIP, 20), out = inward > 0 ? 1 : 0;
    write(parts.dot_words[column], is_two ? word : "", is_upright
      ? [edges[out] + (GUTTER + 8) * inward, y + 4.5] : [end + (column ? 3 : -3), edges[1] + GUTTER + 18 * em],
      (is_upright ? inward > 0 : column) ? "start" : "end");
  });
  const [x, y] = dot(0, 20), own = inward > 0 ? edges[0] - GUTTER - 5 : edges[1] + GUTTER + 5;
  const side = inward > 0 ? "end" : "start", row = edges[0] - GUTTER - 6, told = scene.simulated_text;
  const [start] = place.at(place.from_ft, 20);
  write(parts.simulated_head, told && (is_upright ? "simulated" : "simulated:"),
    is_upright ? [own, y - 17 - 34 * em] : [start, row], is_upright ? side : "start");
  write(parts.simulated, told, is_upright ? [own, y - 17 - 17 * em] : [x, row], is_upright ? side : "middle");
}

// What the balls are likely to leave, as words at the deck's end of the picture: above it where it stands upright.
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
  words.hidden = told.length === 0;
  rows.forEach((parts, i) => {
    const { head, name, text } = told[i] ?? { head: "", name: "", text: "" };
    parts[0].parentNode.hidden = text === "";
    [head, name, text].forEach((part, k) => { parts[k].textContent = part && `${part} `; });
  });
}
