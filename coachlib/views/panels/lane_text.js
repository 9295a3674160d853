// How wide words really are, in the font and size they get: a fallback font or larger text needs more room.

const KEPT_WIDTHS = new Map();

// Unseen texts of the picture to measure with, one for each kind of letters.
function makeProbe(svg) {
  return Object.fromEntries(["", "bold", "strong", "count"].map((cls) => {
    const node = make("text", svg, cls);
    node.style.visibility = "hidden";
    return [cls, node];
  }));
}

// Widths are kept until a font is loaded or the text size changes.
function widthOf(probe, words, cls = "") {
  const node = probe[cls], key = `${getComputedStyle(node).fontSize} ${cls} ${words}`;
  if (!KEPT_WIDTHS.has(key)) {
    node.textContent = words;
    KEPT_WIDTHS.set(key, node.getComputedTextLength());
    node.textContent = "";
  }
  return KEPT_WIDTHS.get(key);
}

const widest = (probe, all, cls) => Math.max(0, ...all.map((words) => widthOf(probe, words, cls)));

// Fonts come after the first drawing: what was measured before is forgotten, and all is drawn again.
function whenFontsCome(redraw) {
  const again = () => { KEPT_WIDTHS.clear(); redraw(); };
  document.fonts.addEventListener("loadingdone", again);
  return () => document.fonts.removeEventListener("loadingdone", again);
}

// Words that would stand beyond the picture's edge are moved in, as far as they are wide.
function keepIn(svg, width, height) {
  const moved = [...svg.querySelectorAll("text")].filter((node) => node.textContent && node.style.display !== "none")
    .map((node) => [node, node.getBBox()]);
  moved.forEach(([node, box]) => {
    const across = Math.max(0, 1 - box.x) - Math.max(0, box.x + box.width - width + 1);
    const down = Math.max(0, -box.y) - Math.max(0, box.y + box.height - height);
    if (across) node.setAttribute("x", Number(node.getAttribute("x")) + across);
    if (down) node.setAttribute("y", Number(node.getAttribute("y")) + down);
  });
}

// Boxes of letters hold air above and below, so that only their middle counts.
const touch = (a, b) => Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x) > 1
  && Math.min(a.y + 0.8 * a.height, b.y + 0.8 * b.height) - Math.max(a.y + 0.2 * a.height, b.y + 0.2 * b.height) > 1;

// Words that give way, the least needed first: where they touch others they step up or down, or stay away.
function keepApart(svg, yielding, height) {
  const boxes = new Map([...svg.querySelectorAll("text")]
    .filter((node) => node.textContent && node.style.display !== "none" && !node.classList.contains("pin-number"))
    .map((node) => [node, node.getBBox()]));
  yielding.filter((node) => boxes.has(node)).forEach((node) => {
    const own = boxes.get(node), others = [...boxes].filter(([other]) => other !== node).map(([, box]) => box);
    const steps = [0, -1, 1, -2, 2, -3, 3].map((n) => n * 0.7 * own.height);
    const free = steps.find((dy) => own.y + dy >= 0 && own.y + dy + own.height <= height
      && !others.some((box) => touch({ x: own.x, y: own.y + dy, width: own.width, height: own.height }, box)));
    if (free) node.setAttribute("y", Number(node.getAttribute("y")) + free);
    if (free === undefined) show(node, false);
    free === undefined ? boxes.delete(node) : boxes.set(node, { x: own.x, y: own.y + free, width: own.width, height: own.height });
  });
}

// What the words of a scene need beside the lane: `em` is how much larger than usual they are, the rest is px.
function roomOf(box, probe, scene) {
  const line = scene.advised ?? scene.played, em = Math.max(1, parseFloat(getComputedStyle(box).fontSize) / 13);
  const shifts = [scene.simulated_text, ...scene.shifts.map(({ text }) => text)].filter(Boolean), px = (words, cls) => widthOf(probe, words, cls);
  const counts = [scene.played, scene.advised].map((of) => of?.path?.count_text ?? ""), where = line.target_ft === 15 ? "" : ` ${line.target_ft} ft`;
  return {
    em, px,
    feet: px(line.feet_text, "strong"),
    own: Math.max(widest(probe, ["simulated", "on paper"], ""), widest(probe, shifts, "bold")),
    far: widthOf(probe, "60 ft"),
    inside: Math.max(px(line.target_text, "strong") + px(`target${where}`), px(line.feet_text, "strong") + px("feet"),
      widest(probe, ["next 20 of 20", ...counts], "count"), px("strikes filled")) + 8,
  };
}
