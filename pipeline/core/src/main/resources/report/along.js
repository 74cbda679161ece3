// Height, time and energy along a way, with what is kept of each; its hair line and the cross on the map are one.
class Along {
  static W = 900;
  static LEFT = 90;
  static RIGHT = 10;
  static PANELS = { height: [10, 54], time: [88, 64], energy: [176, 64] };
  static FOOT = 240;

  constructor(svg, shared, say) {
    Object.assign(this, { svg, shared, say, at: 0, rows: [] });
    const here = e => {
      const b = svg.getBoundingClientRect();
      return (e.clientX - b.left) / b.width * Along.W;
    };
    svg.addEventListener('pointermove', e => this.follow(this.nearest(here(e))));
    svg.addEventListener('keydown', e => {
      const step = { ArrowRight: 1, ArrowLeft: -1 }[e.key];
      if (!step || !this.rows.length) return;
      e.preventDefault();
      this.follow(Math.max(0, Math.min(this.rows.length - 1, this.at + step * (e.shiftKey ? 1 : 10))));
    });
  }

  // Draws a way: rows of distance (m), height (m), time (s) and energy (kWh) with their points on the map.
  draw({ name, rows, points, time, energy, turn }) {
    Object.assign(this, { name, rows, points, at: 0 });
    if (!rows.length) {
      this.svg.replaceChildren();
      this.svg.setAttribute('viewBox', '0 0 900 1');
      return;
    }
    const length = rows[rows.length - 1][0] || 1, right = Along.W - Along.RIGHT, parts = [];
    this.x = m => Along.LEFT + (right - Along.LEFT) * m / length;
    const hasEnergy = rows.some(r => !isNaN(r[3]));
    this.foot = hasEnergy ? Along.FOOT : Along.FOOT - 88;
    this.svg.setAttribute('viewBox', '0 0 900 ' + (this.foot + 34));
    const heights = rows.map(r => r[1]).filter(h => !isNaN(h));
    this.panel(parts, 'height', 1, 1, 'm', Math.min(...heights), Math.max(...heights, Math.min(...heights) + 1), null);
    this.panel(parts, 'time', 2, 1 / 3600, 'h', 0, null, time);
    if (hasEnergy) this.panel(parts, 'energy', 3, 1, 'kWh', 0, null, energy);
    const apart = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50].find(s => length / 1000 / s <= 10) || 100;
    for (let k = 0; k * apart * 1000 <= length; k++) {
      const last = (k + 1) * apart * 1000 > length;
      parts.push('<text x="' + this.x(k * apart * 1000).toFixed(1) + '" y="' + (this.foot + 24) + '" text-anchor="middle">' + +(k * apart).toFixed(1) + (last ? ' km' : '') + '</text>');
    }
    if (turn >= 0) parts.push('<path class="pinch" d="M' + this.x(rows[turn][0]).toFixed(1) + ' 4V' + this.foot + '"/>');
    this.svg.innerHTML = parts.join('') + '<path class="hair" d=""/>';
    const end = rows[rows.length - 1];
    this.svg.setAttribute('aria-label', name + ': height, time' + (hasEnergy ? ' and energy' : '') + ' over ' + (length / 1000).toFixed(2) + ' km; ' + this.told(end) + ' at the end; arrow keys move along it');
    this.say(name);
  }

  panel(parts, which, column, factor, unit, low, high, limit) {
    const [top, tall] = Along.PANELS[which], right = Along.W - Along.RIGHT, values = this.rows.map(r => r[column] * factor);
    const known = values.filter(v => !isNaN(v));
    if (low === 0) low = Math.min(0, ...known);
    const most = Math.max(...known, low + 1e-6), far = limit && limit.planned > 3 * most;
    if (high === null) high = (far || !limit ? most : Math.max(most, limit.most)) * 1.04;
    const y = v => top + tall * (high - v) / (high - low), wide = Math.pow(10, Math.floor(Math.log10((high - low) / 3)));
    const step = [1, 2, 5, 10].map(k => k * wide).find(s => (high - low) / s <= 3.5);
    for (let k = Math.ceil(low / step - 1e-9); k * step <= high; k++) {
      parts.push('<path class="rule" d="M' + Along.LEFT + ' ' + y(k * step).toFixed(1) + 'H' + right + '"/><text x="' + (Along.LEFT - 6) + '" y="' + (y(k * step) + 5).toFixed(1) + '" text-anchor="end">' + +(k * step).toFixed(4) + ' ' + unit + '</text>');
    }
    if (far) parts.push('<text x="' + (Along.LEFT + 6) + '" y="' + (top + 12) + '">limit far above: ' + +limit.most.toFixed(2) + ' ' + unit + '</text>');
    else if (limit) {
      for (const [v, css, text] of [[limit.most, 'limit', 'limit'], [limit.planned, 'kept', 'less what is kept']]) {
        parts.push('<path class="' + css + '" d="M' + Along.LEFT + ' ' + y(v).toFixed(1) + 'H' + right + '"/>');
        if (css === 'kept' || limit.planned === limit.most) parts.push('<text x="' + (right - 4) + '" y="' + (y(v) + 15).toFixed(1) + '" text-anchor="end">' + (limit.planned === limit.most ? 'limit' : text) + '</text>');
      }
    }
    let d = '', pen = false;
    values.forEach((v, i) => {
      if (!isNaN(v)) d += (pen ? 'L' : 'M') + this.x(this.rows[i][0]).toFixed(1) + ' ' + y(v).toFixed(1);
      pen = !isNaN(v);
    });
    parts.push('<path class="c1" d="' + d + '"/>');
  }

  told([m, h, s, kwh]) {
    return (m / 1000).toFixed(2) + ' km' + (isNaN(h) ? '' : ', height ' + h.toFixed(0) + ' m') + (isNaN(s) ? '' : ', ' + lasting(s / 60) + ' since the start')
      + (isNaN(kwh) ? '' : ', ' + kwh.toFixed(2) + ' kWh used');
  }

  nearest(x) {
    let best = 0;
    this.rows.forEach((r, i) => {
      if (Math.abs(this.x(r[0]) - x) < Math.abs(this.x(this.rows[best][0]) - x)) best = i;
    });
    return best;
  }

  // Goes to a point of the way, and with it the cross on the map.
  follow(i) {
    if (!this.rows.length) return;
    this.held = i;
    this.shared.point(this.points[i]);
    this.held = -1;
  }

  // Follows the cross on the map where it is near the line; out and home may share their ground.
  cursor(p) {
    if (!this.rows.length) return;
    let best = -1, least = 30 / this.shared.scale;
    if (p && this.held >= 0) best = this.held;
    else if (p) {
      this.points.forEach(([x, y], i) => {
        const d = Math.hypot(x - p[0], y - p[1]);
        if (d < least) {
          least = d;
          best = i;
        }
      });
    }
    const hair = this.svg.querySelector('.hair');
    hair.setAttribute('d', best < 0 ? '' : 'M' + this.x(this.rows[best][0]).toFixed(1) + ' 4V' + this.foot);
    if (best >= 0) this.at = best;
    this.say(this.name + (best < 0 ? '' : ': ' + this.told(this.rows[best])));
  }
}

const MOST_ROWS = 400;

// The quickest way out to a picked place, its stay and the quickest way home, as rows of a plot.
const thereAndBack = async (tiles, r, ways) => {
  const { map } = tiles, legs = [], all = { rows: [], points: [] };
  const layer = async (id, c) => id ? tiles.value(id, c[0], c[1]) : NaN;
  if (ways.out) legs.push([[...ways.out].reverse(), r.out, r.wayOut, false]);
  if (ways.out && (ways.home || ways.walk)) legs.push([ways.home || ways.walk, r.back, r.wayBack, true]);
  let m = 0, fromS = 0, fromKwh = 0, before = null;
  for (const [cells, time, energy, home] of legs) {
    const skip = Math.max(1, Math.ceil(cells.length / MOST_ROWS)), first = cells[0], last = cells[cells.length - 1];
    const wholeS = 60 * await layer(time, home ? first : last), wholeKwh = await layer(energy, home ? first : last);
    for (let i = 0; i < cells.length; i++) {
      const c = cells[i], at = [(c[0] + 0.5) * map.dx, (c[1] + 0.5) * map.dy];
      m += before ? Math.hypot(at[0] - before[0], at[1] - before[1]) : 0;
      before = at;
      if (i % skip && i < cells.length - 1) continue;
      const s = 60 * await layer(time, c), kwh = await layer(energy, c);
      all.rows.push([m, await layer('height', c), home ? fromS + wholeS - s : s, home ? fromKwh + wholeKwh - kwh : kwh]);
      all.points.push(at);
    }
    if (!home) all.turn = all.rows.length - 1;
    fromS += wholeS + r.stayS;
    fromKwh += wholeKwh + r.stayS * (r.hotelW || 0) / 3.6e6;
  }
  return all;
};
