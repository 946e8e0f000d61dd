import { readSheet } from '@fettle/book';
import { CATALOGUE } from '@fettle/core';

export const HEAVY_PARTS = { readSheet, catalogue: CATALOGUE };
