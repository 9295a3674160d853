// How wide words really are, in the font and size they get: a fallback font or larger text needs more room.
// What is measured is read before anything is drawn and once after it: each reading between costs a layout.

const KEPT_WIDTHS = new Map();

// Unseen texts of the picture to measure with, one for each kind of letters.
function makeProbe(svg) {
  return Object.fromEntries(["", "bold", "strong", "count"].map((cls) => {
    const node = make("text", svg, cls);
    node.style.visibility = "hidden";
    return [cls, node];
  }));
}

// A function that tells how wide words are; widths are kept until a font is loaded or the text size changes.
function ruleOf(probe) {
  const sizes = Object.fromEntries(Object.entries(probe).map(([cls, node]) => [cls, getComputedStyle(node).fontSize]));
  return (words, cls = "") => {
    const node = probe[cls], key = `${sizes[cls]} ${cls} ${words}`;
    if (!KEPT_WIDTHS.has(key)) {
      node.textContent = words;
      KEPT_WIDTHS.set(key, node.getComputedTextLength());
      node.textContent = "";
    }
    return KEPT_WIDTHS.get(key);
  };
}

const widest = (px, all, cls) => Math.max(0, ...all.map((words) => px(words, cls)));

// Fonts come after the first drawing: what was measured before is forgotten, and all is drawn again.
function whenFontsCome(redraw) {
  const again = () => { KEPT_WIDTHS.clear(); redraw(); };
  document.fonts.addEventListener("loadingdone", again);
  return () => document.fonts.removeEventListener("loadingdone", again);
}

// Words that would stand beyond the picture's edge are moved in, as far as they are wide; then those that give
// way step aside.
function keepReadable(svg, yielding, width, height) {
  const boxes = new Map([...svg.querySelectorAll("text:not(.pin-number)")]
    .filter((node) => node.textContent && node.style.display !== "none")
    .map((node) => [node, node.getBBox()]));
  boxes.forEach((box, node) => {
    const across = Math.max(0, 1 - box.x) - Math.max(0, box.x + box.width - width + 1);
    const down = Math.max(0, -box.y) - Math.max(0, box.y + box.height - height);
    if (across) node.setAttribute("x", Number(node.getAttribute("x")) + across);
    if (down) node.setAttribute("y", Number(node.getAttribute("y")) + down);
    boxes.set(node, { x: box.x + across, y: box.y + down, width: box.width, height: box.height });
  });
  yielding.filter((node) => boxes.has(node)).forEach((node) => stepAside(node, boxes, height));
}

// Boxes of letters hold air above and below, so that only their middle counts.
const touch = (a, b) => Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x) > 1
  && Math.min(a.y + 0.88 * a.height, b.y + 0.88 * b.height) - Math.max(a.y + 0.12 * a.height, b.y + 0.12 * b.height) > 1;

// Words that touch others step up or down, or stay away.
function stepAside(node, boxes, height) {
  const own = boxes.get(node), others = [...boxes].filter(([other]) => other !== node).map(([, box]) => box);
  const free = [0, -1, 1, -2, 2, -3, 3].map((n) => n * 0.7 * own.height).find((dy) => own.y + dy >= 0
    && own.y + dy + own.height <= height && !others.some((box) => touch({ ...own, y: own.y + dy }, box)));
  if (free) node.setAttribute("y", Number(node.getAttribute("y")) + free);
  if (free === undefined) {
    show(node, false);
    boxes.delete(node);
  } else boxes.set(node, { ...own, y: own.y + free });
}

// What the words of a scene need beside the lane: `em` is how much larger than usual they are, `most` how
// wide a board may be drawn, the rest is px.
function roomOf(box, probe, scene) {
  const line = scene.advised ?? scene.played, style = getComputedStyle(box);
  const em = Math.max(1, parseFloat(style.fontSize) / 13), px = ruleOf(probe);
  const shifts = [scene.simulated_text, ...scene.shifts.map(({ text }) => text)].filter(Boolean);
  const counts = [scene.played, scene.advised].map((of) => of?.path?.count_text ?? ""), where = line.target_ft === 15 ? "" : ` ${line.target_ft} ft`;
  return {
    em, px, most: parseFloat(style.getPropertyValue("--coach-board-px")) || 6.2,
    feet: px(line.feet_text, "strong"),
    own: Math.max(widest(px, ["simulated", "on paper"]), widest(px, shifts, "bold")),
    far: px("60 ft"),
    inside: Math.max(px(line.target_text, "strong") + px(`target${where}`), px(line.feet_text, "strong") + px("feet"),
      widest(px, ["next 20 of 20", ...counts], "count"), px("strikes filled")) + 8,
  };
}
