// Mouse, fingers and keys on a map. The wheel and one finger belong to the page until the map is held.
const WAYS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

const listen = view => {
  const r = view.root, s = view.shared, fingers = new Map();
  let moved = 0, pinch = null;
  const here = e => {
    const b = r.getBoundingClientRect();
    return [e.clientX - b.left, e.clientY - b.top];
  };
  const held = () => document.activeElement === r;

  r.addEventListener('pointerdown', e => {
    if (e.button) return;
    fingers.set(e.pointerId, here(e));
    pinch = null;
    if (fingers.size === 1) moved = 0;
    if (e.pointerType !== 'touch' || held()) r.setPointerCapture(e.pointerId);
  });
  r.addEventListener('pointermove', e => {
    const p = here(e), q = fingers.get(e.pointerId);
    if (!q) {
      s.point(view.toGround(...p));
      return;
    }
    fingers.set(e.pointerId, p);
    moved += Math.hypot(p[0] - q[0], p[1] - q[1]);
    if (e.pointerType === 'touch' && !held()) return;
    if (fingers.size === 1) {
      s.x -= (p[0] - q[0]) / s.scale;
      s.y -= (p[1] - q[1]) / s.scale;
      s.fitted = false;
      s.changed();
      return;
    }
    const [a, b] = [...fingers.values()];
    const now = { apart: Math.hypot(a[0] - b[0], a[1] - b[1]), at: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] };
    if (pinch) {
      s.x -= (now.at[0] - pinch.at[0]) / s.scale;
      s.y -= (now.at[1] - pinch.at[1]) / s.scale;
      s.zoom(now.apart / pinch.apart, view.toGround(...now.at));
    }
    pinch = now;
  });
  const up = e => {
    const p = here(e), was = fingers.delete(e.pointerId);
    pinch = null;
    if (was && e.type === 'pointerup' && moved < 6 && !fingers.size) {
      r.focus({ preventScroll: true });
      s.pick(view.toGround(...p));
    }
  };
  r.addEventListener('pointerup', up);
  r.addEventListener('pointercancel', up);
  r.addEventListener('pointerleave', () => s.point(null));
  r.addEventListener('wheel', e => {
    if (!held() && !e.ctrlKey) {
      s.say('Click the map first, or hold Ctrl, to zoom with the wheel.');
      return;
    }
    e.preventDefault();
    s.zoom(2 ** (-e.deltaY * (e.deltaMode ? 16 : 1) / 300), view.toGround(...here(e)));
  }, { passive: false });
  r.addEventListener('focus', () => r.classList.add('held'));
  r.addEventListener('blur', () => r.classList.remove('held'));
  r.addEventListener('keydown', e => key(e, view, s));
};

const key = (e, view, s) => {
  if (e.ctrlKey || e.altKey || e.metaKey) return;
  const way = WAYS[e.key], at = s.cursor || s.picked || [s.x, s.y];
  if (way) {
    const [dx, dy] = e.shiftKey ? [s.map.dx, s.map.dy] : [24 / s.scale, 24 / s.scale];
    const to = s.inside(at[0] + way[0] * dx, at[1] + way[1] * dy), [x, y] = view.toScreen(...to);
    if (x < 40 || y < 40 || x > view.w - 40 || y > view.h - 40) {
      s.x += way[0] * view.w / 4 / s.scale;
      s.y += way[1] * view.h / 4 / s.scale;
    }
    s.point(to);
    s.tell();
  } else if (e.key === '+' || e.key === '=') s.zoom(1.5, at);
  else if (e.key === '-') s.zoom(1 / 1.5, at);
  else if (e.key === '0') {
    s.whole(view);
    s.changed();
  } else if (e.key === 'Enter' || e.key === ' ') s.pick(at);
  else if (e.key === 'n' || e.key === 'N') s.next(e.shiftKey ? -1 : 1);
  else if (e.key === 'Escape') s.clear();
  else return;
  e.preventDefault();
};
