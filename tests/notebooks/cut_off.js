// Looks at all words inside `root` and returns what cannot be read, one line each; see layout.py.
(root) => {
  const roots = [...document.querySelectorAll(root)].filter((node) => !node.parentElement.closest(root));
  const found = [], words = [];
  const told = (text) => text.trim().replace(/\s+/g, ' ').slice(0, 60);
  const isShown = (node) => node.checkVisibility({visibilityProperty: true, opacityProperty: true})
    && !node.closest('.coach-spoken, option, script, style');
  const core = ({left, right, top, bottom}, air) => {
    const rim = (bottom - top) * air;
    return {left, right, top: top + rim, bottom: bottom - rim};
  };
  const isIn = (a, b) => a.left >= b.left - 1 && a.right <= b.right + 1 && a.top >= b.top - 1 && a.bottom <= b.bottom + 1;
  const holds = (node) => !['inline', 'contents'].includes(getComputedStyle(node).display);

  const lookAtLine = (text, rect, node, top) => {
    for (let box = node; box && top.contains(box); box = box.parentElement) {
      const style = getComputedStyle(box);
      if (/auto|scroll/.test(style.overflowX)) return;
      if (holds(box) && !isIn(rect, box.getBoundingClientRect())) {
        found.push(`beyond ${box.tagName.toLowerCase()}.${box.className}: ${text}`);
        return;
      }
      if (style.position === 'absolute') box = { parentElement: box.offsetParent };
    }
  };
  // what is seen of words in a box that scrolls; the rest is out of the way of what stands beside it
  const seenOf = (rect, node) => {
    const seen = {...rect};
    for (let box = node; box; box = box.parentElement) {
      if (!/auto|scroll/.test(getComputedStyle(box).overflowY) || !holds(box)) continue;
      const frame = box.getBoundingClientRect();
      seen.top = Math.max(seen.top, frame.top);
      seen.bottom = Math.min(seen.bottom, frame.bottom);
    }
    return seen;
  };
  const lookAtWords = (top) => {
    const walk = document.createTreeWalker(top, NodeFilter.SHOW_TEXT), range = document.createRange();
    for (let node = walk.nextNode(); node; node = walk.nextNode()) {
      const parent = node.parentElement;
      if (!node.data.trim() || parent.closest('svg') || !isShown(parent)) continue;
      range.selectNodeContents(node);
      for (const line of range.getClientRects()) {
        if (line.width === 0) continue;
        const rect = core(line, .22), text = told(node.data);
        words.push([parent, seenOf(rect, parent), text]);
        lookAtLine(text, rect, parent, top);
      }
    }
  };
  const lookAtPicture = (svg) => {
    const frame = svg.getBoundingClientRect();
    for (const node of svg.querySelectorAll('text')) {
      const rect = node.getBoundingClientRect();
      if (!node.textContent.trim() || rect.width === 0 || !isShown(node)) continue;
      if (!isIn(core(rect, .2), frame)) found.push(`beyond the picture: ${told(node.textContent)}`);
      if (!node.classList.contains('pin-number')) words.push([node, core(rect, .2), told(node.textContent)]);
    }
  };
  const canvas = document.createElement('canvas').getContext('2d');
  const lookAtField = (input) => {
    const style = getComputedStyle(input), text = input.value || input.placeholder;
    if (input.value.length > 24) return;
    canvas.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
    const room = input.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight);
    if (canvas.measureText(text).width > room + 2) found.push(`field too narrow: ${text}`);
  };
  const lookAtList = (list) => {
    const alone = list.cloneNode(false), chosen = list.selectedOptions[0];
    if (!chosen) return;
    alone.removeAttribute('id');
    alone.append(chosen.cloneNode(true));
    alone.style.cssText = `${list.style.cssText};position:absolute;visibility:hidden;`;
    const wraps = getComputedStyle(list).appearance === 'base-select';   // then only its longest word must fit
    const sizes = { 'min-width': '0', 'max-width': 'none', width: wraps ? 'min-content' : 'max-content' };
    for (const side in sizes) alone.style.setProperty(side, sizes[side], 'important');
    list.after(alone);
    if (alone.offsetWidth > list.offsetWidth + 1) found.push(`list too narrow, ${list.offsetWidth} of ${alone.offsetWidth} px: ${told(chosen.textContent)}`);
    alone.remove();
  };
  const lookAtOverlaps = () => words.forEach(([node, a, text], i) => words.slice(i + 1).forEach(([other, b, words_too]) => {
    const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
    const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
    if (node !== other && text !== words_too && across > 1.5 && down > 1.5) found.push(`${text} / over / ${words_too}`);
  }));
  for (const top of roots) {
    if (!isShown(top)) continue;
    lookAtWords(top);
    top.querySelectorAll('svg').forEach((svg) => isShown(svg) && lookAtPicture(svg));
    top.querySelectorAll('input[type="text"], input:not([type])').forEach((input) => isShown(input) && lookAtField(input));
    top.querySelectorAll('select').forEach((list) => isShown(list) && lookAtList(list));
  }
  lookAtOverlaps();
  return roots.length ? [...new Set(found)] : [`nothing of ${root} is on the page`];
}
