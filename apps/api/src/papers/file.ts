import { StreamableFile } from '@nestjs/common';

export const pdfType = 'application/pdf';
export const xlsxType = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/** A file as an answer. The name is the service's own, in plain ASCII. */
export const fileOf = (bytes: Buffer, type: string, name: string): StreamableFile =>
  new StreamableFile(bytes, { type, length: bytes.length, disposition: `attachment; filename="${name}"` });
