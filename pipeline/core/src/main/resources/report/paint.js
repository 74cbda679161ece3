// Colours and textures of the layers.
const INK = {
  RISING: (x, y, p, w) => (x + y) % p < w,
  FALLING: (x, y, p, w) => (x - y + 1000 * p) % p < w,
  DOTS: (x, y, p) => (x % p - p / 2) ** 2 + (y % p - p / 2) ** 2 < p * p / 22,
  LEVEL: (x, y, p, w) => y % p < w,
  UPRIGHT: (x, y, p, w) => x % p < w,
  MESH: (x, y, p, w) => INK.RISING(x, y, p, w) || INK.FALLING(x, y, p, w),
  GRATE: (x, y, p, w) => INK.LEVEL(x, y, p, w) || INK.UPRIGHT(x, y, p, w),
};

const PERIOD = 8;

const canvasOf = (w, h) => {
  const c = document.createElement('canvas');
  c.width = w;
  c.height = h;
  return c;
};

// One period of a texture, for screens of so many device pixels per pixel.
const texture = (name, px) => {
  const p = Math.round(PERIOD * px), c = canvasOf(p, p), g = c.getContext('2d');
  g.fillStyle = '#101418';
  for (let y = 0; y < p; y++) {
    for (let x = 0; x < p; x++) if (INK[name](x, y, p, Math.max(1, p / 6))) g.fillRect(x, y, 1, 1);
  }
  return c;
};

const rgbOf = hex => [1, 3, 5].map(i => parseInt(hex.substr(i, 2), 16));

// Red, green, blue and alpha of each number of a layer.
const coloursOf = (layer, ramp) => {
  if (layer.colours) return layer.colours;
  const of = layer.colours = n => table[n] || (table[n] = colour(n)), table = [[0, 0, 0, 0]];
  const classes = new Map((layer.classes || []).map(c => [c.code, [...rgbOf(c.colour), c.alpha]]));
  const colour = n => {
    if (layer.look === 'brush') {
      const v = layer.from + n * layer.step;
      return v >= layer.low && v < layer.high ? [0, 0, 0, 255] : [0, 0, 0, 0];
    }
    if (layer.look === 'classes') return classes.get(n) || [0, 0, 0, 0];
    if (layer.look === 'relief') {
      const grey = 70 + Math.round(178 * (n - 1) / 31);
      return [grey, grey, grey, 255];
    }
    const share = (layer.from + n * layer.step - layer.low) / (layer.high - layer.low);
    const i = Math.max(0, Math.min(63, Math.floor(share * 64)));
    return [...rgbOf('#' + ramp.substr(6 * i, 6)), 255];
  };
  return of;
};

// A tile as a picture, and one mask for each texture in it.
const painted = (layer, ramp, t) => {
  const picture = canvasOf(t.w, t.h), g = picture.getContext('2d'), image = g.createImageData(t.w, t.h);
  const of = coloursOf(layer, ramp), masks = {}, textures = {};
  for (const c of layer.classes || []) if (c.pattern !== 'PLAIN') textures[c.code] = c.pattern;
  for (let i = 0; i < t.cells.length; i++) {
    const n = t.cells[i], colour = of(n);
    image.data.set(colour, 4 * i);
    const name = textures[n];
    if (name) {
      const m = masks[name] || (masks[name] = new ImageData(t.w, t.h));
      m.data[4 * i + 3] = 255;
    }
  }
  g.putImageData(image, 0, 0);
  for (const name in masks) {
    const c = canvasOf(t.w, t.h);
    c.getContext('2d').putImageData(masks[name], 0, 0);
    masks[name] = c;
  }
  return { picture, masks };
};
