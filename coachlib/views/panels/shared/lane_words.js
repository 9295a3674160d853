// The words of the lane picture: ruler and distances, target and feet, whose sides they are.

const TICKS = [0, 15, 30, 45, 60], END_TICKS = [40, 45, 50, 55, 60];

// Which distances are written: a quiet lane has fewer, and "oil ends" as one of them.
function ticksOf(scene, { quiet, is_upright, is_small, from_ft, foot, strip }) {
  if (is_small && quiet) return TICKS.map((ft) => [from_ft ? Math.max(ft, from_ft) : ft, ""]);
  if (from_ft) return END_TICKS.map((ft) => [ft, strip && !is_upright && ft === FEET ? "" : ft === 40 ? "40 ft" : `${ft}`]);
  if (!quiet) return TICKS.map((ft) => [ft, ft === 0 && !is_upright ? "foul line" : ft === FEET && strip && !is_upright ? "" : ft === 45 ? "45" : `${ft} ft`]);
  const end = scene.oil_end_ft, far = end === null ? [45, "45 ft"] : [end, "oil ends"];
  const targets = [scene.played, scene.advised].map((line) => line?.target_ft ?? 0);
  const is_free = (ft) => Math.abs(ft - far[0]) * foot > (is_upright ? 18 : 48) && (!is_upright || targets.every((at) => Math.abs(at - ft) * foot > 44));
  const has_15 = !is_upright && foot > 3.4;
  return [[0, "foul line"], [15, has_15 ? "15 ft" : ""], [30, is_free(30) ? "30 ft" : ""], far, [FEET, ""]];
}

function drawTicks(parts, scene, place) {
  const { at, is_upright, edges, inward, from_ft, quiet, em } = place;
  const out = is_upright ? inward : 1, near = edges[out > 0 ? 1 : 0] + GUTTER * out, far = near + 5 * out;
  ticksOf(scene, place).forEach(([ft, words], i) => {
    const [x, y] = at(ft, 20), is_marked = words !== "" || ft === FEET;
    show(parts.ticks[i], is_marked);
    segment(parts.ticks[i], is_upright ? [near, y] : [x, near], is_upright ? [far, y] : [x, far]);
    write(parts.tick_words[i], words, is_upright ? [far + 3 * out, y + 4.5] : [x, far + 13 * em], is_upright ? (out > 0 ? "start" : "end") : "middle");
  });
  const end = scene.oil_end_ft !== null && scene.oil_end_ft >= from_ft ? scene.oil_end_ft : null;
  show(parts.oil, end !== null && !quiet);
  if (end !== null) segment(parts.oil, at(end, 0.5), at(end, 39.5));
  const [x, y] = at(end ?? 0, 39.5), [, inner] = at(from_ft, 37);
  const turn = (scene.advised ?? scene.played).path?.breakpoint ?? null, foot = place.foot;
  const is_taken = is_upright && turn !== null && Math.abs(turn.at_ft - end) * foot < 18;  // the breakpoint's words stand there
  write(parts.oil_words, end === null || quiet || is_taken ? "" : `oil ends ${end} ft`,
    is_upright ? [x - 4 * inward, y - 5] : [x + 4, inner + 4.5], is_upright && inward > 0 ? "end" : "start");
  drawSides(parts, scene, place);
}

// The bowler's left and right with their outermost boards; a quiet lane that stands upright needs no such word.
function drawSides(parts, scene, { at, is_upright, edges, from_ft, quiet, strip, width, em, px }) {
  const [x] = at(from_ft, 20), top = edges[0] - GUTTER - 6, low = edges[1] + GUTTER + (strip ? 39 : 18) * em;
  const sides = [scene.left_gutter_text, scene.right_gutter_text], wide = sides.map((words) => px(words.split(" · ")[0]));
  const over = Math.max(0, wide[0] + wide[1] + 8 - (edges[1] - edges[0] + 2 * GUTTER)) / 2;
  sides.forEach((words, side) => {
    const [who, board] = words.split(" · "), end_x = [edges[0] - GUTTER - over, edges[1] + GUTTER + over][side], is_shown = !quiet || !is_upright;
    const anchor = is_upright ? (side === 0 ? "start" : "end") : quiet ? "start" : "end";
    write(parts.gutter_words[side], is_shown ? (is_upright ? who : words) : "",
      is_upright ? [end_x, 13 * em] : [quiet ? x : width - 1, side ? low : top], anchor);
    write(parts.gutter_boards[side], is_upright && is_shown ? board : "", [end_x, 29 * em], anchor);
  });
  write(parts.pocket_words, quiet && !is_upright ? "grey band: the pocket" : "", [width - 1, top], "end");
}

// Beside the diamond, on the side to which the line does not run.
function targetSpot(line, is_upright) {
  const away = line.target_board > line.laydown_board ? -1 : 1, gap = is_upright ? 12 : 9, rim = is_upright ? 5 : 2.5;
  const own = clamp(line.target_board + gap * away, rim, 40 - rim);
  return Math.abs(own - line.target_board) < 5 ? line.target_board - gap * away : own;
}

function drawTarget(parts, line, was, place) {
  const { at, is_upright } = place, target = at(line.target_ft, line.target_board);
  const is_in_column = place.quiet && is_upright && !place.is_small;
  [parts.target_words, parts.target_was].forEach((node) => node.classList.toggle("on-lane", !is_in_column));
  const nodes = [parts.leader, parts.target, parts.target_words, parts.target_was];
  if (line.target_ft < place.from_ft) { nodes.forEach((node) => show(node, false)); return; }
  show(parts.leader, true);
  const [x, y] = at(line.target_ft + (is_upright ? 5 : 0), targetSpot(line, is_upright));
  if (is_in_column) { drawTargetBeside(parts, line, was, place); return; }
  const where = line.target_ft === 15 ? "" : ` at ${line.target_ft} ft`;
  const is_same = was === null || (was.target_text === line.target_text && was.target_ft === line.target_ft);
  const has_room = !place.is_small && (is_upright || place.foot > 4.5), old = is_same || !has_room ? "" : `was ${was.target_text}`;
  const way = line.target_ft > 30 ? -1 : 1;  // far targets: words towards the foul line, away from the pins
  segment(parts.leader, target, is_upright ? [x + (x > target[0] ? -24 : 24), y - 4] : [x + 9 * way, y]);
  writeBig(parts.target, line.target_text, is_upright ? "" : ` target${where}${old && `, ${old}`}`,
    is_upright ? [x, y] : [x + 12 * way, y + 9], is_upright ? "middle" : way > 0 ? "start" : "end");
  write(parts.target_words, is_upright && !place.is_small ? `target${where}` : "", [x, y - 24 * place.em]);
  write(parts.target_was, is_upright ? old : "", [x, y + 16 * place.em]);
}

// On a quiet lane that stands upright: in the column beside it, a line leading to the diamond.
function drawTargetBeside(parts, line, was, { at, edges, inward, em, px }) {
  const [x, y] = at(line.target_ft, line.target_board), inner = edges[inward > 0 ? 1 : 0] + (GUTTER + 6) * inward;
  const where = line.target_ft === 15 ? "" : ` ${line.target_ft} ft`, is_same = was === null || was.target_text === line.target_text;
  const side = inward > 0 ? "start" : "end";
  segment(parts.leader, [inner, y], [x, y]);
  writeBig(parts.target, line.target_text, "", [inner, y + 9], side);
  write(parts.target_words, `target${where}`, [inner + (px(line.target_text, "strong") + 6) * inward, y + 8], side);
  write(parts.target_was, is_same ? "" : `was ${was.target_text}`, [inner, y + 9 + 18 * em], side);
}

function drawSole(path, line, place) {
  const { is_upright, is_small, at, edges, approach, width, em } = place;
  show(path, line !== null);
  if (line === null) return [0, 0];
  const [x, y] = at(0, line.feet_board);
  const spot = is_upright ? [clamp(x, 8, width - 8), y + (is_small ? 38 : 42) * em] : [approach - 46, clamp(y, 8, edges[1] + 20)];
  set(path, { d: SOLE, transform: `translate(${spot[0]} ${spot[1]})${is_upright ? " rotate(-90)" : ""}` });
  return spot;
}

function drawFeet(parts, line, played, place) {
  const { is_upright, is_small, quiet, edges, inward, em, px } = place, was = played?.feet_text === line.feet_text ? null : played;
  const [now, next] = [parts.sole_now, parts.sole_then], nodes = [now, next, parts.feet, parts.feet_was, parts.feet_words, parts.feet_leader];
  if (place.from_ft > 0) { nodes.forEach((node) => show(node, false)); return; }
  const spot = drawSole(played === null ? now : next, line, place), [x, y] = spot;
  const [old_x, old_y] = drawSole(played === null ? next : now, was, place), old = was === null ? "" : `was ${was.feet_text}`;
  const is_beside = is_upright && quiet && !is_small;
  show(parts.feet_leader, is_beside);
  if (is_beside) {
    const inner = edges[inward > 0 ? 1 : 0] + (GUTTER + 6) * inward, side = inward > 0 ? "start" : "end";
    segment(parts.feet_leader, [inner, y], [x - 8 * -inward, y]);
    writeBig(parts.feet, line.feet_text, "", [inner, y + 9], side);
    write(parts.feet_words, "feet", [inner + (px(line.feet_text, "strong") + 6) * inward, y + 8], side);
    write(parts.feet_was, old, [inner, y + 9 + 18 * em], side);
    return;
  }
  if (is_upright) {  // beside the soles, on the side where there is room
    const [low, high] = was === null ? [x, x] : [Math.min(x, old_x), Math.max(x, old_x)], is_right = low < (is_small ? 52 : 100);
    const anchor = is_right ? "start" : "end", at_x = is_right ? high + 11 : low - 11;
    writeBig(parts.feet, line.feet_text, is_small ? "" : "feet", [at_x, y + 9], anchor);
    write(parts.feet_words, "", [0, 0]);
    write(parts.feet_was, is_small ? "" : old, [at_x, y + 9 + 17 * em], anchor);
    return;
  }
  // Across: the number before its sole, "feet" and the old number on the two other sides.
  const is_old_above = was !== null && old_y < y, number_x = place.approach - 66;
  writeBig(parts.feet, line.feet_text, "", [number_x, y + 9], "end");
  write(parts.feet_words, "feet", [number_x, is_old_above || y < 34 ? y + 9 + 18 * em : y - 16], "end");
  write(parts.feet_was, old, [place.approach - 32, is_old_above ? old_y - 10 : old_y + 7 + 13 * em], "end");
}
