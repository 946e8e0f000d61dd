import { sha256OfBytes } from '@fettle/core';

/** The longer side of a kept picture [pixel]: enough to see a scratch, small enough for a workshop's network. */
const LONGEST = 2400;
const QUALITY = 0.85;

/** Width and height that fit within the longest side, in the same proportion. */
export function fittedSize(
  width: number,
  height: number,
  longest = LONGEST,
): { readonly width: number; readonly height: number } {
  const scale = Math.min(1, longest / Math.max(width, height));
  return { width: Math.max(1, Math.round(width * scale)), height: Math.max(1, Math.round(height * scale)) };
}

export interface Picture {
  readonly blob: Blob;
  readonly hash: string;
}

/**
 * The picture drawn anew, smaller, as a JPEG: what the camera wrote beside the pixels (where and when, with which
 * device) does not come along. Undefined for a file that this browser cannot show as a picture.
 */
export async function pictureOf(file: Blob): Promise<Picture | undefined> {
  const image = await createImageBitmap(file, { imageOrientation: 'from-image' }).catch(() => undefined);
  if (!image) return undefined;
  const canvas = document.createElement('canvas');
  Object.assign(canvas, fittedSize(image.width, image.height));
  const pen = canvas.getContext('2d');
  pen?.drawImage(image, 0, 0, canvas.width, canvas.height);
  image.close();
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', QUALITY));
  if (!pen || !blob) return undefined;
  return { blob, hash: sha256OfBytes(new Uint8Array(await blob.arrayBuffer())) };
}
