// The strip of plots below the map: of what the map shows, tied to its cross and to its ground.
const KINDS = { trip: ['there and back', 'reach'], way: ['along the corridor', 'corridor'], slope: ['slope', 'vehicle'], budget: ['area by budget', 'reach'], sites: ['ranking', ''] };

const NOT_TOLD = 'Not told for this question: it limits neither time nor energy, or its home rule holds a stop on the way against more than time.';

// Whole limit and what of it may be planned.
const limitOf = (most, kept, factor) => most ? { most: most * factor, planned: (most - (kept || 0)) * factor } : null;

class Plots {
  constructor(map, shared, tiles, show, hooks) {
    const $ = id => document.getElementById(id);
    Object.assign(this, { map, shared, tiles, show, hooks, box: $('plot'), said: $('plot-said'), strip: $('plots'), bars: [], at: -1 });
    const has = { way: map.corridors.length, trip: map.reaches.some(r => r.outStep) };
    this.along = has.way || has.trip ? new Along($('profile'), shared, text => this.say(text)) : null;
    this.kinds = Object.keys(KINDS).filter(k => k in has ? has[k] : document.querySelector('[data-plot^="' + k + '"]'));
    this.strip.hidden = !this.kinds.length;
    for (const k of this.kinds) {
      const b = element('button', { type: 'button' }, KINDS[k][0]);
      b.dataset.kind = k;
      b.addEventListener('click', () => {
        this.chosen = true;
        this.choose(k);
      });
      $('plot-kinds').append(b);
    }
    this.choose(has.way ? 'way' : this.kinds[0]);
  }

  say(text) {
    this.said.textContent = text;
  }

  drawsAlong() {
    return this.kind === 'way' || this.kind === 'trip';
  }

  choose(kind) {
    this.kind = kind;
    for (const b of document.querySelectorAll('#plot-kinds button')) b.setAttribute('aria-pressed', b.dataset.kind === kind);
    document.getElementById('plot-way').hidden = !this.drawsAlong();
    this.strip.classList.toggle('way', this.drawsAlong());
    this.refresh();
  }

  // Shows the plot of the vehicle, reach or corridor that the map shows.
  refresh() {
    this.clear();
    this.box.replaceChildren();
    this.bars = [];
    const { kind, show } = this;
    if (!kind) return;
    if (kind === 'way') this.ofCorridor(this.map.corridors[show.of.corridor]);
    else if (kind === 'trip') this.ofTrip();
    else this.ofPage(document.querySelector('[data-plot="' + kind + ' ' + (show.of[KINDS[kind][1]] || 0) + '"]'));
  }

  ofCorridor(c) {
    this.along.draw({ name: 'Along ' + c.name + ', stays included', rows: c.profile.map(r => r.map(v => v === null ? NaN : v)), points: pairs(c.line), turn: -1,
      time: limitOf(c.lifeS, c.lifeSKept, 1 / 3600), energy: limitOf(c.batteryJ, c.batteryJKept, 1 / 3.6e6) });
  }

  // A place was picked; its way appears unless the reader keeps to another plot.
  picked(trip) {
    this.trip = trip;
    if (!trip || !this.kinds.includes('trip')) {
      if (this.kind === 'trip') this.refresh();
    } else if (this.chosen) {
      if (this.kind === 'trip') this.refresh();
    } else this.choose('trip');
  }

  ofTrip() {
    const { trip } = this;
    if (!trip || !trip.rows.length) {
      this.along.draw({ rows: [] });
      this.say(trip ? 'No way of ' + trip.reach.name + ' leads to ' + trip.name + '.' : 'Pick a place: height, time and energy along its quickest way out and home appear here.');
      return;
    }
    const r = trip.reach;
    this.along.draw({ ...trip, name: 'Quickest way of ' + r.name + ' to ' + trip.name + (trip.home || ', way out alone'),
      time: limitOf(r.timeS, r.timeSKept, 1 / 3600), energy: limitOf(r.energyJ, r.energyJKept, 1 / 3.6e6) });
  }

  // A drawing of the page's own parts.
  ofPage(part) {
    this.title = part ? part.querySelector('h4').textContent : NOT_TOLD;
    this.say(this.title);
    if (!part) return;
    const svg = part.querySelector('svg').cloneNode(true);
    svg.setAttribute('tabindex', '0');
    this.box.append(svg);
    this.bars = [...svg.querySelectorAll('.bar')];
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
    this.say(bar.dataset.says);
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
    if (this.at < 0) return;
    this.at = -1;
    this.light(null);
    this.say(this.title);
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
    const { kind } = this, finds = { slope: this.barOfSlope, budget: this.barOfTime }[kind];
    if (this.drawsAlong()) this.along.cursor(p);
    if (!finds || this.at >= 0) return;
    const turn = this.turn = (this.turn || 0) + 1;
    const bar = p && await finds.call(this, Math.floor(p[0] / this.map.dx), Math.floor(p[1] / this.map.dy));
    if (turn !== this.turn || kind !== this.kind || this.at >= 0) return;
    this.light(bar || null);
    this.say(bar ? bar.dataset.says : this.title);
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
