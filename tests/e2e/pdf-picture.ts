// A PDF turned into pictures, and the codes in them read back by a decoder that is no code of ours.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import jsQR from 'jsqr';

export interface Picture {
  readonly width: number;
  readonly height: number;
  /** Red, green, blue, opacity. */
  readonly data: Uint8ClampedArray;
  readonly dotsPerMillimetre: number;
}

/** Every page, as a printer of so many dots per inch would put it down. */
export function pdfPictures(base64: string, folder: string, dotsPerInch = 150): readonly Picture[] {
  const own = mkdtempSync(join(folder, 'pictures-'));
  try {
    writeFileSync(join(own, 'paper.pdf'), Buffer.from(base64, 'base64'));
    const { status, stderr } = spawnSync('pdftoppm', ['-r', String(dotsPerInch), join(own, 'paper.pdf'), join(own, 'page')]);
    if (status !== 0) throw new Error(`pdftoppm: ${String(stderr)}`);
    const pages = readdirSync(own).filter((name) => name.endsWith('.ppm'));
    return pages.toSorted().map((name) => readPicture(readFileSync(join(own, name)), dotsPerInch / 25.4));
  } finally {
    rmSync(own, { recursive: true, force: true });
  }
}

/** A portable pixel map with 8 bits a colour. */
function readPicture(bytes: Buffer, dotsPerMillimetre: number): Picture {
  const head = /^P6\s(\d+)\s(\d+)\s255\s/.exec(bytes.subarray(0, 40).toString('latin1'));
  if (!head) throw new Error('not a picture');
  const [width, height] = [Number(head[1]), Number(head[2])];
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let at = 0, from = head[0].length; at < width * height; at += 1, from += 3) {
    data.set([bytes[from] ?? 0, bytes[from + 1] ?? 0, bytes[from + 2] ?? 0], at * 4);
  }
  return { width, height, data, dotsPerMillimetre };
}

/** A part of a picture; lengths in mm from the upper left corner. */
export function partOf(picture: Picture, box: { left: number; top: number; width: number; height: number }): Picture {
  const dots = (millimetres: number): number => Math.round(millimetres * picture.dotsPerMillimetre);
  const [left, top] = [dots(box.left), dots(box.top)];
  const width = Math.min(dots(box.width), picture.width - left);
  const height = Math.min(dots(box.height), picture.height - top);
  const data = new Uint8ClampedArray(width * height * 4);
  for (let row = 0; row < height; row += 1) {
    const from = ((top + row) * picture.width + left) * 4;
    data.set(picture.data.subarray(from, from + width * 4), row * width * 4);
  }
  return { width, height, data, dotsPerMillimetre: picture.dotsPerMillimetre };
}

/** What the code in a picture says; null where none is found. */
export function codeIn({ data, width, height }: Picture): string | null {
  return jsQR(data, width, height)?.data ?? null;
}
