// Where the answer comes from: whose doing the ball was, the rule, the model, the other moves, the trend of arrivals.
const MOST_OTHERS = 6;

function otherMoves() {
  const rows = Array.from({length: MOST_OTHERS}, () => {
    const named = make("span"), loss = make("span", {class: "coach-small"});
    return {node: make("li", {}, named, loss), named, loss};
  });
  const box = make("div", {class: "coach-told"}, make("p", {class: "coach-title", text: "Other moves"}),
    make("ul", {class: "coach-others"}, ...rows.map(({node}) => node)));
  const show = (told) => {
    box.hidden = !told.length;
    rows.forEach((row, at) => {
      row.node.hidden = !told[at];
      [row.named.textContent, row.loss.textContent] = told[at] || ["", ""];
    });
  };
  return {box, show};
}

export default {
  render({model, el}) {
    const rule = told("Rule of thumb"), voice = told("Simulation"), stops = told("Doesn’t apply when"), notes = told("Also");
    const source = make("p", {class: "coach-small"}), assumed = make("p", {class: "coach-small"});
    const others = otherMoves(), trend = trendChart(), span = bracket(), cause = told("Bowler or lane?");
    cause.box.insertBefore(span.node, cause.words);
    rule.box.append(source);
    voice.box.append(assumed);
    el.replaceChildren(make("details", {class: "coach-grounds coach-fold"}, make("summary", {text: "Other moves and why"}),
      make("div", {class: "coach-tells"}, cause.box, rule.box, voice.box, others.box, trend.box, stops.box, notes.box)));
    const redraw = () => {
      const look = model.get("look");
      put(rule.words, look.rule, rule.box);
      put(stops.words, look.stops, stops.box);
      put(notes.words, (look.notes || []).join(" "), notes.box);
      put(source, look.source);
      put(voice.words, look.model);
      put(assumed, look.assumed);
      voice.box.hidden = !look.model && !look.assumed;
      put(cause.words, look.cause_words);
      cause.box.hidden = !look.cause;
      span.show(look.cause);
      others.show(look.runners_up || []);
    };
    return follow(model, {look: redraw, trend: () => trend.show(model.get("trend"))});
  },
};
