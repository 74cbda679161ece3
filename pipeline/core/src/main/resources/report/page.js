(() => {
  'use strict';
  const root = document.documentElement;
  const note = (name, text) => { root.dataset[name] = (root.dataset[name] || '') + text + ' | '; };
  window.addEventListener('error', e => note('errors', e.message || 'resource'), true);
  window.addEventListener('unhandledrejection', e => note('errors', String(e.reason)));
  document.addEventListener('securitypolicyviolation', e => note('blocked', e.violatedDirective + ' ' + e.blockedURI));

  // Longitude and latitude between lattice points, by unit vectors so that a pole or the date line does no harm.
  const lattice = text => {
    if (!text) return null;
    const nodes = text.split(' ').map(pair => {
      const [lon, lat] = pair.split(',').map(v => Number(v) * Math.PI / 180);
      return [Math.cos(lat) * Math.cos(lon), Math.cos(lat) * Math.sin(lon), Math.sin(lat)];
    });
    const n = Math.sqrt(nodes.length) - 1;
    return (fx, fy) => {
      const c = Math.min(n - 1, Math.floor(fx * n)), r = Math.min(n - 1, Math.floor(fy * n));
      const u = fx * n - c, v = fy * n - r, at = (dr, dc) => nodes[(r + dr) * (n + 1) + c + dc];
      const [x, y, z] = [0, 1, 2].map(k =>
        (1 - v) * ((1 - u) * at(0, 0)[k] + u * at(0, 1)[k]) + v * ((1 - u) * at(1, 0)[k] + u * at(1, 1)[k]));
      return [Math.atan2(y, x) * 180 / Math.PI, Math.atan2(z, Math.hypot(x, y)) * 180 / Math.PI];
    };
  };

  const degrees = (v, plus, minus) => Math.abs(v).toFixed(5) + '° ' + (v < 0 ? minus : plus);

  const readOut = () => {
    const frame = document.getElementById('main'), out = document.getElementById('read-out');
    const d = document.getElementById('cells').dataset;
    const west = +d.west, north = +d.north, dx = +d.dx, dy = +d.dy, rows = +d.rows, cols = +d.cols;
    const lonLat = lattice(d.lattice);
    const cross = document.createElement('i');
    cross.className = 'cross';
    cross.hidden = true;
    frame.append(cross);
    let fx = 0.5, fy = 0.5;
    const show = () => {
      const x = west + fx * cols * dx, y = north - fy * rows * dy;
      const row = Math.min(rows - 1, Math.floor(fy * rows)), col = Math.min(cols - 1, Math.floor(fx * cols));
      const ll = lonLat ? lonLat(fx, fy) : null;
      out.textContent = 'E ' + x.toFixed(1) + ' m, N ' + y.toFixed(1) + ' m; row ' + row + ', column ' + col
        + (ll ? '; ' + degrees(ll[1], 'N', 'S') + ', ' + degrees(ll[0], 'E', 'W') : '');
    };
    frame.addEventListener('pointermove', e => {
      const box = frame.getBoundingClientRect();
      fx = Math.min(1, Math.max(0, (e.clientX - box.left) / box.width));
      fy = Math.min(1, Math.max(0, (e.clientY - box.top) / box.height));
      cross.hidden = true;
      show();
    });
    frame.tabIndex = 0;
    frame.setAttribute('role', 'application');
    frame.setAttribute('aria-label', 'Map; arrow keys move a cross, with shift cell by cell');
    frame.setAttribute('aria-describedby', 'read-out');
    const turn = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
    frame.addEventListener('keydown', e => {
      const way = turn[e.key];
      if (!way) return;
      e.preventDefault();
      fx = Math.min(1, Math.max(0, fx + way[0] * (e.shiftKey ? 1 / cols : 0.02)));
      fy = Math.min(1, Math.max(0, fy + way[1] * (e.shiftKey ? 1 / rows : 0.02)));
      cross.hidden = false;
      cross.style.left = 100 * fx + '%';
      cross.style.top = 100 * fy + '%';
      out.setAttribute('aria-live', 'polite');
      show();
    });
  };

  const controls = () => {
    const frame = document.getElementById('main'), thematic = frame.querySelector('.thematic');
    const choose = id => {
      thematic.setAttribute('href', '#' + id);
      document.querySelectorAll('[data-legend]').forEach(l => { l.hidden = l.dataset.legend !== id; });
    };
    document.querySelectorAll('input[name=layer]').forEach(i => {
      if (i.checked) choose(i.value);
      i.addEventListener('change', () => choose(i.value));
    });
    const opacity = document.getElementById('opacity');
    const fade = () => { thematic.style.opacity = opacity.value / 100; };
    opacity.addEventListener('input', fade);
    fade();
    document.querySelectorAll('[data-shows]').forEach(box => {
      const apply = () => frame.querySelectorAll('.' + box.dataset.shows).forEach(e => {
        e.style.display = box.checked ? '' : 'none';
      });
      box.addEventListener('change', apply);
      apply();
    });
  };

  // A link into the appendix opens it.
  const unfold = () => {
    const target = location.hash.length > 1 && document.getElementById(location.hash.slice(1));
    const fold = target && target.closest('details');
    if (fold) { fold.open = true; target.scrollIntoView(); }
  };

  // With #selftest in the address every image is decoded once and its width is noted beside it.
  const selfTest = () => {
    let good = 0, bad = 0;
    const count = () => {
      root.dataset.imagesDecoded = String(good);
      root.dataset.imagesBroken = String(bad);
    };
    count();
    document.querySelectorAll('image, img').forEach(e => {
      const probe = new Image();
      probe.onload = () => { e.dataset.width = String(probe.naturalWidth); probe.naturalWidth > 0 ? good++ : bad++; count(); };
      probe.onerror = () => { e.dataset.width = '0'; bad++; count(); };
      probe.src = e.getAttribute('href') || e.getAttribute('src');
    });
    window.addEventListener('load', () => {
      const outside = performance.getEntriesByType('resource').filter(r => !r.name.startsWith('data:'));
      root.dataset.requests = String(outside.length);
      root.dataset.overflow = String(root.scrollWidth > root.clientWidth);
      const layers = document.querySelectorAll('input[name=layer]');
      layers[layers.length - 1].click();
      root.dataset.chosen = document.querySelector('#main .thematic').getAttribute('href');
      const frame = document.getElementById('main');
      frame.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowRight' }));
      root.dataset.readOut = document.getElementById('read-out').textContent;
    });
  };

  document.addEventListener('DOMContentLoaded', () => {
    root.classList.add('scripted');
    controls();
    readOut();
    unfold();
    window.addEventListener('hashchange', unfold);
    if (location.hash === '#selftest') selfTest();
    root.dataset.script = 'ready';
  });
})();
