// The balls of the game, newest first, as an eye saw them.
export default {
  render({model, el}) {
    const body = make("tbody");
    const head = make("tr", {}, ...["Ball", "Line", "Thrown", "Seen"].map((text) => make("th", {scope: "col", text})));
    const table = make("table", {class: "coach-table coach-thrown"}, make("caption", {text: "Balls of this game"}), make("thead", {}, head), body);
    el.replaceChildren(make("section", {class: "coach-shots", "aria-label": "Balls of this game"}, table));
    const cell = (title, text) => make("td", {"data-title": title, text});
    const row = ({number, is_practice: isPractice, line, ball, seen}) => make("tr", {},
      make("th", {scope: "row", text: isPractice ? `${number}, practice` : number}), cell("Line", line), cell("Thrown", ball), cell("Seen", seen));
    const redraw = () => {
      const rows = model.get("look").rows || [];
      table.hidden = !rows.length;
      body.replaceChildren(...rows.map(row));
    };
    return follow(model, {look: redraw});
  },
};
