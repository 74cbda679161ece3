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

// A link into the appendix opens it.
const unfold = () => {
  const target = location.hash.length > 1 && document.getElementById(location.hash.slice(1));
  const fold = target && target.closest('details');
  if (fold) {
    fold.open = true;
    target.scrollIntoView();
  }
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
    probe.onload = () => {
      e.dataset.width = String(probe.naturalWidth);
      probe.naturalWidth > 0 ? good++ : bad++;
      count();
    };
    probe.onerror = () => {
      e.dataset.width = '0';
      bad++;
      count();
    };
    probe.src = e.getAttribute('href') || e.getAttribute('src');
  });
  window.addEventListener('load', () => {
    const outside = performance.getEntriesByType('resource').filter(r => !r.name.startsWith('data:'));
    root.dataset.requests = String(outside.length);
    root.dataset.overflow = String(root.scrollWidth > root.clientWidth);
  });
};

document.addEventListener('DOMContentLoaded', () => {
  root.classList.add('scripted');
  if (document.getElementById('map-data')) board();
  unfold();
  window.addEventListener('hashchange', unfold);
  if (location.hash === '#selftest') selfTest();
});
