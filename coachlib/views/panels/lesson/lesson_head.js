// The head of a lesson: the thread of its questions, the question itself, then the answer in the same place.
const SPAN = 230, TALL = 40;

// The path of one ball, skid to pocket: a knot a question, filled as it was answered.
function thread(knots) {
  const y = (t) => 8 + 22 * Math.sin(Math.PI * Math.min(1, t * 0.62)) - 16 * t * t * t + 4 * t, n = knots.length;
  const x = (t) => 8 + (SPAN - 44) * t, line = [...Array(41)].map((_, i) => `${x(i / 40).toFixed(1)} ${y(i / 40).toFixed(1)}`).join("L");
  const nodes = knots.map(({mark, is_here: isHere}, i) => {
    const t = n > 1 ? (i + 0.3) / n : 0.5, at = {cx: x(t), cy: y(t)};
    if (isHere && !mark) return draw("circle", {...at, r: 7, class: "knot-here"});
    if (mark === "half") return draw("g", {}, draw("circle", {...at, r: 5.5, class: "knot-not"}),
      draw("path", {d: `M${at.cx - 5.5} ${at.cy}a5.5 5.5 0 0 0 11 0Z`, class: "knot-full"}));
    return draw("circle", {...at, r: mark ? 5.5 : 2.5, class: mark ? `knot-${mark}` : "knot-full knot-far"});
  });
  const here = knots.findIndex(({is_here: isHere, mark}) => isHere && mark), t = (here + 0.3) / n;
  const ring = here < 0 ? null : draw("circle", {cx: x(t), cy: y(t), r: 9, class: "knot-ring"});
  const pins = [[0, 0], [7, -4], [7, 4], [14, -8], [14, 0], [14, 8]].map(([dx, dy]) => draw("circle", {cx: SPAN - 24 + dx, cy: y(1) + dy, r: 2.2, class: "knot-pin"}));
  return draw("svg", {viewBox: `0 0 ${SPAN} ${TALL}`, width: SPAN, height: TALL, "aria-hidden": "true", class: "coach-thread"},
    draw("path", {d: `M${line}`, class: "knot-line"}), ...pins, ...nodes, ring);
}

export default {
  render({model, el}) {
    const text = (name, tag = "p") => make(tag, {class: `coach-lesson-${name}`});
    const place = text("place"), own = text("own"), prompt = text("prompt"), caution = text("caution");
    const bet = text("bet"), answer = text("answer"), why = text("why");
    const hands = make("span", {class: "coach-lesson-hands"});
    const top = make("div", {class: "coach-lesson-top"}, make("div", {class: "coach-lesson-own-row"}, own, hands), make("div", {class: "coach-lesson-thread"}, place));
    const rows = make("ol", {class: "coach-lesson-rows"});
    const means = told("On the lane this means"), asked = make("div", {class: "coach-lesson-asked"}, prompt, rows);
    const found = make("div", {class: "coach-lesson-found"}, make("div", {}, bet, answer, why), means.box);
    const title = text("title", "h2"), say = text("say"), bets = make("ul", {class: "coach-lesson-bets"});
    const tonight = told("Tonight on the lane"), more = told("Back in a few days");
    const end = make("div", {class: "coach-lesson-end"}, title, say, bets, tonight.box, more.box);
    const block = make("div", {class: "coach-lesson-block"}, asked, found, end);
    const spoken = make("div", {role: "status", "aria-live": "polite", class: "coach-spoken"});
    el.replaceChildren(make("section", {"aria-label": "Lesson", class: "coach-lesson-head", tabindex: -1}, top, caution, block, spoken));
    const knot = (mark) => draw("svg", {viewBox: "0 0 14 14", width: 14, height: 14, "aria-hidden": "true"},
      draw("circle", {cx: 7, cy: 7, r: 5.5, class: mark === "full" ? "knot-full" : "knot-not"}), mark === "half" ? draw("path", {d: "M1.5 7a5.5 5.5 0 0 0 11 0Z", class: "knot-full"}) : null);
    const redraw = () => {
      const look = model.get("look"), isEnd = Boolean(look.title), isAnswered = Boolean(look.answer);
      const old = top.querySelector(".coach-thread");
      if (old) old.remove();
      top.lastElementChild.prepend(thread(look.thread || []));
      put(place, look.place); put(own, look.own); put(caution, look.caution);
      block.dataset.mark = look.mark || "";
      put(prompt, isAnswered ? "" : look.prompt);
      asked.hidden = !look.prompt || (isAnswered && !(look.rows || []).length);
      rows.replaceChildren(...(look.rows || []).map((row) => make("li", {text: row})));
      rows.hidden = !(look.rows || []).length;
      asked.classList.toggle("coach-lesson-was", isAnswered);
      found.hidden = !isAnswered;
      put(bet, look.bet); put(answer, look.answer); put(why, look.why);
      put(means.words, look.on_the_lane, means.box);
      end.hidden = !isEnd;
      put(title, look.title); put(say, look.say); put(tonight.words, look.tonight, tonight.box); put(more.words, look.more, more.box);
      bets.replaceChildren(...(look.bets || []).map((one) => make("li", {}, knot(one.mark), make("span", {text: one.text}), make("span", {class: "coach-small", text: one.credit}))));
      bets.hidden = !(look.bets || []).length;
      if (spoken.textContent !== look.summary) spoken.textContent = look.summary || "";
    };
    return follow(model, {look: redraw});
  },
};
