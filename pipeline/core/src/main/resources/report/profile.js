// Height along the chosen corridor; its hair line and the cross on the map are one.
class Profile {
  static W = 900;
  static H = 170;
  static LEFT = 58;
  static FOOT = 26;

  constructor(map, svg, shared, say) {
    Object.assign(this, { map, svg, shared, say, at: 0 });
    svg.setAttribute('viewBox', '0 0 ' + Profile.W + ' ' + Profile.H);
    const here = e => {
      const b = svg.getBoundingClientRect();
      return (e.clientX - b.left) / b.width * Profile.W;
    };
    svg.addEventListener('pointermove', e => this.follow(this.nearest(here(e))));
    svg.addEventListener('keydown', e => {
      const step = { ArrowRight: 1, ArrowLeft: -1 }[e.key];
      if (!step || !this.rows.length) return;
      e.preventDefault();
      this.follow(Math.max(0, Math.min(this.rows.length - 1, this.at + step * (e.shiftKey ? 1 : 10))));
    });
  }

  // Draws the profile of a corridor.
  choose(corridor) {
    this.rows = corridor.profile;
    this.points = pairs(corridor.line);
    if (!this.rows.length) return;
    const heights = this.rows.map(r => r[1]), low = Math.min(...heights), high = Math.max(...heights, low + 1);
    const length = this.rows[this.rows.length - 1][0], right = Profile.W - 10, foot = Profile.H - Profile.FOOT;
    this.x = m => Profile.LEFT + (right - Profile.LEFT) * m / length;
    this.y = h => 8 + (foot - 8) * (high - h) / (high - low);
    const parts = [], step = [5, 10, 20, 50, 100, 200, 500, 1000].find(s => (high - low) / s <= 5) || 2000;
    for (let h = Math.ceil(low / step) * step; h <= high; h += step) {
      parts.push('<path class="rule" d="M' + Profile.LEFT + ' ' + this.y(h) + 'H' + right + '"/><text x="' + (Profile.LEFT - 6) + '" y="' + (this.y(h) + 4) + '" text-anchor="end">' + h + ' m</text>');
    }
    const apart = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50].find(s => length / 1000 / s <= 10) || 100;
    for (let k = 0; k * apart * 1000 <= length; k++) {
      parts.push('<text x="' + this.x(k * apart * 1000) + '" y="' + (Profile.H - 8) + '" text-anchor="middle">' + +(k * apart).toFixed(1) + ' km</text>');
    }
    const line = this.rows.map(r => this.x(r[0]).toFixed(1) + ' ' + this.y(r[1]).toFixed(1)).join('L');
    this.svg.innerHTML = parts.join('') + '<path class="c1" d="M' + line + '"/><path class="hair" d=""/>';
    this.svg.setAttribute('aria-label', 'Height along ' + corridor.name + ', ' + (length / 1000).toFixed(2) + ' km, between ' + low.toFixed(0) + ' and ' + high.toFixed(0) + ' m; arrow keys move along it');
    this.name = corridor.name;
    this.say('Height along ' + corridor.name);
  }

  nearest(x) {
    let best = 0;
    this.rows.forEach((r, i) => {
      if (Math.abs(this.x(r[0]) - x) < Math.abs(this.x(this.rows[best][0]) - x)) best = i;
    });
    return best;
  }

  // Goes to a point of the profile, and with it the cross on the map.
  follow(i) {
    this.at = i;
    this.shared.point(this.points[i]);
  }

  // Follows the cross on the map where it is near the line.
  cursor(p) {
    if (!this.rows || !this.rows.length) return;
    let best = -1, least = 30 / this.shared.scale;
    if (p) {
      this.points.forEach(([x, y], i) => {
        const d = Math.hypot(x - p[0], y - p[1]);
        if (d < least) {
          least = d;
          best = i;
        }
      });
    }
    const hair = this.svg.querySelector('.hair');
    hair.setAttribute('d', best < 0 ? '' : 'M' + this.x(this.rows[best][0]) + ' 4V' + (Profile.H - Profile.FOOT));
    const [m, h, s, kwh] = best < 0 ? [] : this.rows[best];
    if (best >= 0) this.at = best;
    this.say('Height along ' + this.name + (best < 0 ? ''
      : ': ' + (m / 1000).toFixed(2) + ' km, ' + h.toFixed(0) + ' m, ' + lasting(s / 60) + ' driven, ' + kwh.toFixed(2) + ' kWh'));
  }
}
