// Names, symbols, scale bar, north arrow and coordinates on a map.
const FONT = '"Noto Sans","DejaVu Sans",Verdana,sans-serif';

const SYMBOLS = {
  base: g => { g.moveTo(0, -8); g.lineTo(8, 0); g.lineTo(0, 8); g.lineTo(-8, 0); g.closePath(); },
  target: g => g.arc(0, 0, 5, 0, 7),
  candidate: g => g.rect(-6, -6, 12, 12),
  found: g => { g.arc(0, 0, 6.5, 0, 7); g.moveTo(-3, 0); g.lineTo(3, 0); g.moveTo(0, -3); g.lineTo(0, 3); },
  pinch: g => { g.moveTo(-6, -5); g.lineTo(6, -5); g.lineTo(0, 6); g.closePath(); },
};

// Names of places first, then those of lines; a name without free room is left out, its symbol stays.
const names = (view, lines) => {
  const { g, w, h } = view, taken = [[w - 64, 6, 58, 58], [6, h - 46, 226, 40], [0, 0, w, 22], [0, 0, 58, h]];
  const apart = (a, b) => a[0] + a[2] <= b[0] || b[0] + b[2] <= a[0] || a[1] + a[3] <= b[1] || b[1] + b[3] <= a[1];
  const free = b => b[0] + b[2] < w - 2 && b[1] + b[3] < h - 2 && taken.every(t => apart(b, t));
  view.boxes = [];
  const write = (text, b, ground) => {
    taken.push(b);
    view.boxes.push({ text, box: b });
    g.fillStyle = ground;
    g.fillRect(...b);
    g.fillStyle = '#17202a';
    g.fillText(text, b[0] + 4, b[1] + b[3] / 2 + 0.5);
  };
  g.font = '600 13px ' + FONT;
  g.textBaseline = 'middle';
  g.textAlign = 'left';
  const seen = [];
  for (const p of view.show.places()) {
    const [x, y] = view.toScreen(p.mx, p.my);
    if (x < -9 || y < -9 || x > w + 9 || y > h + 9) continue;
    seen.push([p, x, y]);
    taken.push([x - 8, y - 8, 16, 16]);
  }
  for (const [p, x, y] of seen) {
    g.save();
    g.translate(x, y);
    g.beginPath();
    SYMBOLS[p.kind](g);
    g.lineWidth = 2;
    g.strokeStyle = '#17202a';
    g.fillStyle = '#fff';
    g.fill();
    g.stroke();
    if (p.kind !== 'pinch') {
      g.beginPath();
      g.arc(0, 0, 1.8, 0, 7);
      g.fillStyle = '#17202a';
      g.fill();
    }
    g.restore();
    const bw = g.measureText(p.name).width + 8, bh = 18;
    const spots = [[11, -9], [-11 - bw, -9], [-bw / 2, -28], [-bw / 2, 10], [9, -26], [9, 8], [-9 - bw, -26], [-9 - bw, 8]];
    const old = view.sides.get(p.name), order = old === undefined ? spots.keys() : [old, ...spots.keys()];
    for (const i of order) {
      const b = [x + spots[i][0], y + spots[i][1], bw, bh];
      if (!free(b)) continue;
      view.sides.set(p.name, i);
      write(p.name, b, 'rgba(255,255,255,.88)');
      break;
    }
  }
  g.font = '600 12px ' + FONT;
  for (const l of lines) {
    const bw = g.measureText(l.name).width + 8, own = [];
    const parts = [...l.parts].sort((a, b) => b.length - a.length).slice(0, 12);
    for (const part of parts) {
      if (own.length >= (l.names || 3)) break;
      for (const share of [0.5, 0.25, 0.75, 0.1, 0.9]) {
        const [x, y] = view.toScreen(...part[Math.floor(share * (part.length - 1))]), b = [x - bw / 2, y - 8, bw, 16];
        if (!free(b) || own.some(o => Math.hypot(o[0] - b[0], o[1] - b[1]) < 260)) continue;
        own.push(b);
        write(l.name, b, '#fff');
        g.strokeStyle = l.stroke;
        g.lineWidth = 1;
        g.strokeRect(...b);
        break;
      }
    }
  }
  cross(view, view.shared.cursor, false);
  cross(view, view.shared.picked, true);
};

const cross = (view, at, framed) => {
  if (!at) return;
  const g = view.g, [x, y] = view.toScreen(...at);
  for (const [colour, width] of [['#fff', 5], ['#000', 2]]) {
    g.strokeStyle = colour;
    g.lineWidth = width;
    g.beginPath();
    for (const [dx, dy] of [[1, 0], [-1, 0], [0, 1], [0, -1]]) {
      g.moveTo(x + 4 * dx, y + 4 * dy);
      g.lineTo(x + 12 * dx, y + 12 * dy);
    }
    if (framed) g.rect(x - 9, y - 9, 18, 18);
    g.stroke();
  }
};

const furniture = view => {
  scaleBar(view);
  northArrow(view);
  ticks(view);
};

const scaleBar = ({ g, h, shared: s }) => {
  const most = 190 / s.scale, power = 10 ** Math.floor(Math.log10(most));
  const length = [5, 2, 1].map(k => k * power).find(v => v <= most), bar = length * s.scale;
  g.fillStyle = 'rgba(255,255,255,.92)';
  g.fillRect(8, h - 44, Math.max(bar + 24, 110), 36);
  g.strokeStyle = g.fillStyle = '#17202a';
  g.lineWidth = 2;
  g.beginPath();
  g.moveTo(18, h - 24);
  g.lineTo(18, h - 16);
  g.lineTo(18 + bar, h - 16);
  g.lineTo(18 + bar, h - 24);
  g.moveTo(18 + bar / 2, h - 20);
  g.lineTo(18 + bar / 2, h - 16);
  g.stroke();
  g.font = '600 13px ' + FONT;
  g.textBaseline = 'alphabetic';
  g.textAlign = 'left';
  g.fillText(length >= 1000 ? length / 1000 + ' km' : length + ' m', 18, h - 28);
};

const northArrow = ({ g, w, map }) => {
  const turn = map.northDeg * Math.PI / 180;
  g.save();
  g.translate(w - 35, 35);
  g.fillStyle = 'rgba(255,255,255,.92)';
  g.beginPath();
  g.arc(0, 0, 26, 0, 7);
  g.fill();
  g.rotate(turn);
  g.fillStyle = '#17202a';
  g.beginPath();
  g.moveTo(0, -10);
  g.lineTo(6, 16);
  g.lineTo(0, 11);
  g.lineTo(-6, 16);
  g.closePath();
  g.fill();
  g.translate(0, -17);
  g.rotate(-turn);
  g.font = '600 12px ' + FONT;
  g.textAlign = 'center';
  g.textBaseline = 'middle';
  g.fillText('N', 0, 0);
  g.restore();
};

const ticks = view => {
  const { g, w, h, map, shared: s } = view;
  g.font = '11px ' + FONT;
  g.textAlign = 'left';
  g.textBaseline = 'alphabetic';
  const step = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50].find(v => v * 1000 * s.scale > 90) || 100;
  const draw = (km, x, y, east) => {
    g.strokeStyle = '#17202a';
    g.lineWidth = 1;
    g.beginPath();
    g.moveTo(x, y);
    g.lineTo(x + (east ? 0 : 6), y + (east ? 6 : 0));
    g.stroke();
    const text = +km.toFixed(2) + (east ? ' km E' : ' km N'), bw = g.measureText(text).width + 4;
    g.fillStyle = 'rgba(255,255,255,.85)';
    g.fillRect(east ? x - bw / 2 : 8, east ? 8 : y - 7, bw, 14);
    g.fillStyle = '#17202a';
    g.fillText(text, east ? x - bw / 2 + 2 : 10, east ? 19 : y + 4);
  };
  const [x0, y0] = view.toGround(0, 0), [x1, y1] = view.toGround(w, h);
  for (let i = Math.ceil((map.west + x0) / 1000 / step); i * step * 1000 < map.west + x1; i++) {
    const x = view.toScreen(i * step * 1000 - map.west, 0)[0];
    if (x > 70 && x < w - 90) draw(i * step, x, 0, true);
  }
  for (let i = Math.ceil((map.north - y1) / 1000 / step); i * step * 1000 < map.north - y0; i++) {
    const y = view.toScreen(0, map.north - i * step * 1000)[1];
    if (y > 30 && y < h - 60) draw(i * step, 0, y, false);
  }
};
