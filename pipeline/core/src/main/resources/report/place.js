// Everything that the report knows of one place.
const lasting = min => {
  if (isNaN(min)) return '–';
  const m = Math.ceil(min - 1e-6), h = Math.floor(m / 60);
  return h ? h + ' h' + (m % 60 ? ' ' + m % 60 + ' min' : '') : m + ' min';
};

const told = (layer, v) => isNaN(v) ? 'no data'
  : (layer.rounded === 'UP' ? 'at most ' : layer.rounded === 'DOWN' ? 'at least ' : '') + v.toFixed(layer.digits) + ' ' + layer.unit
    + (layer.shrink > 1 ? ' (mean of ' + layer.shrink + ' x ' + layer.shrink + ' cells)' : '');

// Rows of what, value and kind for the cell of a place, by the order of the page.
const about = async (tiles, col, row) => {
  const { map } = tiles, rows = [];
  for (const id of ['height', 'slope', 'hazard']) {
    const layer = tiles.layers.get(id);
    if (layer) rows.push([layer.title, told(layer, await tiles.value(id, col, row)), id]);
  }
  for (const v of map.vehicles) {
    const cls = await tiles.name(v.class, col, row), limit = await tiles.name(v.limit, col, row);
    const speed = await tiles.value(v.speed, col, row), open = await tiles.value(v.headings, col, row);
    rows.push([v.name, (cls || 'no verdict') + (limit ? ': ' + limit : '')
      + (cls && !isNaN(open) ? '; ' + open.toFixed(0) + ' % of the headings open' : '')
      + (isNaN(speed) ? '' : ', ' + speed.toFixed(2) + ' m/s'), v.class]);
  }
  for (const r of map.reaches) rows.push([r.name, await verdict(tiles, r, col, row), r.bands]);
  for (const c of map.corridors) {
    const e = await tiles.value(c.excess, col, row);
    rows.push([c.name, isNaN(e) ? 'more than ' + c.most + ' % above the best way, or no way' : 'at most ' + e.toFixed(1) + ' % above the best way', c.excess]);
  }
  return rows;
};

// Least times and energies are bounds: a trip that meets every rule may take more.
const verdict = async (tiles, r, col, row) => {
  const band = await tiles.name(r.bands, col, row), end = await tiles.name(r.ends, col, row);
  const out = await tiles.value(r.out, col, row), back = r.back ? await tiles.value(r.back, col, row) : NaN;
  const energy = await tiles.value(r.energy, col, row);
  const least = [];
  if (!isNaN(out)) least.push('out from ' + lasting(out));
  if (!isNaN(back)) least.push((r.home === 'WALK_BACK' ? 'walk home ' : 'home from ') + lasting(back));
  if (r.stayS > 0) least.push('stay ' + lasting(r.stayS / 60));
  if (!isNaN(energy)) least.push(energy.toFixed(2) + ' kWh out at least');
  const driven = r.home === 'DRIVE_BACK' || r.home === 'PAIR' || r.home === 'BASE_RESCUE';
  let left = '';
  if (band && r.timeS && !isNaN(out)) {
    const used = 60 * out + r.stayS + (driven && !isNaN(back) ? 60 * back : 0);
    const spare = Math.floor(Math.max(0, r.timeS - used) / 60 + 1e-6);
    left = '; at most ' + lasting(spare) + ' of ' + lasting(r.timeS / 60) + ' left'
      + (r.timeSKept ? ', ' + lasting(r.timeSKept / 60) + ' of it reserve' : '');
  }
  const facts = least.length ? ': ' + least.join(', ') : '';
  if (band) return (band.startsWith('surely') ? 'surely reached' : 'possibly reached, no one trip found') + facts + left;
  return 'not reached, ' + (end || 'no data') + facts;
};
