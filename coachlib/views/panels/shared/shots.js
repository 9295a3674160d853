// The balls of this session, newest first.
export default {
  render({model, el}) {
    const body = make("tbody");
    const head = make("tr", {}, ...["Ball", "Lane", "Line", "Seen", "Answer", ""].map((text) =>
      text ? make("th", {scope: "col", text}) : make("td")));
    const table = make("table", {class: "coach-table", "aria-label": "Balls of this session"}, make("thead", {}, head), body);
    const empty = make("p", {class: "coach-small", text: "No ball yet."});
    el.replaceChildren(make("details", {class: "coach-shots coach-fold"}, make("summary", {text: "Balls so far"}), table, empty));

    const cell = (title, text) => make("td", {"data-title": title, text});
    const ball = ({number, lane, line, seen, answer}) => make("tr", {},
      make("th", {scope: "row", text: number}), cell("Lane", lane), cell("Line", line), cell("Seen", seen), cell("Answer", answer),
      make("td", {}, button("Correct", () => model.send({do: "correct", number}), {"aria-label": `Correct ball ${number}`})));
    const change = ({text}) => make("tr", {class: "coach-change"}, make("td", {colspan: 6, text}));
    const redraw = () => {
      const rows = model.get("look").rows || [];
      table.hidden = !rows.length;
      empty.hidden = Boolean(rows.length);
      body.replaceChildren(...rows.map((row) => (row.number ? ball(row) : change(row))));
    };
    return follow(model, {look: redraw});
  },
};
