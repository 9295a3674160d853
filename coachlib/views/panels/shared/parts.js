// Small helpers in front of every widget's script. A person's text only ever goes through textContent.
let count = 0;
const uid = (word) => `coach-${word}-${(count += 1)}-${Math.random().toString(36).slice(2, 8)}`;
const CAN_FOCUS = new Set(["INPUT", "SELECT", "BUTTON", "TEXTAREA", "SUMMARY"]);

// make("p", {class: "…", text: "…"}, child, …); whatever can be focused keeps the notebook's shortcuts off
function make(tag, attrs = {}, ...children) {
  const node = document.createElement(tag);
  return dress(node, attrs, children);
}
function draw(tag, attrs = {}, ...children) {
  return dress(document.createElementNS("http://www.w3.org/2000/svg", tag), attrs, children);
}
function dress(node, attrs, children) {
  for (const [name, value] of Object.entries(attrs)) {
    if (name === "text") node.textContent = value;
    else if (name.startsWith("on")) node[name] = value;
    else if (value === true) node.setAttribute(name, "");
    else if (value !== false && value != null) node.setAttribute(name, value);
  }
  if (CAN_FOCUS.has(node.tagName) || "tabindex" in attrs) node.setAttribute("data-lm-suppress-shortcuts", "true");
  node.append(...children.filter((child) => child != null));
  return node;
}
const button = (text, onclick, attrs = {}) => make("button", {type: "button", text, onclick, ...attrs});

// A title with words under it; and words into a node, which (or what it stands in) is hidden while there are none.
const told = (title) => {
  const words = make("p");
  return {words, box: make("div", {class: "coach-told"}, make("p", {class: "coach-title", text: title}), words)};
};
const put = (node, words, shown = node) => {
  node.textContent = words || "";
  shown.hidden = !words;
};

// A label, its control and the place for its message. `control` is an input, select or textarea.
function field(name, label, control, unit = "") {
  control.id ||= uid(name);
  control.name = name;
  const message = make("p", {class: "coach-error", id: uid("message")});
  const row = make("div", {class: "coach-control"}, control, unit ? make("span", {class: "coach-unit", text: unit}) : null);
  return make("div", {class: "coach-field", "data-field": name}, make("label", {for: control.id, text: label}), row, message);
}
const typedInput = (attrs = {}) => make("input", {type: "text", autocomplete: "off", spellcheck: "false", ...attrs});
const number = (attrs = {}) => typedInput({inputmode: "decimal", class: "coach-number", ...attrs});
function choose(options, attrs = {}) {
  return make("select", attrs, ...options.map(([value, text]) => make("option", {value, text})));
}
function tick(name, label) {
  const box = make("input", {type: "checkbox", id: uid(name), name});
  return make("div", {class: "coach-tick", "data-field": name}, box, make("label", {for: box.id, text: label}));
}

// A set of tiles, one of which may be chosen; a tap on the chosen one takes the choice back, but not where one is needed.
function tiles(name, legend, options, {isRequired = false, ...attrs} = {}) {
  const group = uid(name);
  let last = null;
  const nodes = options.map(({value, text, title, picture}) => {
    const radio = make("input", {type: "radio", name: group, value, "aria-label": title || text});
    radio.onclick = () => {
      if (radio === last && !isRequired) radio.checked = false;
      last = radio.checked ? radio : null;
      radio.dispatchEvent(new Event("change", {bubbles: true}));
    };
    return make("label", {class: "coach-tile"}, radio, make("span", {}, picture, make("span", {text})));
  });
  const message = make("p", {class: "coach-error", id: uid("message")});
  const row = make("div", {class: "coach-tiles"}, ...nodes);
  const box = make("fieldset", {"data-field": name, ...attrs}, make("legend", {text: legend}), row, message);
  const radios = [...box.querySelectorAll("input")];
  box.read = () => radios.find((radio) => radio.checked)?.value || "";
  box.write = (value) => {
    radios.forEach((radio) => (radio.checked = radio.value === value));
    last = radios.find((radio) => radio.checked) || null;
  };
  return box;
}

// Messages stand under their fields; the first wrong one is opened and focused.
function showErrors(form, errors, wasAsked) {
  let first = null;
  form.querySelectorAll("[data-field]").forEach((box) => {
    const text = errors[box.dataset.field] || "";
    const message = box.querySelector(".coach-error");
    const control = box.querySelector("input[name]:not([type=radio]), select") || box.querySelector("input");
    if (message) message.textContent = text;
    box.classList.toggle("coach-wrong", Boolean(text));
    if (!control) return;
    if (text) {
      if (control.type !== "radio") control.setAttribute("aria-invalid", "true");
      if (message) control.setAttribute("aria-describedby", message.id);
      box.closest("details")?.setAttribute("open", "");
      first ||= control;
    } else {
      control.removeAttribute("aria-invalid");
      control.removeAttribute("aria-describedby");
    }
  });
  if (first && wasAsked) first.focus();
}

// Enter in any field submits: inside a notebook page the browser's own way of doing it was seen not to fire.
function submitOnEnter(form) {
  form.addEventListener("keydown", (ev) => {
    if (ev.key !== "Enter" || ev.isComposing || !ev.target.matches("input, [role=slider]")) return;
    ev.preventDefault();
    form.requestSubmit();
  });
}

// Where the next ball begins; the strip may appear a moment later, with the session.
function focusStrip(el, tries = 40) {
  const strip = el.closest(".coach")?.querySelector(".coach-strip");
  if (strip?.getClientRects().length) strip.focus({preventScroll: true});
  else if (tries) setTimeout(() => focusStrip(el, tries - 1), 25);
}

// The form above has folded up: bring the panel's top back to where one looks, once all of it is laid out.
function showTop(el) {
  setTimeout(() => el.closest(".coach")?.scrollIntoView({block: "start"}), 50);
}

// All named inputs of a form as one flat object, and back.
function readForm(form) {
  const answers = {};
  form.querySelectorAll("fieldset[data-field]").forEach((box) => box.read && (answers[box.dataset.field] = box.read()));
  form.querySelectorAll("input[name], select[name]").forEach((node) => {
    if (node.type === "radio") return;
    answers[node.name] = node.type === "checkbox" ? node.checked : node.value;
  });
  return answers;
}
function fillForm(form, answers) {
  form.querySelectorAll("fieldset[data-field]").forEach((box) => box.write?.(answers[box.dataset.field] || ""));
  form.querySelectorAll("input[name], select[name]").forEach((node) => {
    if (node.type === "radio") return;
    const value = answers[node.name];
    if (node.type === "checkbox") node.checked = value === true;
    else node.value = value ?? (node.tagName === "SELECT" ? node.options[0]?.value ?? "" : "");
  });
}

// 12½ and 12.5 are the same; null where no number stands there.
function toNumber(text) {
  const found = /^([+\-−]?)(\d*)(?:[.,](\d+))?\s*(½|¼|¾)?$/.exec(text.trim());
  if (!found || !(found[2] || found[3] || found[4])) return null;
  const size = Number(`${found[2] || 0}.${found[3] || 0}`) + ({"½": 0.5, "¼": 0.25, "¾": 0.75}[found[4]] || 0);
  return found[1] && found[1] !== "+" ? -size : size;
}
const toText = (board) => (board % 1 === 0.5 ? `${Math.floor(board) || ""}½` : String(Math.round(board * 100) / 100));

// The browser saves what Python made; nothing is fetched.
function saveFile({name, mime, content}) {
  const bytes = Uint8Array.from(atob(content), (sign) => sign.charCodeAt(0));
  const address = URL.createObjectURL(new Blob([bytes], {type: mime}));
  const link = make("a", {href: address, download: name});
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 10000);
}

// Listen to traits and stop when the view goes; without the stop every re-display would leak.
function follow(model, handlers) {
  const pairs = Object.entries(handlers).map(([name, f]) => [`change:${name}`, f]);
  pairs.forEach(([name, f]) => model.on(name, f));
  Object.values(handlers).forEach((f) => f());
  return () => pairs.forEach(([name, f]) => model.off(name, f));
}
