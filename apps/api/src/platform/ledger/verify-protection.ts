import type { ClientBase } from 'pg';
import { protectionDiffers } from '../database/index.js';
import { about, type Finding } from './findings.js';

/** The locks of the database: triggers, row security, what the service may do, and what its role is. */
export async function verifyProtection(owner: ClientBase): Promise<Finding[]> {
  const { gone, added } = await protectionDiffers(owner);
  return [
    ...gone.map((fact) => about('protection-differs', `gone: ${fact}`)),
    ...added.map((fact) => about('protection-differs', `added: ${fact}`)),
  ];
}
