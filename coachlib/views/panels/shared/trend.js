// Arrivals of the last balls on this lane: ball across, board up (high is up), pocket as a band, moves as rules.
const MOST_BALLS = 12, LETTER = 8, LEFT = 66, RIGHT = 8, TOP = 8, BOTTOM = 116;

// A chart made for more balls is wider: a whole session in one row.
function trendChart(most = MOST_BALLS) {
  const isWide = most > MOST_BALLS;
  let WIDTH = 280;
  const title = make("p", {class: "coach-title"});
  const key = make("p", {class: "coach-small", text: "One dot is one ball. Filled: a strike. Band: the pocket. Dashed: a move."});
  const band = draw("rect", {x: LEFT, class: "coach-pocket"});
  const sides = ["high", "pocket", "light"].map((text) => draw("text", {x: LEFT - 6, class: "coach-side", text}));
  const slots = Array.from({length: most + 1}, () => ({
    ball: draw("circle"), number: draw("text", {y: BOTTOM + 18, class: "coach-ball-no"}),
    rule: draw("path", {class: "coach-rule"}), words: draw("text", {class: "coach-rule-words"}),
  }));
  const picture = draw("svg", {role: "img", class: isWide ? "coach-trend coach-trend-wide" : "coach-trend"}, band, ...sides,
    ...slots.flatMap(({rule, words, ball, number}) => [rule, words, ball, number]));
  const box = make("div", {class: "coach-told"}, title, picture, key);

  const show = (told) => {
    const balls = told.balls || [], n = balls.length;
    box.hidden = !n;
    if (!n) return;
    if (isWide) WIDTH = Math.max(280, box.clientWidth || 900);
    picture.setAttribute("viewBox", `0 0 ${WIDTH} ${BOTTOM + 40}`);
    band.setAttribute("width", WIDTH - LEFT);
    const [low, high] = told.range_board, [from, to] = told.pocket_board;
    const x = (at) => LEFT + ((WIDTH - LEFT - RIGHT) * (at + 0.5)) / Math.max(n, 4);
    const y = (board) => BOTTOM - ((BOTTOM - TOP) * (board - low)) / (high - low);
    title.textContent = told.title;
    picture.setAttribute("aria-label", told.alt);
    band.setAttribute("y", y(to));
    band.setAttribute("height", y(from) - y(to));
    [y(20), y((from + to) / 2) + 4, y(14.8) + 4].forEach((at, i) => sides[i].setAttribute("y", at));
    slots.forEach((slot, at) => {
      showBall(slot, balls[at], x(at), y, at === n - 1, n <= (WIDTH - LEFT) / 26 || (n - 1 - at) % 2 === 0);     // every second number where they would touch
      showRule(slot, told.moves.find(({before}) => before === at), x(at - 0.5), WIDTH);
    });
    dropCovered(slots.map(({words}) => words));
  };
  return {box, show};
}

function showBall({ball, number}, one, x, y, isLast, isNamed) {
  const isSeen = Boolean(one) && one.board != null;
  ball.setAttribute("visibility", isSeen ? "visible" : "hidden");
  number.textContent = one && isNamed ? one.number : "";
  number.setAttribute("x", x);
  if (!isSeen) return;
  ball.setAttribute("cx", x);
  ball.setAttribute("cy", y(one.board));
  ball.setAttribute("r", isLast ? 6.5 : 4.5);
  ball.setAttribute("class", one.is_strike ? "coach-struck" : "");
}

function showRule({rule, words}, move, x, width) {
  rule.setAttribute("visibility", move ? "visible" : "hidden");
  words.textContent = move ? move.words : "";
  if (!move) return;
  rule.setAttribute("d", `M${x} ${TOP - 6}V${BOTTOM + 22}`);
  words.setAttribute("x", Math.min(Math.max(x, LEFT + 30), width - 50));
  words.setAttribute("y", BOTTOM + 35);
}

// Where the words of two moves would stand on each other the older ones are dropped; their dashed line stays.
function dropCovered(words) {
  let free = Infinity;
  [...words].reverse().filter((node) => node.textContent).forEach((node) => {
    const half = (node.getComputedTextLength() || LETTER * node.textContent.length) / 2;     // folded away it has no length
    const x = Number(node.getAttribute("x"));
    if (x + half > free) node.textContent = "";
    else free = x - half - LETTER / 2;
  });
}
