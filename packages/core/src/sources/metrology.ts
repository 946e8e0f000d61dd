import type { Sources } from './source.ts';

export const METROLOGY_SOURCES: Sources = {
  'jcgm-100': {
    title: 'Evaluation of measurement data: guide to the expression of uncertainty in measurement',
    edition: 'JCGM 100:2008',
    where: '4.2, 4.3, 5.1, 5.2, annexes F, G and H',
    checked: 'retrieved at second hand; H.1, H.3 and table G.2 reproduced',
  },
  'jcgm-101': {
    title: 'Propagation of distributions using a Monte Carlo method',
    edition: 'JCGM 101:2008',
    where: '6.4, 7, 9.2',
    checked: 'memory-likely; the examples of 9.2 reproduced and computed exactly',
  },
  'jcgm-106': {
    title: 'The role of measurement uncertainty in conformity assessment',
    edition: 'JCGM 106:2012',
    where: '7.3 to 7.5, 9.5',
    checked: 'retrieved at second hand; worked values reproduced',
  },
  'iso-14253-1': {
    title: 'Inspection by measurement of workpieces: decision rules for verifying conformity',
    edition: 'ISO 14253-1:2017',
    where: 'default rule, 95 % probability limit',
    checked: 'memory-likely; the 1.65 u agrees with ILAC-G8:09/2019 as retrieved',
  },
  'iso-1': {
    title: 'Standard reference temperature for the specification of geometrical properties',
    edition: 'ISO 1:2022',
    checked: 'memory-certain: 20 °C',
  },
  sp811: {
    title: 'Guide for the use of the International System of Units',
    edition: 'NIST Special Publication 811 (2008)',
    where: 'appendix B.8',
    checked: 'retrieved; factors computed from exact definitions agree to its seven digits',
  },
  'as-26': {
    title: 'Handbook of Mathematical Functions',
    edition: 'Abramowitz and Stegun, 1964',
    where: 'chapter 26, probability functions',
    checked: 'memory-certain; identities and printed points reproduced',
  },
  dlmf: {
    title: 'Digital Library of Mathematical Functions',
    where: '8.17.22, continued fraction of the incomplete beta function',
    checked: 'memory-certain; closed forms reproduced',
  },
  'taocp-3': {
    title: 'The Art of Computer Programming, volume 3: sorting and searching',
    where: '6.2.1, searching an ordered table',
    checked: 'memory-certain; follows from counting answers',
  },
  'feller-2': {
    title: 'An Introduction to Probability Theory and Its Applications, volume 2',
    where: 'I.9, sums of uniform variables',
    checked: 'memory-likely; one, two and four terms have closed forms that are reproduced',
  },
  'birge-1932': {
    title: 'The calculation of errors by the method of least squares',
    edition: 'Physical Review 40 (1932) 207',
    checked: 'memory-likely; the ratio itself is a definition',
  },
  'iso-13528': {
    title: 'Statistical methods for use in proficiency testing by interlaboratory comparison',
    edition: 'ISO 13528:2015',
    where: 'E_n score',
    checked: 'memory-certain formula',
  },
  'iso-22514-2': {
    title: 'Statistical methods in process management: capability and performance',
    edition: 'ISO 22514-2',
    where: 'C_pk',
    checked: 'memory-certain formula',
  },
  'feeler-practice': {
    title: 'Feeler leaves bracket a gap: the leaf that goes is no thicker, the one that stops is thicker',
    checked: 'common practice, no source',
  },
  'feeler-leaf-tolerance': {
    title: 'Thickness variation of feeler gauge leaves up to 0.3 mm: 0.004 mm',
    edition: 'IS 3179:1990, derived from BS 957-2:1969',
    checked: 'retrieved from a textbook page whose first figure is misprinted',
  },
  'shannon-1948': {
    title: 'A mathematical theory of communication',
    edition: 'C. E. Shannon, 1948',
    where: 'sections 6 and 12 (entropy, mutual information)',
    checked: 'memory-certain; reproduced by the closed form of the symmetric binary channel',
  },
  'kass-raftery-1995': {
    title: 'Bayes factors',
    edition: 'R. E. Kass and A. E. Raftery, 1995',
    where:
      '3.2: a Bayes factor from 10 on is strong evidence on Jeffreys’ scale, 1 to 3.2 not worth more than a bare mention',
    checked: 'memory-certain',
  },
  'fritsch-butland-1984': {
    title: 'A method for constructing local monotone piecewise cubic interpolants',
    edition: 'F. N. Fritsch and J. Butland, 1984',
    where: 'harmonic mean of the chords as slope',
    checked: 'memory-certain',
  },
  'genz-1992': {
    title: 'Numerical computation of multivariate normal probabilities',
    edition: 'A. Genz, Journal of Computational and Graphical Statistics 1, 1992',
    where: 'the separation of variables',
    checked: 'memory-certain; reproduced by the closed forms of two and of three quantities',
  },
  'tippett-1925': {
    title: 'On the extreme individuals and the range of samples taken from a normal population',
    edition: 'L. H. C. Tippett, Biometrika 17, 1925',
    where: 'the mean range of n, known as d₂ to those who keep control charts',
    checked: 'memory-certain; every figure used reproduced by integration',
  },
  'wilson-hilferty-1931': {
    title: 'The distribution of chi-square',
    edition: 'E. B. Wilson and M. M. Hilferty, 1931',
    where: 'the cube root of chi-square over its degrees of freedom is nearly normal',
    checked: 'memory-certain',
  },
  'gander-golub-strebel': {
    title: 'Least-squares fitting of circles and ellipses',
    edition: 'Gander, Golub and Strebel, BIT 34, 1994',
    where: 'geometric fit, circle example',
    checked: 'memory-certain; all printed digits of the example reproduced',
  },
  'iso-1101': {
    title: 'Geometrical tolerancing: form, orientation, location and run-out',
    edition: 'ISO 1101:2017',
    where: 'flatness: the zone between two parallel planes',
    checked: 'memory-certain',
  },
  'iso-3040': {
    title: 'Dimensioning and tolerancing: cones',
    edition: 'ISO 3040:2016',
    where: 'rate of taper (D − d)/L',
    checked: 'memory-certain',
  },
  'iso-12181': {
    title: 'Roundness: vocabulary and specification operators',
    edition: 'ISO 12181-1 and -2:2011',
    where: 'RONt, peak to valley about the least-squares circle',
    checked: 'memory-certain',
  },
  'jonker-volgenant': {
    title: 'A shortest augmenting path algorithm for dense and sparse linear assignment problems',
    edition: 'Jonker and Volgenant, Computing 38, 1987',
    checked: 'memory-certain; published optima reproduced, and every small case by trying all pairings',
  },
  'nist-strd': {
    title: 'Statistical Reference Datasets',
    edition: 'NIST',
    where: 'univariate summary statistics and one-way analysis of variance',
    checked: 'retrieved with data; certified values reproduced',
  },
  'montgomery-doe': {
    title: 'Design and Analysis of Experiments',
    edition: 'D. C. Montgomery',
    where: 'two-factor random model, example 13.1 with tables 13.1 to 13.3',
    checked: 'retrieved at second hand; all printed sums of squares and components reproduced',
  },
  'din-863-1': {
    title: 'Micrometers: external micrometers, limits of error',
    edition: 'DIN 863-1; ISO 3611:2010 leaves the figure to the maker',
    checked: 'retrieved from secondary tables that agree: 4 µm to 50 mm, 1 µm more for each 50 mm begun',
  },
  'din-862': {
    title: 'Callipers: limits of error',
    edition: 'DIN 862; ISO 13385-1 leaves the figure to the maker',
    checked: 'retrieved from a table whose columns are damaged; memory-likely where they run together',
  },
  'din-878': {
    title: 'Dial gauges: limits of error',
    edition: 'DIN 878:2006; ISO 463:2006 gives no figures',
    checked: 'memory-likely for 0.01 mm over 10 mm',
  },
  'iso-3650': {
    title: 'Length standards: gauge blocks',
    edition: 'ISO 3650, as DIN 861',
    where: 'limit deviation at any point, grades 1 and 2',
    checked: 'retrieved from a secondary table',
  },
  'en-837-1': {
    title: 'Bourdon tube pressure gauges: dimensions, metrology, requirements and testing',
    edition: 'EN 837-1:1996',
    where: 'table 11, limits of permissible error',
    checked: 'retrieved at second hand; two sources agree',
  },
  'iso-6789': {
    title: 'Hand torque tools: requirements and test methods',
    edition: 'ISO 6789:2003, kept by ISO 6789-1:2017',
    where: 'maximum permissible deviation',
    checked: 'retrieved for wrenches set by a scale: 4 %, and 6 % up to 10 N·m; memory-likely 6 % for beams',
  },
  'mid-2014-32': {
    title: 'Measuring instruments directive, material measures of length',
    edition: 'Directive 2014/32/EU, annex X',
    where: 'class II',
    checked: 'memory-likely: 0.3 mm and 0.2 mm a metre',
  },
};
