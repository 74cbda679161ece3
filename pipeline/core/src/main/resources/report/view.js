// What all maps of the page share: the stretch of ground in view, the cursor and the picked place.
class Shared {
  constructor(map, hooks) {
    Object.assign(this, hooks);
    this.map = map;
    this.W = map.cols * map.dx;
    this.H = map.rows * map.dy;
    this.views = [];
    this.scale = 0;
    this.x = this.W / 2;
    this.y = this.H / 2;
    this.cursor = this.picked = null;
  }

  changed() {
    this.x = Math.min(this.W, Math.max(0, this.x));
    this.y = Math.min(this.H, Math.max(0, this.y));
    for (const v of this.views) {
      v.stirred = performance.now();
      v.ask();
    }
  }

  inside(x, y) {
    return [Math.min(this.W - 1e-3, Math.max(0, x)), Math.min(this.H - 1e-3, Math.max(0, y))];
  }

  whole(view) {
    this.fitted = true;
    this.scale = Math.min(view.w / this.W, view.h / this.H);
    this.x = this.W / 2;
    this.y = this.H / 2;
  }

  // Scales about a point of the ground, which stays where it is.
  zoom(factor, [x, y]) {
    const w = Math.min(...this.views.map(v => v.w || 1e9)), least = 0.5 * w / Math.max(this.W, this.H);
    const most = 40 / Math.min(this.map.dx, this.map.dy);
    const scale = Math.min(most, Math.max(least, this.scale * factor)), f = this.scale / scale;
    this.x = x + (this.x - x) * f;
    this.y = y + (this.y - y) * f;
    this.scale = scale;
    this.fitted = false;
    this.changed();
  }

  point(p) {
    this.cursor = p && p[0] >= 0 && p[1] >= 0 && p[0] < this.W && p[1] < this.H ? p : null;
    this.moved(this.cursor);
    this.changed();
  }
}

// One map: layers by level of detail, lines, and names that never cover each other.
class MapView {
  constructor(root, shared, tiles, show) {
    Object.assign(this, { root, shared, tiles, show, map: tiles.map });
    this.painted = new Map();
    this.paths = new Map();
    this.sides = new Map();
    this.textures = {};
    this.stirred = -1e9;
    this.canvas = document.createElement('canvas');
    this.canvas.setAttribute('aria-hidden', 'true');
    root.prepend(this.canvas);
    this.g = this.canvas.getContext('2d', { alpha: false });
    this.scratch = document.createElement('canvas');
    shared.views.push(this);
    // Paper has another width, and the page its own again later.
    new ResizeObserver(() => { if (!this.printing) this.size(); }).observe(root);
    this.size();
    listen(this);
  }

  size(px) {
    const w = this.root.clientWidth, h = this.root.clientHeight;
    if (!w || !h) return;
    this.px = px || Math.min(2, devicePixelRatio || 1);
    this.w = w;
    this.h = h;
    this.canvas.width = Math.round(w * this.px);
    this.canvas.height = Math.round(h * this.px);
    this.textures = {};
    this.back = null;
    // A map that shows everything does so on a screen that is turned as well.
    if (!this.shared.scale || (this.shared.fitted && !px && this === this.shared.views[0])) this.shared.whole(this);
    this.ask();
  }

  // Draws for paper at once, from the tiles that the screen has.
  print() {
    if (!this.w) return;
    this.printing = this.px;
    this.size(2);
    this.draw();
  }

  printed() {
    this.printing = 0;
    this.size();
  }

  ask() {
    if (this.pending) return;
    this.pending = true;
    requestAnimationFrame(() => {
      this.pending = false;
      this.draw();
    });
  }

  toScreen(x, y) {
    const s = this.shared;
    return [(x - s.x) * s.scale + this.w / 2, (y - s.y) * s.scale + this.h / 2];
  }

  toGround(px, py) {
    const s = this.shared;
    return [(px - this.w / 2) / s.scale + s.x, (py - this.h / 2) / s.scale + s.y];
  }

  // A painted tile, or null while it is on its way.
  tile(layer, k, tx, ty) {
    const key = (layer.key || layer.id) + '/' + k + '/' + tx + '/' + ty;
    let t = this.painted.get(key);
    if (t === undefined) {
      this.painted.set(key, t = null);
      this.tiles.tile(layer.id, k, tx, ty).then(cells => {
        this.painted.set(key, painted(layer, this.map.ramp, cells));
        this.fresh = (this.fresh || 0) + 1;
        this.ask();
      });
      if (this.painted.size > 600) this.painted.delete(this.painted.keys().next().value);
    }
    return t;
  }

  // Draws a layer; returns how many tiles are still missing.
  raster(g, layer, strength, w, h) {
    const { map, shared: s, px } = this, first = layer.levels.findIndex(l => l), last = layer.levels.length - 1;
    let k = Math.round(-Math.log2(s.scale * map.dx * (this.printing || px)) - 0.2);
    k = Math.max(first, Math.min(last, k));
    const west = s.x - w / 2 / s.scale, north = s.y - h / 2 / s.scale;
    const jobs = [], missing = this.jobs(layer, k, west, north, w, h, jobs);
    const use = [];
    // The relief alone has a rough picture meanwhile: merged classes are the worst of many cells, so that all would flash as closed.
    if (missing && k !== last && layer.look === 'relief') this.jobs(layer, last, west, north, w, h, use);
    use.push(...jobs);
    g.imageSmoothingEnabled = layer.look === 'relief' || s.scale * map.dx * 2 ** k < 1.2;
    g.globalAlpha = strength;
    for (const j of use) g.drawImage(j.t.picture, ...j.at);
    g.globalAlpha = 1;
    const textures = new Set(use.flatMap(j => Object.keys(j.t.masks)));
    for (const name of textures) this.hatch(g, name, use, strength, west, north);
    return missing;
  }

  jobs(layer, k, west, north, w, h, jobs) {
    const { map, shared: s, px } = this, level = layer.levels[k], side = map.tile;
    const cw = map.dx * 2 ** k, ch = map.dy * 2 ** k;
    const x1 = Math.min(Math.ceil(level.w / side) - 1, Math.floor((west + w / s.scale) / cw / side));
    const y1 = Math.min(Math.ceil(level.h / side) - 1, Math.floor((north + h / s.scale) / ch / side));
    let missing = 0;
    for (let ty = Math.max(0, Math.floor(north / ch / side)); ty <= y1; ty++) {
      for (let tx = Math.max(0, Math.floor(west / cw / side)); tx <= x1; tx++) {
        const t = this.tile(layer, k, tx, ty);
        if (!t) {
          missing++;
          continue;
        }
        const at = v => Math.round(v * s.scale * px);
        const l = at(tx * side * cw - west), u = at(ty * side * ch - north);
        const r = at((tx * side + t.picture.width) * cw - west), d = at((ty * side + t.picture.height) * ch - north);
        jobs.push({ t, at: [l, u, r - l, d - u] });
      }
    }
    return missing;
  }

  // Textures keep their size on the screen, whatever the scale, and stay on the ground when it moves.
  hatch(g, name, jobs, strength, west, north) {
    const q = this.scratch.getContext('2d'), { px, shared: s } = this, period = Math.round(PERIOD * px);
    const fill = this.textures[name] || (this.textures[name] = q.createPattern(texture(name, px), 'repeat'));
    q.globalCompositeOperation = 'source-over';
    q.setTransform(1, 0, 0, 1, 0, 0);
    q.clearRect(0, 0, this.scratch.width, this.scratch.height);
    q.imageSmoothingEnabled = false;
    for (const j of jobs) if (j.t.masks[name]) q.drawImage(j.t.masks[name], ...j.at);
    q.globalCompositeOperation = 'source-in';
    const shift = v => Math.round(-v * s.scale * px) % period - period;
    q.setTransform(1, 0, 0, 1, shift(west), shift(north));
    q.fillStyle = fill;
    q.fillRect(0, 0, this.scratch.width + 2 * period, this.scratch.height + 2 * period);
    g.globalAlpha = 0.7 * strength;
    g.drawImage(this.scratch, 0, 0);
    g.globalAlpha = 1;
  }

  // The layers are composed once, larger than the window, and only moved while a hand is on the map.
  ground() {
    const { shared: s, px, w, h, show } = this, layers = show.rasters();
    const state = layers.map(l => (l.layer.key || l.layer.id) + l.strength).join();
    const b = this.back, f = b ? s.scale / b.scale : 0;
    const covers = b && b.state === state && f > 0.6 && f < 1.7
      && Math.abs(s.x - b.x) * s.scale <= (b.w * f - w) / 2 + 1
      && Math.abs(s.y - b.y) * s.scale <= (b.h * f - h) / 2 + 1;
    const stale = !b || b.fresh !== this.fresh || f !== 1;
    if (!covers || (stale && performance.now() - this.stirred > 140)) this.compose(layers, state);
    else if (stale) {
      clearTimeout(this.rest);
      this.rest = setTimeout(() => this.ask(), 160);
    }
    const n = this.back, k = s.scale / n.scale;
    const x = ((n.x - s.x) * s.scale + w / 2 - n.w * k / 2) * px;
    const y = ((n.y - s.y) * s.scale + h / 2 - n.h * k / 2) * px;
    this.g.imageSmoothingEnabled = k !== 1;
    if (k === 1) this.g.drawImage(n.canvas, Math.round(x), Math.round(y));
    else this.g.drawImage(n.canvas, x, y, n.canvas.width * k, n.canvas.height * k);
    return n.missing;
  }

  compose(layers, state) {
    const { shared: s, px } = this, w = this.w + 2 * Math.round(0.15 * this.w), h = this.h + 2 * Math.round(0.15 * this.h);
    const canvas = this.back ? this.back.canvas : document.createElement('canvas');
    canvas.width = this.scratch.width = Math.round(w * px);
    canvas.height = this.scratch.height = Math.round(h * px);
    const g = canvas.getContext('2d', { alpha: false });
    g.fillStyle = '#fff';
    g.fillRect(0, 0, canvas.width, canvas.height);
    const b = { canvas, w, h, x: s.x, y: s.y, scale: s.scale, state, fresh: this.fresh, missing: 0 };
    for (const l of layers) b.missing += this.raster(g, l.layer, l.strength, w, h);
    this.back = b;
  }

  line(l) {
    const g = this.g, s = this.shared, px = this.px;
    let p = this.paths.get(l.key);
    if (!p || p.of !== l.parts) {
      const d = new Path2D();
      for (const part of l.parts) part.forEach(([x, y], i) => (i ? d.lineTo(x, y) : d.moveTo(x, y)));
      this.paths.set(l.key, p = { of: l.parts, d });
    }
    const [x, y] = this.toScreen(0, 0), wide = v => v / s.scale;
    g.save();
    g.setTransform(s.scale * px, 0, 0, s.scale * px, x * px, y * px);
    g.lineJoin = 'round';
    g.strokeStyle = 'rgba(255,255,255,.85)';
    g.lineWidth = wide(l.width + 2.4);
    g.stroke(p.d);
    g.strokeStyle = l.stroke;
    g.lineWidth = wide(l.width);
    g.setLineDash(l.dash.map(wide));
    g.stroke(p.d);
    g.restore();
  }

  draw() {
    if (!this.w) return;
    const { g, px } = this;
    g.setTransform(1, 0, 0, 1, 0, 0);
    g.fillStyle = '#fff';
    g.fillRect(0, 0, this.canvas.width, this.canvas.height);
    this.missing = this.ground();
    const lines = this.show.lines();
    for (const l of lines) this.line(l);
    g.setTransform(px, 0, 0, px, 0, 0);
    names(this, lines.filter(l => l.name));
    furniture(this);
    if (!this.missing && !this.ready) {
      this.ready = true;
      this.shared.complete(this);
    }
  }
}
