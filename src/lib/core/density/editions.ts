import type { DensityForm } from './form.ts';
import { form1980 } from './form-1980.ts';
import { form2004 } from './form-2004.ts';

/** Editions of the petroleum measurement tables the program computes with; the first is the default. */
export const editions = ['1980', '2004'] as const;

export type Edition = (typeof editions)[number];

/** How each edition is named in texts and exports. */
export const editionTitles: Readonly<Record<Edition, string>> = {
  '1980': 'Tables 53B and 54B, API Standard 2540 / ASTM D1250-80 / IP 200',
  '2004': 'API MPMS Chapter 11.1-2004, Addendum 2007 / ASTM D1250-04 / IP 200-04'
};

export const formOf = (edition: Edition): DensityForm => (edition === '1980' ? form1980 : form2004);
