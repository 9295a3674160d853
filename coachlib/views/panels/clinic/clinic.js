// The teacher's panel: a form, a preview in a frame of its own (its style must not reach the notebook), and links.
export default {
  render({ model, el }) {
    const look = () => model.get("look");
    const ask = (what) => model.send({ do: what, typed: readForm(form) });
    const sides = ["right", "left"].map((side) => [side, `${side}-handed`]);
    const level = choose(look().levels), hand = choose(sides), part = choose(look().parts);
    const about = make("ul", { class: "coach-small clinic-about" });
    const status = make("p", { class: "coach-status clinic-status", role: "status" });
    const message = make("p", { class: "coach-error", role: "alert" });
    const links = make("p", { class: "clinic-links" });
    const form = make("form", { class: "coach-setup clinic-form", novalidate: true, "aria-label": "Papers for a class" },
      field("level", "Level", level), about,
      make("div", { class: "coach-pair" },
        field("hand", "Hand of the class", hand), field("title", "Title on each page", typedInput()),
        field("n_papers", "Number of papers", number()), field("seed", "Number of the first paper", number()),
        field("form", "Save as", choose(look().forms)), field("folder", "Folder (leave empty: beside your log)", typedInput())),
      field("part", "Look at", part), message,
      make("div", { class: "coach-send" },
        button("Show", () => ask("preview")), make("button", { type: "submit", class: "coach-main", text: "Save" })),
      status, links);
    const frame = make("iframe", { class: "clinic-page", title: "The page you chose to look at", sandbox: "", tabindex: "0" });
    form.onsubmit = (ev) => { ev.preventDefault(); ask("save"); };
    submitOnEnter(form);
    el.replaceChildren(make("div", { class: "coach" }, make("div", { class: "clinic-grid" }, form, frame)));

    let made = "", addresses = [];
    const tellLevel = () => about.replaceChildren(...(look().about[level.value] || []).map((text) => make("li", { text })));
    const forget = () => { addresses.forEach((address) => URL.revokeObjectURL(address)); addresses = []; };
    const showLinks = (pages) => {
      if (JSON.stringify(pages) === made) return;
      forget();
      made = JSON.stringify(pages);
      links.replaceChildren(...pages.map(([title, text]) => {
        const address = URL.createObjectURL(new Blob([text], { type: "text/html;charset=utf-8" }));
        addresses.push(address);
        return make("a", { href: address, target: "_blank", text: `Open to print: ${title}`, tabindex: "0" });
      }));
    };
    for (const chosen of [level, hand, part]) chosen.addEventListener("change", () => { tellLevel(); ask("preview"); });
    const redraw = () => {
      if (frame.srcdoc !== look().page) frame.srcdoc = look().page;
      status.textContent = look().status;
      showLinks(look().pages);
    };
    const refill = () => { fillForm(form, model.get("typed")); tellLevel(); };
    const wrong = () => {
      showErrors(form, model.get("errors"), true);
      message.textContent = model.get("errors").form || "";
    };
    const stop = follow(model, { look: redraw, typed: refill, errors: wrong });
    return () => { stop(); forget(); };
  },
};
