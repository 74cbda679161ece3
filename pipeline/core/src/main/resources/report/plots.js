// The strip of plots below the map: of what the map shows, tied to its cross and to its ground.
const KINDS = { way: ['along the way', 'corridor'], slope: ['slope', 'vehicle'], budget: ['area by budget', 'reach'], sites: ['ranking', ''] };

const NOT_TOLD = 'Not told for this question: it limits neither time nor energy, or its home rule holds a stop on the way against more than time.';

class Plots {
  constructor(map, shared, tiles, show, hooks) {
    const $ = id => document.getElementById(id);
    Object.assign(this, { map, shared, tiles, show, hooks, box: $('plot'), said: $('plot-said'), strip: $('plots') });
    this.profile = map.corridors.length ? new Profile(map, $('profile'), shared, text => this.say('way', text)) : null;
    this.kinds = Object.keys(KINDS).filter(k => k === 'way' ? this.profile : document.querySelector('[data-plot^="' + k + '"]'));
    this.strip.hidden = !this.kinds.length;
    for (const k of this.kinds) {
      const b = element('button', { type: 'button' }, KINDS[k][0]);
      b.dataset.kind = k;
      b.addEventListener('click', () => this.choose(k));
      $('plot-kinds').append(b);
    }
    this.choose(this.kinds[0]);
  }

  say(kind, text) {
    if (kind === this.kind) this.said.textContent = text;
  }

  choose(kind) {
    this.kind = kind;
    for (const b of document.querySelectorAll('#plot-kinds button')) b.setAttribute('aria-pressed', b.dataset.kind === kind);
    document.getElementById('plot-way').hidden = kind !== 'way';
    this.strip.classList.toggle('way', kind === 'way');
    this.refresh();
  }

  // Shows the plot of the vehicle, reach or corridor that the map shows.
  refresh() {
    this.clear();
    this.box.replaceChildren();
    this.bars = [];
    const { kind, show } = this;
    if (!kind) return;
    if (kind === 'way') {
      this.profile.choose(this.map.corridors[show.of.corridor]);
      return;
    }
    const part = document.querySelector('[data-plot="' + kind + ' ' + (show.of[KINDS[kind][1]] || 0) + '"]');
    this.title = part ? part.querySelector('h4').textContent : NOT_TOLD;
    this.say(kind, this.title);
    if (!part) return;
    const svg = part.querySelector('svg').cloneNode(true);
    svg.setAttribute('tabindex', '0');
    this.box.append(svg);
    this.bars = [...svg.querySelectorAll('.bar')];
    this.at = -1;
    svg.addEventListener('pointermove', e => this.take(this.bars.indexOf(e.target.closest('.bar'))));
    svg.addEventListener('pointerleave', () => this.clear());
    svg.addEventListener('blur', () => this.clear());
    svg.addEventListener('click', () => this.enter());
    svg.addEventListener('keydown', e => {
      const step = { ArrowRight: 1, ArrowLeft: -1 }[e.key];
      if (step) this.take(Math.max(0, Math.min(this.bars.length - 1, this.at + step)));
      else if (e.key === 'Enter') this.enter();
      else if (e.key === 'Escape') this.clear();
      else return;
      e.preventDefault();
    });
  }

  // Takes a bar in hand: tells it, and marks its ground on the map.
  take(i) {
    const bar = this.bars[i];
    if (!bar || i === this.at) return;
    this.at = i;
    this.light(bar);
    this.say(this.kind, bar.dataset.says);
    if (this.kind === 'slope') {
      this.show.mark('slope', +bar.dataset.low, +bar.dataset.high);
      this.shared.changed();
    }
  }

  enter() {
    const bar = this.bars[this.at];
    if (bar && bar.dataset.place) this.hooks.go(bar.dataset.place);
  }

  clear() {
    if (!this.bars || this.at < 0) return;
    this.at = -1;
    this.light(null);
    this.say(this.kind, this.title);
    if (this.show.brush) {
      this.show.brush = null;
      this.shared.changed();
    }
  }

  light(bar) {
    for (const b of this.bars) b.classList.toggle('at', b === bar);
  }

  // Follows the cross on the map.
  async cursor(p) {
    if (this.profile && this.kind === 'way') this.profile.cursor(p);
    const { kind } = this, finds = { slope: this.barOfSlope, budget: this.barOfTime }[kind];
    if (!finds || this.at >= 0) return;
    const turn = this.turn = (this.turn || 0) + 1;
    const bar = p && await finds.call(this, Math.floor(p[0] / this.map.dx), Math.floor(p[1] / this.map.dy));
    if (turn !== this.turn || kind !== this.kind || this.at >= 0) return;
    this.light(bar || null);
    this.say(kind, bar ? bar.dataset.says : this.title);
  }

  async barOfSlope(col, row) {
    const slope = await this.tiles.value('slope', col, row);
    return this.bars.find(b => slope >= +b.dataset.low && slope < +b.dataset.high);
  }

  // The least time budget by which a trip to the place may end in time.
  async barOfTime(col, row) {
    const r = this.map.reaches[this.show.of.reach];
    if (!r.timeS) return null;
    const out = await this.tiles.value(r.out, col, row), back = r.back ? await this.tiles.value(r.back, col, row) : 0;
    const share = (60 * (out + back) + r.stayS) / (r.timeS - r.timeSKept);
    return this.bars.find(b => b.dataset.of === 'time' && share <= +b.dataset.share + 1e-6);
  }
}
