// Stands unseen in the panel of two balls: tells its width, and keeps the notebook's keys away from its fields
// (with the focus on a list "d d" would delete the panel's own cell).
export default {
  render({ model, el }) {
    const guard = (event) => {
      if (event.target.closest?.(".coach-balls")) event.target.setAttribute("data-lm-suppress-shortcuts", "true");
    };
    const measure = () => {
      const width = Math.round(el.clientWidth / 20) * 20;
      if (width && width !== model.get("width_px")) {
        model.set("width_px", width);
        model.save_changes();
      }
    };
    const watch = new ResizeObserver(measure);
    document.addEventListener("focusin", guard, true);
    watch.observe(el);
    return () => {
      watch.disconnect();
      document.removeEventListener("focusin", guard, true);
    };
  },
};
