import { quantityWords } from '@fettle/book';

export const { halfBand, limitWords, operandWords, shown, uncertaintyWords } = quantityWords;
