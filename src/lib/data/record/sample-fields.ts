import type { FieldDefinition } from './definition.ts';
import { phrases } from './phrases.ts';

/** Sample checks made at the uplift. A blank is "not recorded", never a pass. */
export const sampleFields = [
  {
    name: 'waterTest',
    kind: 'check',
    side: 'supplier',
    label: 'Chemical water detector',
    required: 'no',
    headerWords: {
      en: phrases(`
        water test; water detector; chemical water detector; water check; free water; water
        water result; water ppm; water test result; water detection; water detector test
        chemical water test; cwd; cwd result; water finding; free water ppm`),
      fr: phrases('test eau; test d eau; eau; detection eau'),
      de: phrases('wassertest; wasser; wasserprufung; wassernachweis'),
      es: phrases('prueba de agua; test de agua; agua'),
      pt: phrases('teste de agua; agua'),
      it: phrases('test acqua; prova acqua; acqua')
    },
    help: 'Outcome of the chemical water detector test, or a figure in ppm judged against a limit.'
  },
  {
    name: 'visual',
    kind: 'check',
    side: 'supplier',
    label: 'Visual appearance',
    required: 'no',
    headerWords: {
      en: phrases(`
        visual; visual check; appearance; visual appearance; appearance check; clear and bright
        appearance result; visual inspection; visual test; visual appearance check; c and b
        clear bright; sample check; sample result; visual result; sample appearance`),
      fr: phrases('aspect; controle visuel; aspect visuel; visuel'),
      de: phrases('sichtprufung; aussehen; sichtkontrolle; visuell'),
      es: phrases('inspeccion visual; aspecto; control visual'),
      pt: phrases('inspecao visual; aspecto; controle visual'),
      it: phrases('ispezione visiva; aspetto; controllo visivo')
    },
    help: 'Outcome of the appearance check of the sample.'
  },
  {
    name: 'conductivity',
    kind: 'number',
    quantity: 'conductivity',
    unit: 'pS/m',
    exportUnit: 'ps_m',
    label: 'Conductivity',
    required: 'no',
    headerWords: {
      en: phrases(`
        conductivity; electrical conductivity; cond; conductivity cu; elec conductivity`),
      fr: phrases('conductivite'),
      de: phrases('leitfahigkeit; elektrische leitfahigkeit'),
      es: phrases('conductividad'),
      pt: phrases('condutividade'),
      it: phrases('conducibilita; conduttivita')
    },
    help: 'Electrical conductivity. It depends on temperature.'
  },
  {
    name: 'conductivityTemperature',
    kind: 'number',
    quantity: 'temperature',
    unit: '°C',
    exportUnit: 'c',
    label: 'Conductivity temperature',
    required: 'no',
    headerWords: {
      en: phrases(`
        conductivity temperature; conductivity temp; cond temp; temperature of conductivity`),
      fr: phrases('temperature conductivite'),
      de: phrases('leitfahigkeitstemperatur'),
      es: phrases('temperatura conductividad'),
      pt: phrases('temperatura condutividade'),
      it: phrases('temperatura conducibilita')
    },
    help: 'Temperature at which conductivity was read.'
  },
  {
    name: 'particulate',
    kind: 'number',
    quantity: 'particulate',
    unit: 'mg/L',
    exportUnit: 'mg_l',
    label: 'Particulate',
    required: 'no',
    headerWords: {
      en: phrases(`
        particulate; particulates; gravimetric; solids; particulate matter; dirt; contamination
        particulate mass`),
      fr: phrases('particules'),
      de: phrases('partikel; feststoffe'),
      es: phrases('particulas'),
      pt: phrases('particulas'),
      it: phrases('particelle; particolato')
    },
    help: 'Particulate by mass per volume.'
  },
  {
    name: 'particulateColour',
    kind: 'check',
    side: 'supplier',
    label: 'Membrane colour',
    required: 'no',
    headerWords: {
      en: phrases(`
        membrane colour; particulate colour; membrane color; colour rating; colour; membrane rating
        membrane result; colour result; millipore colour`),
      fr: phrases('couleur membrane'),
      de: phrases('membranfarbe'),
      es: phrases('color membrana'),
      pt: phrases('cor membrana'),
      it: phrases('colore membrana')
    },
    help: 'Outcome of the membrane colour rating.'
  },
  {
    name: 'waterDrained',
    kind: 'check',
    side: 'aircraft',
    label: 'Water in aircraft sump',
    required: 'no',
    headerWords: {
      en: phrases(`
        water drained; sump drain; aircraft sump; sump water; tank drain; aircraft water drain
        water drain; sump drained; drain check; water found; tank water`),
      fr: phrases('purge; purge eau'),
      de: phrases('drainage; entwasserung; wasser abgelassen'),
      es: phrases('drenaje; agua drenada'),
      pt: phrases('drenagem; agua drenada'),
      it: phrases('spurgo; acqua drenata')
    },
    help: 'Whether water was found when the aircraft tanks were drained: a finding about the aircraft, not the supplier.'
  }
] as const satisfies readonly FieldDefinition[];
