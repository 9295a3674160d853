// What was seen of the last ball, in large type; at the end the strikes kept by every way of playing.
export default {
  render({model, el}) {
    const text = (name) => make("p", {class: `coach-${name}`});
    const heads = {big: text("big"), label: text("small"), headline: text("headline"), sentence: text("sentence"), why: text("why")};
    const ways = make("ul", {class: "coach-ways", "aria-label": "Strikes each way of playing kept"});
    const main = make("div", {class: "coach-answer"}, make("div", {class: "coach-heads coach-wide"}, ...Object.values(heads), ways));
    const tells = make("div", {class: "coach-tells"});
    const spoken = make("div", {role: "status", "aria-live": "polite", class: "coach-spoken"});
    el.replaceChildren(make("section", {"aria-label": "What was seen", class: "coach-practice-seen", tabindex: -1}, main, tells, spoken));

    const row = ({name, kept_frac: frac, kept, note, is_you: isYou}) => make("li", {class: isYou ? "coach-you" : ""},
      make("span", {class: "coach-way", text: name}),
      make("span", {class: "coach-kept", "aria-hidden": "true"}, make("span", {style: `width:${100 * frac}%`})),
      make("strong", {text: kept}), make("span", {class: "coach-small", text: note}));
    const tell = ([title, words]) => {
      const {words: node, box} = told(title);
      node.textContent = words;
      return box;
    };
    const redraw = () => {
      const look = model.get("look");
      main.dataset.kind = look.kind;
      Object.entries(heads).forEach(([name, node]) => put(node, look[name]));
      heads.headline.classList.toggle("coach-long", (look.headline || "").length > 19);
      ways.replaceChildren(...(look.rows || []).map(row));
      ways.hidden = !(look.rows || []).length;
      tells.replaceChildren(...(look.tells || []).map(tell));
      if (spoken.textContent !== look.summary) spoken.textContent = look.summary || "";
    };
    return follow(model, {look: redraw});
  },
};
