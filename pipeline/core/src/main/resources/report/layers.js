// What one map shows: its layers with their strengths, its lines and places, and the controls of them.
const DASHES = [[], [10, 4], [4, 3], [12, 3, 2, 3]];
const EDGES = [['#000000', [2, 3]], ['#5b0000', [9, 3, 2, 3]], ['#00404d', [2, 2, 2, 6]], ['#3d2b00', [5, 2]]];
const WAY_COLOURS = ['#000000', '#0b5d8f', '#8f3e00', '#4b2e83'];
const DAY_COLOURS = ['#006b4f', '#6b0036', '#5b4a00', '#003f7d'];
const DAY_DASHES = [[11, 3], [3, 3], [11, 3, 3, 3], [6, 6]];
const WAY_DASHES = [[], [14, 4], [5, 3], [14, 3, 2, 3]];

const unpacked = (parts, kx, ky) => parts.map(flat => {
  const points = [];
  for (let i = 0, x = 0, y = 0; i < flat.length; i += 2) {
    x += flat[i];
    y += flat[i + 1];
    points.push([x * kx, y * ky]);
  }
  return points;
});

const pairs = flat => {
  const points = [];
  for (let i = 0; i < flat.length; i += 2) points.push([flat[i], flat[i + 1]]);
  return points;
};

// Lines of the whole job, read once.
const linesOf = map => ({
  bands: map.reaches.map((r, n) => r.lines.map((l, i) => ({
    key: 'band' + n + '/' + i, name: l.name, parts: unpacked(l.parts, r.unitX, r.unitY),
    stroke: '#3b0f70', width: 2.2, dash: DASHES[i % 4], names: 2 })).filter(l => l.parts.length)),
  edges: map.reaches.map((r, n) => r.edges.map((l, i) => ({
    key: 'edge' + n + '/' + i, name: l.name, parts: unpacked(l.parts, r.unitX, r.unitY),
    stroke: EDGES[i % 4][0], width: 3.4, dash: EDGES[i % 4][1], names: 2 })).filter(l => l.parts.length)),
  ways: map.corridors.flatMap((c, n) => [
    ...c.others.map((o, i) => ({ key: 'other' + n + '/' + i, corridor: n, says: 'alternatives of ' + c.name, parts: [pairs(o.line)], stroke: WAY_COLOURS[n % 4], width: 1.4, dash: [2, 4] })),
    { key: 'way' + n, corridor: n, name: c.name, names: 1, parts: [pairs(c.line)], stroke: WAY_COLOURS[n % 4], width: 2.4, dash: WAY_DASHES[n % 4] }]
    .filter(l => l.parts[0].length)),
  days: map.sorties.flatMap((s, n) => s.ways.map((w, i) => ({
    key: 'day' + n + '/' + i, sortie: n, name: 'day ' + w.day, says: s.name + ', day ' + w.day, names: 1, parts: [pairs(w.line)],
    stroke: DAY_COLOURS[(w.day - 1) % 4], width: 3.2, dash: DAY_DASHES[(w.day - 1) % 4] })).filter(l => l.parts[0].length > 1)),
  keepOut: (map.keepOut || []).map((ring, i) => ({
    key: 'keep' + i, name: i ? '' : 'keep-out', says: 'keep-out area with margin', names: 1, parts: [pairs(ring)], stroke: '#000000', width: 1.5, dash: [7, 3] })),
  ellipses: map.ellipses.map((ring, i) => ({ key: 'ellipse' + i, says: 'landing ellipse, 99 %', parts: [pairs(ring)], stroke: '#17202a', width: 1.6, dash: [] })),
});

class Show {
  constructor(map, lines, spots, trip, first) {
    Object.assign(this, { map, fixed: lines, spots, trip });
    this.of = { vehicle: 0, reach: 0, corridor: 0, sortie: 0 };
    this.drawn = { reach: true, ways: true, days: true, keepOut: true, ellipses: true, places: true };
    this.strength = { relief: 1 };
    if (first) this.strength[first] = 0.75;
  }

  // True if a layer belongs to the chosen vehicle, reach and corridor.
  offered(layer) {
    if (layer.look === 'steps') return false;
    const [kind, n] = layer.group.split(' ');
    return n === undefined || this.of[kind] === +n;
  }

  // The layers of the same kind of another vehicle, reach or corridor keep their strength.
  strengthOf(layer) {
    return this.strength[layer.id.replace(/-\d+$/, '')] || 0;
  }

  rasters() {
    const list = this.map.layers.filter(l => this.offered(l) && this.strengthOf(l) > 0)
      .map(layer => ({ layer, strength: this.strengthOf(layer) }));
    if (this.brush) list.push({ layer: this.brush, strength: 0.75 });
    return list;
  }

  // Marks the ground on which a quantity lies between two values.
  mark(id, low, high) {
    const layer = this.map.layers.find(l => l.id === id);
    this.brush = layer && { ...layer, look: 'brush', key: id + '!' + low + '!' + high, colours: null, low, high };
  }

  lines() {
    const { fixed, drawn, of } = this, list = [];
    if (drawn.keepOut) list.push(...fixed.keepOut);
    if (drawn.ellipses) list.push(...fixed.ellipses);
    if (drawn.ways) list.push(...fixed.ways.filter(l => l.name || l.corridor === of.corridor));
    if (drawn.days) list.push(...fixed.days.filter(l => l.sortie === of.sortie));
    if (drawn.reach && fixed.bands.length) list.push(...fixed.bands[of.reach], ...fixed.edges[of.reach]);
    list.push(...this.trip());
    return list;
  }

  places() {
    return this.drawn.places ? this.spots : [];
  }
}

const element = (name, words, ...inside) => {
  const e = document.createElement(name);
  for (const k in words) k in e ? e[k] = words[k] : e.setAttribute(k, words[k]);
  e.append(...inside);
  return e;
};

// Fills a box with the controls of one map.
const controls = (show, box, title, changed) => {
  const { map } = show, set = element('fieldset', {}, element('legend', {}, title)), list = element('div', {});
  const choose = (label, names, kind) => {
    if (names.length < 2) return;
    const s = element('select', {});
    names.forEach((n, i) => s.append(new Option(n, i)));
    s.dataset.kind = kind;
    s.addEventListener('change', () => show.choose(kind, +s.value));
    set.append(element('label', {}, label + ' ', s));
  };
  show.choose = (kind, n) => {
    show.of[kind] = n;
    const s = set.querySelector('[data-kind=' + kind + ']');
    if (s) s.value = n;
    if (kind === 'reach') {
      const v = map.vehicles.findIndex(m => m.name === map.reaches[n].vehicle);
      if (v >= 0 && v !== show.of.vehicle) show.choose('vehicle', v);
    }
    fill();
    changed(kind);
  };
  choose('Vehicle', map.vehicles.map(v => v.name), 'vehicle');
  choose('Reach', map.reaches.map(r => r.name), 'reach');
  choose('Corridor', map.corridors.map(c => c.name), 'corridor');
  choose('Sortie', map.sorties.map(s => s.name), 'sortie');
  const fill = () => {
    list.replaceChildren();
    let group = '';
    for (const layer of map.layers.filter(l => show.offered(l))) {
      const kind = layer.group.split(' ')[0];
      if (kind !== group) list.append(element('p', { className: 'group' }, group = kind));
      list.append(slider(show, layer, changed));
    }
  };
  show.refresh = fill;
  set.append(list);
  fill();
  const marks = [['reach', 'reach lines', map.reaches.length], ['ways', 'centrelines', map.corridors.length], ['days', 'ways of sorties', show.fixed.days.length],
    ['keepOut', 'keep-out areas', show.fixed.keepOut.length], ['ellipses', 'landing ellipses', show.fixed.ellipses.length], ['places', 'places', 1]];
  set.append(element('p', { className: 'group' }, 'lines and places'));
  for (const [k, text, some] of marks) {
    if (!some) continue;
    const tick = element('input', { type: 'checkbox', checked: show.drawn[k] });
    tick.dataset.line = k;
    tick.addEventListener('change', () => {
      show.drawn[k] = tick.checked;
      changed();
    });
    set.append(element('label', {}, tick, ' ' + text));
  }
  box.append(set);
};

const slider = (show, layer, changed) => {
  const key = layer.id.replace(/-\d+$/, ''), strength = show.strengthOf(layer);
  const on = element('input', { type: 'checkbox', checked: strength > 0 });
  const range = element('input', { type: 'range', min: 0, max: 100, value: 100 * (strength || 0.75), 'aria-label': 'Strength of ' + layer.title });
  on.dataset.layer = key;
  range.dataset.strength = key;
  on.addEventListener('change', () => {
    show.strength[key] = on.checked ? Math.max(0.05, range.value / 100) : 0;
    changed();
  });
  range.addEventListener('input', () => {
    show.strength[key] = range.value / 100;
    on.checked = range.value > 0;
    changed();
  });
  return element('div', { className: 'layer' }, element('label', {}, on, ' ' + layer.title), range);
};

// The key to what the maps show.
const legend = (shows, map, box) => {
  box.replaceChildren();
  const seen = new Set();
  for (const show of shows) {
    for (const { layer } of show.rasters()) {
      if (layer.look === 'relief' || layer.look === 'brush' || seen.has(layer.id)) continue;
      seen.add(layer.id);
      const owner = layer.group.split(' '), all = { vehicle: map.vehicles, reach: map.reaches, corridor: map.corridors, sortie: map.sorties }[owner[0]];
      box.append(element('h3', {}, layer.title + (all ? ', ' + all[+owner[1]].name : '')));
      if (layer.look === 'classes') {
        for (const c of layer.classes) box.append(entry(swatch(c), c.name));
      } else {
        const bar = canvasOf(128, 14), g = bar.getContext('2d');
        for (let x = 0; x < 128; x++) {
          g.fillStyle = '#' + map.ramp.substr(6 * (x >> 1), 6);
          g.fillRect(x, 0, 1, 14);
        }
        const shown = v => +v.toFixed(layer.digits);
        box.append(entry(bar, shown(layer.low) + ' to ' + shown(layer.high) + ' ' + layer.unit));
      }
      if (layer.shrink > 1) box.append(element('p', { className: 'note' }, layer.shrink + ' x ' + layer.shrink + ' cells are drawn as one, the worst of them (report.max_mb).'));
    }
    for (const l of show.lines()) {
      const text = l.says || l.name;
      if (!text || seen.has(text)) continue;
      seen.add(text);
      const line = canvasOf(72, 24), g = line.getContext('2d');
      line.className = 'swatch';
      g.scale(2, 2);
      g.strokeStyle = l.stroke;
      g.lineWidth = l.width;
      g.setLineDash(l.dash);
      g.beginPath();
      g.moveTo(1, 6);
      g.lineTo(35, 6);
      g.stroke();
      box.append(entry(line, text));
    }
  }
};

const entry = (mark, text) => element('div', { className: 'entry' }, mark, element('span', {}, text));

const swatch = c => {
  const k = canvasOf(72, 40), g = k.getContext('2d');
  k.className = 'swatch';
  g.fillStyle = '#b8b8b8';
  g.fillRect(0, 0, 72, 40);
  g.globalAlpha = c.alpha / 255;
  g.fillStyle = c.colour;
  g.fillRect(0, 0, 72, 40);
  g.globalAlpha = 0.7;
  if (c.pattern !== 'PLAIN') {
    g.fillStyle = g.createPattern(texture(c.pattern, 2), 'repeat');
    g.fillRect(0, 0, 72, 40);
  }
  return k;
};
