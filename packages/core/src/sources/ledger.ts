import type { Sources } from './source.ts';

export const LEDGER_SOURCES: Sources = {
  'rfc-8785': {
    title: 'JSON Canonicalization Scheme',
    edition: 'RFC 8785 (2020)',
    checked: 'memory-certain; examples of section 3.2 reproduced',
  },
  'rfc-9562': {
    title: 'Universally Unique IDentifiers',
    edition: 'RFC 9562 (2024)',
    where: 'section 5.7, appendix A.6',
    checked: 'memory-certain; example reproduced',
  },
  'fips-180-4': {
    title: 'Secure Hash Standard',
    edition: 'FIPS PUB 180-4',
    checked: 'memory-certain; digest of "abc" reproduced',
  },
};
