/** What the page is told; lengths in pixels, faces in inches. */
export type OldPlan = {
  readonly width: number;
  readonly height: number;
  readonly scale: number;
  readonly left: number;
  readonly axis: number;
  readonly skew: number;
  readonly letters: string;
  readonly faces: readonly number[];
};

/**
 * Draws the plan in a page and gives it as a WebP data URL. It runs in the browser, so it has all it needs within
 * itself: ink that is uneven, paper that has yellowed and was folded once, specks, and a sheet that lay askew.
 */
export async function drawOldPlan(plan: OldPlan): Promise<string> {
  const { width, height, scale, left, axis } = plan;
  const font = await new FontFace('plan', `url(${plan.letters})`).load();
  document.fonts.add(font);
  let seed = 20310401;
  const random = () => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    return seed / 2 ** 32;
  };
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [width, height];
  const pen = canvas.getContext('2d');
  if (!pen) throw new Error('no canvas');
  const x = (inches: number) => left + inches * scale;

  const paper = () => {
    const tone = pen.createRadialGradient(
      width * 0.55,
      height * 0.4,
      100,
      width / 2,
      height / 2,
      width * 0.7,
    );
    tone.addColorStop(0, '#f1e8d0');
    tone.addColorStop(1, '#dccaa2');
    pen.fillStyle = tone;
    pen.fillRect(0, 0, width, height);
    pen.fillStyle = 'rgb(120 90 50 / 10%)';
    pen.fillRect(width * 0.62, 0, 5, height);
  };
  /** A line by short strokes that shake a little and carry more or less ink. */
  const line = (weight: number, x0: number, y0: number, x1: number, y1: number, dash: number[] = []) => {
    const steps = Math.max(1, Math.round(Math.hypot(x1 - x0, y1 - y0) / 14));
    pen.setLineDash(dash);
    if (dash.length > 0) return stroke(weight, x0, y0, x1, y1);
    for (let i = 0; i < steps; i += 1) {
      const [a, b] = [i / steps, (i + 1.1) / steps];
      const [dx, dy] = [x1 - x0, y1 - y0];
      stroke(weight * (0.85 + random() * 0.3), x0 + a * dx, y0 + a * dy, x0 + b * dx, y0 + b * dy);
    }
  };
  const stroke = (weight: number, x0: number, y0: number, x1: number, y1: number) => {
    pen.lineWidth = weight;
    pen.strokeStyle = `rgb(38 32 30 / ${Math.round(70 + random() * 25)}%)`;
    pen.beginPath();
    pen.moveTo(x0 + random() * 0.8, y0 + random() * 0.8);
    pen.lineTo(x1 + random() * 0.8, y1 + random() * 0.8);
    pen.stroke();
  };
  const words = (text: string, at: number, y: number, size = 30, align: CanvasTextAlign = 'center') => {
    pen.font = `${size}px plan`;
    pen.textAlign = align;
    pen.fillStyle = 'rgb(38 32 30 / 88%)';
    pen.fillText(text, at, y);
  };
  const arrow = (at: number, y: number, way: number) => {
    pen.fillStyle = 'rgb(38 32 30 / 88%)';
    pen.beginPath();
    pen.moveTo(at, y);
    pen.lineTo(at + way * 20, y - 5);
    pen.lineTo(at + way * 20, y + 5);
    pen.fill();
  };
  const profile = () => {
    const radii = [0.25, 0.3125, 0.4375, 0.3125, 0.25].map((r) => r * scale);
    radii.forEach((r, k) => {
      const [a, b] = [x(plan.faces[k] ?? 0), x(plan.faces[k + 1] ?? 0)];
      for (const side of [-1, 1]) line(4, a, axis + side * r, b, axis + side * r);
    });
    plan.faces.forEach((face, k) => {
      const r = Math.max(radii[k - 1] ?? 0, radii[k] ?? 0);
      line(4, x(face), axis - r, x(face), axis + r);
    });
    line(1.8, x(0) - 70, axis, x(plan.faces.at(-1) ?? 0) + 70, axis, [46, 8, 8, 8]);
  };
  const dimension = (from: number, to: number, y: number, text: string, beside = 0) => {
    const [a, b] = [x(plan.faces[from] ?? 0), x(plan.faces[to] ?? 0)];
    for (const at of [a, b]) line(1.6, at, axis + 160, at, y + 12);
    const out = b - a < 110 ? -1 : 1;
    line(1.6, out < 0 ? a - 60 : a, y, out < 0 ? b + 60 : b, y);
    arrow(a, y, out);
    arrow(b, y, -out);
    const at = beside === 0 ? (a + b) / 2 : b + beside;
    const wide = text.length * 15 + 16;
    pen.fillStyle = '#ebdfc2';
    pen.fillRect(at - wide / 2, y - 18, wide, 36);
    words(text, at, y + 11);
  };
  const diameter = (k: number, text: string, up: number) => {
    const at = (x(plan.faces[k] ?? 0) + x(plan.faces[k + 1] ?? 0)) / 2;
    const radius = [0.25, 0.3125, 0.4375, 0.3125, 0.25][k] ?? 0;
    line(1.6, at, axis - radius * scale, at + 36, axis - up);
    words(text, at + 42, axis - up + 8, 30, 'left');
  };
  const lettering = () => {
    diameter(0, '.500 dia', 150);
    diameter(1, '5/8 dia', 165);
    diameter(2, '7/8 dia', 190);
    diameter(3, '5/8 dia', 165);
    diameter(4, '.500 dia', 150);
    dimension(0, 1, 540, '3/4');
    dimension(2, 3, 540, '1/4', 96);
    dimension(4, 5, 540, '5/8');
    dimension(0, 2, 600, '1 7/8');
    dimension(0, 5, 662, '4 3/8');
    words('GRINDSTONE SPINDLE', 190, 762, 38, 'left');
    words('mild steel   1 off   sizes in inches', 1290, 762, 26, 'right');
    for (const [a, b, c, d] of [
      [40, 30, width - 40, 30],
      [40, height - 22, width - 40, height - 22],
      [40, 30, 40, height - 22],
      [width - 40, 30, width - 40, height - 22],
    ] as const)
      line(2.4, a, b, c, d);
  };
  /** Grain, specks, and places where the print did not take. */
  const wear = () => {
    for (let i = 0; i < 500; i += 1) {
      pen.fillStyle = random() < 0.6 ? 'rgb(60 45 30 / 35%)' : 'rgb(240 230 205 / 70%)';
      pen.beginPath();
      pen.arc(random() * width, random() * height, 0.5 + random() * 1.6, 0, 7);
      pen.fill();
    }
    const pixels = pen.getImageData(0, 0, width, height);
    for (let i = 0; i < pixels.data.length; i += 4) {
      const grain = (random() - 0.5) * 16;
      for (let c = 0; c < 3; c += 1) pixels.data[i + c] = (pixels.data[i + c] ?? 0) + grain;
    }
    pen.putImageData(pixels, 0, 0);
  };

  pen.fillStyle = '#cfc3a8';
  pen.fillRect(0, 0, width, height);
  pen.save();
  pen.translate(width / 2, height / 2);
  pen.rotate((plan.skew * Math.PI) / 180);
  pen.translate(-width / 2, -height / 2);
  paper();
  profile();
  lettering();
  pen.restore();
  wear();
  return canvas.toDataURL('image/webp', 0.55);
}
