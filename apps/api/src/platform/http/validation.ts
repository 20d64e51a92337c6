import { StandardSchemaValidationPipe } from '@nestjs/common';
import { ProblemException } from './problem.js';

/** Checks what a route declares with `{ schema }`, and names the first field that does not fit. */
export const validationPipe = new StandardSchemaValidationPipe({
  exceptionFactory: ([first]) => {
    const field = first?.path?.map((step) => String(typeof step === 'object' ? step.key : step)).join('.');
    return new ProblemException({
      problem: 'malformed',
      ...(field !== undefined && field !== '' && { field }),
      ...(first && { acceptable: lowerFirst(first.message) }),
    });
  },
});

const lowerFirst = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1);
