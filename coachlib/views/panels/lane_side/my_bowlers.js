// A plain link from a panel to the students' notebook or page beside it; none where only one page exists.
const BOWLERS = "20_students.ipynb";

// Where that notebook is, seen from this page: a page of its own, or a page of the notebook server.
function bowlersAddress({pathname}) {
  const page = pathname.match(/^(.*\/voila\/render\/(?:.*\/)?)[^/]+\.ipynb$/);
  if (page) return page[1] + BOWLERS;
  const notebook = pathname.match(/^(.*?\/)(?:doc|lab)(?:\/workspaces\/[^/]+)?\/tree\/(?:.*\/)?[^/]+\.ipynb$/);
  return notebook ? `${notebook[1]}doc/tree/${BOWLERS}` : "";
}

export default {
  render({model, el}) {
    const address = model.get("is_live") ? bowlersAddress(window.location) : "";
    if (!address || window.location.pathname.endsWith(`/${BOWLERS}`)) return;
    const link = document.createElement("a");
    link.className = "coach-bowlers";
    link.textContent = "My bowlers";
    link.title = "Sessions, figures and pages to take home. Opens beside this one.";
    link.href = address;
    link.target = "_blank";
    link.rel = "noopener";
    link.setAttribute("data-lm-suppress-shortcuts", "true");
    // The server runs a notebook when it is asked for: ask now, while the new window loads.
    const file = address.replace("doc/tree/", "api/contents/");
    link.onclick = () => { if (file !== address) fetch(`${file}?type=notebook&content=1`).catch(() => {}); };
    el.append(link);
    return () => link.remove();
  },
};
