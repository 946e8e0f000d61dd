import { expect, it } from 'vitest';
import { buildBookPdf } from '../build-book.ts';
import { begun, folded } from '../testing/linnet-job.ts';
import { CAMERA_SAYS, letters, madeJpeg, segment } from '../testing/made-jpeg.ts';
import { imagesOf } from '../testing/pdf.ts';
import { typeset } from '../typeset.ts';
import { bareJpeg } from './bare-jpeg.ts';

const PRINTED_AT = '2026-05-01T09:30:00Z';
const asText = (bytes: Uint8Array): string => Buffer.from(bytes).toString('latin1');

const REMARK = segment(0xfe, ...letters('taken by somebody'));
const MAKER = segment(0xed, ...letters('Photoshop 3.0'));
const XMP = segment(0xe1, ...letters('http://ns.adobe.com/xap/1.0/\0<x>52.2053</x>'));
const PROFILE = segment(0xe2, ...letters('ICC_PROFILE\0'), 1, 1);

it('leaves the picture and drops what was said about it', () => {
  const told = madeJpeg(CAMERA_SAYS, XMP, PROFILE, MAKER, REMARK);
  const hung = Uint8Array.from([...told, ...madeJpeg(CAMERA_SAYS)]);
  const bare = bareJpeg(hung)!;
  expect(asText(told)).toContain('GPS 52.2053');
  for (const gone of ['GPS', '52.2053', 'taken by', 'Photoshop']) expect(asText(bare)).not.toContain(gone);
  expect(asText(bare)).toContain('ICC_PROFILE');
  // Which way is up stays: the orientation is written again, alone.
  expect(asText(bare)).toContain('Exif\0\0MM\0*');
  expect(asText(bare)).toContain('\x01\x12\0\x03\0\0\0\x01\0\x06');
  expect(bareJpeg(bare)).toEqual(bare);
});

it('changes nothing in a picture of which nothing is said', () => {
  expect(bareJpeg(madeJpeg())).toEqual(madeJpeg());
});

it('knows what is cut short, and what is no such picture', () => {
  const whole = madeJpeg(CAMERA_SAYS);
  for (let length = 0; length < whole.length; length++)
    expect(bareJpeg(whole.subarray(0, length))).toBeUndefined();
  expect(bareJpeg(Uint8Array.from(letters('\x89PNG\r\n\x1a\n')))).toBeUndefined();
});

it('prints a photograph without the place where it was taken', async () => {
  const told = madeJpeg(CAMERA_SAYS, REMARK);
  const desk = begun({ title: 'A photograph' });
  const sha256 = 'cd'.repeat(32);
  desk.write('photo', { sha256, media: 'image/jpeg', caption: 'The pump' });
  const toPrint = { book: folded(desk.entries), paper: 'a4', printedAt: PRINTED_AT } as const;
  const pdf = await buildBookPdf({ ...toPrint, photos: new Map([[sha256, told]]) });
  expect(imagesOf(pdf).some(({ width, height }) => width === 8 && height === 8)).toBe(true);
  expect(asText(pdf)).not.toContain('GPS 52.2053');
  // Set as it came, the picture would have carried it along.
  const pictures = new Map([['told.jpg', madeJpeg(segment(0xe1, ...letters('GPS 52.2053')))]]);
  const carried = typeset('picture.typ', { file: 'told.jpg' }, { ...toPrint, pictures });
  expect(asText(carried)).toContain('GPS 52.2053');
});
