// The first screen: answers, map and picked place.
const board = () => {
  const $ = id => document.getElementById(id), root = document.documentElement;
  const map = JSON.parse($('map-data').textContent), tiles = new Tiles(map), fixed = linesOf(map);
  const lonLat = lattice(map.lattice);
  const spots = map.places.map(p => ({ ...p, mx: p.x - map.west, my: map.north - p.y }));
  const trip = { lines: [] };
  const shows = [new Show(map, fixed, spots, () => trip.lines, map.vehicles.length ? 'class' : 'slope')];

  const cellOf = ([x, y]) => [Math.min(map.cols - 1, Math.floor(x / map.dx)), Math.min(map.rows - 1, Math.floor(y / map.dy))];
  const where = ([x, y]) => {
    const ll = lonLat ? lonLat(x / shared.W, y / shared.H) : null;
    return 'E ' + (map.west + x).toFixed(1) + ' m, N ' + (map.north - y).toFixed(1) + ' m'
      + (ll ? '; ' + degrees(ll[1], 'N', 'S') + ', ' + degrees(ll[0], 'E', 'W') : '');
  };

  const shared = new Shared(map, {
    say: text => {
      $('hint').textContent = text;
      clearTimeout(shared.said);
      shared.said = setTimeout(() => { $('hint').textContent = ''; }, 4000);
    },
    moved: p => {
      if (p) $('read-out').textContent = where(p);
      plots.cursor(p);
    },
    tell: async () => {
      const at = shared.cursor, [col, row] = cellOf(at), v = map.vehicles[shows[0].of.vehicle];
      $('live').textContent = where(at) + (v ? '; ' + (await tiles.name(v.class, col, row) || 'no verdict') + ' for ' + v.name : '');
    },
    next: step => {
      if (!spots.length) return;
      shared.turn = ((shared.turn ?? (step > 0 ? -1 : 0)) + step + spots.length) % spots.length;
      go(spots[shared.turn]);
    },
    clear: () => {
      shared.picked = null;
      trip.lines = [];
      plots.picked(null);
      $('place').replaceChildren(element('p', { className: 'quiet' }, $('place').dataset.empty));
      changed();
    },
    pick: (p, name) => {
      const at = shared.inside(...p);
      shared.picked = at;
      const near = spots.find(s => Math.hypot(s.mx - at[0], s.my - at[1]) < 10 / shared.scale);
      changed();
      return read(near && !name ? [near.mx, near.my] : at, name || near?.name);
    },
    complete: () => {
      if (root.dataset.script === 'ready') return;
      root.dataset.script = 'ready';
      root.classList.add('mapped');
    },
  });

  // Tells all about a place; a later pick overtakes an earlier one that is still being read.
  const read = async (at, name) => {
    shared.picked = at;
    const turn = shared.reading = (shared.reading || 0) + 1, [col, row] = cellOf(at);
    const rows = await about(tiles, col, row, at);
    if (turn !== shared.reading) return rows;
    const list = element('dl', {});
    for (const [what, value, id] of rows) {
      const dd = element('dd', {}, value);
      dd.dataset.of = id;
      list.append(element('div', {}, element('dt', {}, what), dd));
    }
    const drawn = await waysOf(col, row, name);
    if (turn !== shared.reading) return rows;
    const told = targetsNamed(name), reach = map.reaches[shows[0].of.reach];
    const along = reach && { ...await thereAndBack(tiles, reach, trip.ways), reach, name: name || 'the picked place', home: trip.ways.home ? ' and home' : trip.ways.walk ? ' and the walk home' : '' };
    if (turn !== shared.reading) return rows;
    plots.picked(along);
    $('place').dataset.name = name || '';
    $('place').replaceChildren(element('h3', {}, name || 'Picked place'), element('p', { className: 'note' }, where(at) + '; row ' + row + ', column ' + col), list, ...drawn, ...told);
    $('live').textContent = (name ? name + ', ' : '') + where(at) + ': ' + rows.map(r => r[0] + ' ' + r[1]).join('; ');
    root.dataset.picked = row + ',' + col;
    changed();
    return rows;
  };

  // The quickest ways of the chosen question from the base to a cell and home again.
  const waysOf = async (col, row, name) => {
    const r = map.reaches[shows[0].of.reach], told = [];
    trip.lines = [];
    if (!r) return told;
    const source = cellOf([r.x - map.west, map.north - r.y]);
    trip.ways = {};
    for (const [id, what, says, stroke, dash] of [[r.outStep, 'out', 'quickest way out', '#00507d', []], [r.homeStep, 'home', 'quickest way home', '#8f3e00', [9, 5]],
      [r.walkStep, 'walk', 'walk home', '#4b2e83', [2, 4]], [r.fetchStep, 'fetch', 'vehicle that fetches the crew', '#006b4f', [14, 3, 3, 3]], [r.rideStep, 'ride', 'its ride home', '#6b0036', [5, 3]]]) {
      const way = id && await tiles.way(id, col, row, source);
      if (!way || way.length < 2) continue;
      trip.ways[what] = way;
      const points = way.map(([c, q]) => [(c + 0.5) * map.dx, (q + 0.5) * map.dy]);
      let m = 0;
      for (let i = 1; i < points.length; i++) m += Math.hypot(points[i][0] - points[i - 1][0], points[i][1] - points[i - 1][1]);
      trip.lines.push({ key: what, says, parts: [points], stroke, width: 3.2, dash });
      told.push(says + ' ' + (m / 1000).toFixed(2) + ' km');
    }
    if (told.length) {
      return [element('p', { className: 'note' }, 'Ways of ' + r.name + ', length on the map: ' + told.join(', ')
        + '. A trip that keeps every limit may have to take another.')];
    }
    const why = r.waysLeftOut ? 'The page has no room for the ways of ' + r.name + ' (report.max_mb).'
      : r.outStep ? '' : 'The page shows but some of the cells, which steps of a way cannot be followed on.';
    return why ? [element('p', { className: 'note' }, why + ' This command tells the ways to a place: '), element('code', {}, map.explain.replace(/PLACE$/, name ? "'" + name + "'" : 'X Y'))] : [];
  };

  // What the job's tables say of a target: the trip itself, with its own stay.
  const targetsNamed = name => map.reaches.flatMap(r => r.targets.filter(t => t.name === name)
    .map(t => element('p', { className: 'note' }, 'As a target of ' + r.name + ': ' + (t.reached ? 'reached, ' + t.told : 'not reached, ' + t.end) + '.')));

  const go = p => {
    const v = views[0], [x, y] = v.toScreen(p.mx, p.my);
    if (x < 60 || y < 60 || x > v.w - 60 || y > v.h - 60) {
      shared.fitted = false;
      shared.x = p.mx;
      shared.y = p.my;
    }
    shared.pick([p.mx, p.my], p.name);
  };

  const changed = () => {
    legend(two() ? shows : shows.slice(0, 1), map, $('map-legend'));
    shared.changed();
  };
  const two = () => $('board').classList.contains('two');

  const plots = new Plots(map, shared, tiles, shows[0], { go: name => go(spots.find(s => s.name === name)) });
  const views = [];
  controls(shows[0], $('layers'), 'Layers', kind => {
    plots.refresh();
    if (kind === 'reach' && shared.picked) read(shared.picked, $('place').dataset.name);
    changed();
  });
  views.push(new MapView($('map-1'), shared, tiles, shows[0]));

  $('two').addEventListener('click', () => {
    $('board').classList.toggle('two');
    $('two').setAttribute('aria-pressed', two());
    if (two() && views.length < 2) {
      shows.push(new Show(map, fixed, spots, () => trip.lines, map.reaches.length ? 'bands' : 'slope'));
      controls(shows[1], $('layers-2'), 'Layers of the second map', () => changed());
      views.push(new MapView($('map-2'), shared, tiles, shows[1]));
    }
    changed();
  });
  $('nearer').addEventListener('click', () => shared.zoom(1.5, shared.picked || [shared.x, shared.y]));
  $('farther').addEventListener('click', () => shared.zoom(1 / 1.5, shared.picked || [shared.x, shared.y]));
  $('whole').addEventListener('click', () => {
    shared.whole(views[0]);
    shared.changed();
  });
  $('go').addEventListener('submit', e => {
    e.preventDefault();
    const at = [+$('go-east').value - map.west, map.north - +$('go-north').value];
    if (!(at[0] >= 0 && at[1] >= 0 && at[0] < shared.W && at[1] < shared.H)) {
      shared.say('That place lies outside the map: E ' + map.west.toFixed(1) + ' to ' + (map.west + shared.W).toFixed(1)
        + ' m, N ' + (map.north - shared.H).toFixed(1) + ' to ' + map.north.toFixed(1) + ' m.');
      return;
    }
    shared.fitted = false;
    [shared.x, shared.y] = at;
    shared.pick(at);
  });
  for (const p of spots) {
    const b = element('button', { type: 'button' }, p.name);
    b.addEventListener('click', () => go(p));
    $('place-list').append(b);
  }
  document.querySelectorAll('[data-show]').forEach(b => b.addEventListener('click', () => {
    const [kind, n] = b.dataset.show.split(' ');
    shows[0].strength = { relief: 1, [{ vehicle: 'class', reach: 'class', corridor: 'excess' }[kind]]: 0.75 };
    shows[0].choose(kind, +n);
    $('map-1').scrollIntoView({ block: 'nearest' });
  }));
  shared.clear();
  // Paper has what the screen has drawn, finer; where tiles are missing still, the still picture.
  window.addEventListener('beforeprint', () => {
    for (const v of views) v.print();
    root.classList.toggle('mapped', root.dataset.script === 'ready' && views.every(v => !v.w || !v.missing));
  });
  window.addEventListener('afterprint', () => {
    for (const v of views) v.printed();
    root.classList.toggle('mapped', root.dataset.script === 'ready');
  });
  window.scarpway = { map, plots, colours: layer => coloursOf(layer, map.ramp), tiles, shared, views, shows, trip, read };
};
