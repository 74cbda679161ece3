// Everything that the report knows of one place.
const lasting = min => {
  if (isNaN(min)) return '–';
  const m = Math.ceil(min - 1e-6), h = Math.floor(m / 60);
  return h ? h + ' h' + (m % 60 ? ' ' + m % 60 + ' min' : '') : m + ' min';
};

const told = (layer, v) => isNaN(v) ? 'no data'
  : (layer.rounded === 'UP' ? 'at most ' : layer.rounded === 'DOWN' ? 'at least ' : '') + v.toFixed(layer.digits) + ' ' + layer.unit
    + (layer.shrink > 1 ? (layer.rounded === 'NEAREST' ? ' (mean of ' : ' (all of ') + layer.shrink + ' x ' + layer.shrink + ' cells)' : '');

// Says so where what is told of a place is the worst of the cells about it.
const worstOf = (tiles, ...ids) => {
  const n = Math.max(...ids.map(id => tiles.layers.get(id)?.shrink || 1));
  return n > 1 ? ' (the worst of ' + n + ' x ' + n + ' cells there: report.max_mb)' : '';
};

const fromPoint = (x, y, [ax, ay, bx, by]) => {
  const dx = bx - ax, dy = by - ay, long2 = dx * dx + dy * dy;
  const t = long2 > 0 ? Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / long2)) : 0;
  return Math.hypot(x - ax - t * dx, y - ay - t * dy);
};

// Distance of an edge from a cell, which runs from w to e and from n to s.
const fromCell = (w, n, e, s, edge) => {
  const [ax, ay, bx, by] = edge;
  let from = 0, to = 1;
  for (const [a, b, low, high] of [[ax, bx, w, e], [ay, by, n, s]]) {
    const one = (low - a) / (b - a), other = (high - a) / (b - a);
    if (a !== b) [from, to] = [Math.max(from, Math.min(one, other)), Math.min(to, Math.max(one, other))];
    else if (a < low || a > high) to = -1;
  }
  if (from <= to) return 0;
  const end = (x, y) => Math.hypot(Math.max(w - x, 0, x - e), Math.max(n - y, 0, y - s));
  return Math.min(end(ax, ay), end(bx, by), ...[[w, n], [e, n], [e, s], [w, s]].map(([x, y]) => fromPoint(x, y, edge)));
};

// Keep-out areas that hold a place or close its cell to a vehicle by their margin.
const keptOut = (map, [x, y], col, row) => {
  const all = map.keepOutAreas, said = [];
  if (all?.leftOut) return ['the page has no room for the names of so many areas; ' + map.explain + ' tells them'];
  const w = col * map.dx, n = row * map.dy;
  for (const { says, polygons } of all?.areas || []) {
    let inside = false, edgeM = Infinity, cellM = Infinity;
    for (const rings of polygons) {
      let odd = false;
      for (const ring of rings) {
        for (let i = 2; i < ring.length; i += 2) {
          const edge = ring.slice(i - 2, i + 2), [ax, ay, bx, by] = edge;
          if (ay > y !== by > y && x < ax + (y - ay) / (by - ay) * (bx - ax)) odd = !odd;
          edgeM = Math.min(edgeM, fromPoint(x, y, edge));
          cellM = Math.min(cellM, fromCell(w, n, w + map.dx, n + map.dy, edge));
        }
      }
      inside ||= odd;
    }
    // The page has the edges to a millimetre.
    const closed = all.closes.filter(c => cellM <= c.m + 0.001).map(c => c.name);
    if (inside || edgeM === 0) said.push('inside ' + says + ', ' + edgeM.toFixed(1) + ' m from its edge');
    else if (closed.length) said.push(edgeM.toFixed(1) + ' m from the edge of ' + says + ': its margin closes this cell to ' + closed.join(', '));
  }
  return said;
};

// Rows of what, value and kind for the cell of a place, by the order of the page.
const about = async (tiles, col, row, at) => {
  const { map } = tiles, rows = [];
  for (const id of ['height', 'slope', 'hazard']) {
    const layer = tiles.layers.get(id);
    if (layer) rows.push([layer.title, told(layer, await tiles.value(id, col, row)), id]);
  }
  for (const said of keptOut(map, at, col, row)) rows.push(['keep-out', said, 'keep-out']);
  for (const v of map.vehicles) {
    const cls = await tiles.name(v.class, col, row), limit = await tiles.name(v.limit, col, row);
    const speed = await tiles.value(v.speed, col, row), open = await tiles.value(v.headings, col, row);
    rows.push([v.name, (cls || 'no verdict') + (limit ? ': ' + limit : '')
      + (cls && !isNaN(open) ? '; ' + open.toFixed(0) + ' % of the headings open' : '')
      + (isNaN(speed) ? '' : ', ' + speed.toFixed(2) + ' m/s') + worstOf(tiles, v.class, v.limit, v.headings, v.speed), v.class]);
  }
  for (const r of map.reaches) rows.push([r.name, await verdict(tiles, r, col, row) + worstOf(tiles, r.bands, r.ends, r.out, r.back, r.wayOut, r.wayBack), r.bands]);
  for (const s of map.sorties) {
    const day = await tiles.name(s.rings, col, row);
    const words = !day ? 'not reached and home by day ' + s.days : day === 'possibly' ? 'possibly reached, no one trip found' : 'surely reached by the end of ' + day + ', home by day ' + s.days;
    rows.push([s.name, words + worstOf(tiles, s.rings), s.rings]);
  }
  for (const c of map.corridors) {
    const e = await tiles.value(c.excess, col, row);
    rows.push([c.name, isNaN(e) ? 'more than ' + c.most + ' % above the best way, or no way' : 'at most ' + e.toFixed(1) + ' % above the best way' + worstOf(tiles, c.excess), c.excess]);
  }
  return rows;
};

// What the quickest ways take; a trip that meets every rule may take more time.
const verdict = async (tiles, r, col, row) => {
  const band = await tiles.name(r.bands, col, row), end = await tiles.name(r.ends, col, row);
  const value = async id => id ? tiles.value(id, col, row) : NaN;
  const out = await value(r.out), back = await value(r.back), outKwh = await value(r.wayOut), backKwh = await value(r.wayBack);
  const with_ = kwh => isNaN(kwh) ? '' : ' (' + kwh.toFixed(2) + ' kWh)';
  const parts = [];
  if (!isNaN(out)) parts.push('out from ' + lasting(out) + with_(outKwh));
  if (!isNaN(back)) parts.push((r.home === 'WALK_BACK' ? 'walk home ' : 'home from ') + lasting(back) + with_(backKwh));
  if (r.stayS > 0) parts.push('stay ' + lasting(r.stayS / 60) + with_(r.hotelW ? r.stayS * r.hotelW / 3.6e6 : NaN));
  const facts = parts.length ? ': ' + parts.join(', ') : '';
  if (!band) return 'not reached, ' + (end || 'no data') + facts;
  return (band.startsWith('surely') ? 'surely reached' : 'possibly reached, no one trip found') + facts
    + timeLeft(r, out, back) + energyLeft(r, outKwh, backKwh);
};

const timeLeft = (r, out, back) => {
  if (!r.timeS || isNaN(out)) return '';
  const driven = r.home === 'DRIVE_BACK' || r.home === 'PAIR' || r.home === 'BASE_RESCUE';
  const used = 60 * out + r.stayS + (driven && !isNaN(back) ? 60 * back : 0);
  const spare = Math.floor(Math.max(0, r.timeS - used) / 60 + 1e-6);
  return '; at most ' + lasting(spare) + ' of ' + lasting(r.timeS / 60) + ' left'
    + (r.timeSKept ? ', ' + lasting(r.timeSKept / 60) + ' of it reserve' : '');
};

// Energy left after the quickest ways, rounded down; by the rules where the vehicle drives home or none asks for it.
const energyLeft = (r, outKwh, backKwh) => {
  const whole = r.energyJ / 3.6e6, used = outKwh + r.stayS * (r.hotelW || 0) / 3.6e6 + (r.home === 'NONE' ? 0 : backKwh);
  if (isNaN(whole) || isNaN(used)) return '';
  if (used > whole) return '; the quickest ways need ' + used.toFixed(2) + ' kWh of ' + +whole.toFixed(2) + ': a thriftier way must be driven';
  return '; after the quickest ways ' + (Math.floor(100 * (whole - used) + 1e-6) / 100).toFixed(2) + ' of ' + +whole.toFixed(2) + ' kWh left'
    + (r.energyJKept ? ', ' + +(r.energyJKept / 3.6e6).toFixed(2) + ' of it reserve' : '');
};
