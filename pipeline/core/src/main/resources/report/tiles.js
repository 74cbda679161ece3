// Layers of the map: tiles cut out of one text in base64 each and inflated one by one.
const bytesOf = text => {
  if (Uint8Array.fromBase64) return Uint8Array.fromBase64(text);
  const chars = atob(text), bytes = new Uint8Array(chars.length);
  for (let i = 0; i < bytes.length; i++) bytes[i] = chars.charCodeAt(i);
  return bytes;
};

const inflated = async bytes => new Uint8Array(await new Response(
  new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw'))).arrayBuffer());

// Undoes the predictor: the median of west, north and their sum less north-west.
const restored = (raw, w, h) => {
  const n = w * h, wide = raw.length === 2 * n, cells = new Uint16Array(n);
  for (let y = 0, i = 0; y < h; y++) {
    for (let x = 0; x < w; x++, i++) {
      const z = wide ? raw[i] | raw[n + i] << 8 : raw[i];
      let guess = 0;
      if (x && y) {
        const west = cells[i - 1], north = cells[i - w], both = west + north - cells[i - w - 1];
        guess = Math.max(Math.min(west, north), Math.min(Math.max(west, north), both));
      } else if (x) guess = cells[i - 1];
      else if (y) guess = cells[i - w];
      cells[i] = guess + (z & 1 ? -((z + 1) >> 1) : z >> 1);
    }
  }
  return cells;
};

class Tiles {
  static MOST = 500;

  constructor(map) {
    this.map = map;
    this.layers = new Map(map.layers.map(l => [l.id, l]));
    this.kept = new Map();
    this.texts = new Map();
  }

  text(id) {
    if (!this.texts.has(id)) this.texts.set(id, document.getElementById('pack-' + id).textContent);
    return this.texts.get(id);
  }

  // Promise of one tile: its size and cells.
  tile(id, k, tx, ty) {
    const key = id + '/' + k + '/' + tx + '/' + ty;
    let t = this.kept.get(key);
    if (!t) t = this.read(id, k, tx, ty);
    else this.kept.delete(key);
    this.kept.set(key, t);
    if (this.kept.size > Tiles.MOST) this.kept.delete(this.kept.keys().next().value);
    return t;
  }

  async read(id, k, tx, ty) {
    const layer = this.layers.get(id), level = layer.levels[k], side = this.map.tile;
    const i = 2 * (ty * level.across + tx), at = level.at[i], n = level.at[i + 1];
    const w = Math.min(side, level.w - tx * side), h = Math.min(side, level.h - ty * side);
    const packed = bytesOf(this.text(id).substring(4 * at / 3, 4 * Math.ceil((at + n) / 3)));
    const raw = await inflated(packed.subarray(0, n));
    return { w, h, cells: layer.plain ? raw : restored(raw, w, h) };
  }

  // The number of a layer at a cell of the ground.
  async number(id, col, row) {
    const layer = this.layers.get(id), side = this.map.tile;
    const k = layer.levels.findIndex(l => l), c = col >> k, r = row >> k;
    const t = await this.tile(id, k, Math.floor(c / side), Math.floor(r / side));
    return t.cells[(r % side) * t.w + c % side];
  }

  // The quantity of a layer at a cell, NaN without data.
  async value(id, col, row) {
    const n = await this.number(id, col, row), layer = this.layers.get(id);
    return n === 0 ? NaN : layer.from + n * layer.step;
  }

  // The way from a cell to the base by steps: cells as column and row; null if there is none.
  async way(id, col, row, source) {
    const { map } = this, side = map.tile, way = [[col, row]];
    let tx = -1, ty = -1, t = null;
    for (let n = 0; n < map.rows * map.cols; n++) {
      const x = Math.floor(col / side), y = Math.floor(row / side);
      if (x !== tx || y !== ty) {
        t = await this.tile(id, 0, x, y);
        tx = x;
        ty = y;
      }
      const code = t.cells[(row % side) * t.w + col % side];
      if (code === map.steps.length + 1) return way;
      if (code === map.steps.length + 2) {
        way.push(source);
        return way;
      }
      const step = map.steps[code - 1];
      if (!step) return null;
      row += step[0];
      col += step[1];
      way.push([col, row]);
    }
    return null;
  }

  // The name of the class of a layer at a cell, empty where it has none.
  async name(id, col, row) {
    const n = await this.number(id, col, row);
    return this.layers.get(id).classes.find(c => c.code === n)?.name || '';
  }
}
