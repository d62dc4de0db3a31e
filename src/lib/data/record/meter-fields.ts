import type { FieldDefinition } from './definition.ts';
import { phrases } from './phrases.ts';

const volume = { kind: 'number', quantity: 'volume', unit: 'L', exportUnit: 'l' } as const;
const density = { kind: 'number', quantity: 'density', unit: 'kg/m³', exportUnit: 'kg_m3' } as const;
const temperature = { kind: 'number', quantity: 'temperature', unit: '°C', exportUnit: 'c' } as const;

/** The supplier's half of an uplift: what the meter counted and how dense the fuel was. */
export const meterFields = [
  {
    ...volume,
    name: 'volume',
    label: 'Metered volume',
    required: 'quantity',
    headerWords: {
      en: phrases(`
        metered volume; gross volume; volume; observed volume; uplift volume; quantity delivered
        litres; liters; gallons; gross; uplift; fuel uplift; fuel uplifted; uplifted
        uplift quantity; uplift qty; gross quantity; gross litres; gross gallons; observed quantity
        delivered volume; volume delivered; delivered quantity; quantity; metered quantity
        meter volume; ambient volume; volume at ambient; litres uplifted; litres delivered
        gallons delivered; us gallons; delivered; ambient litres; volume gross`),
      fr: phrases('volume; volume brut; volume livre; quantite livree; quantite; litres'),
      de: phrases(`
        volumen; menge; abgegebene menge; liefermenge; bruttovolumen; liter; getankte menge`),
      es: phrases('volumen; volumen bruto; cantidad; cantidad suministrada; litros'),
      pt: phrases('volume; volume bruto; quantidade; quantidade abastecida; litros'),
      it: phrases('volume; volume lordo; quantita; quantita erogata; litri')
    },
    help: 'Volume by the meter at the temperature of the fuel in it (gross, not corrected to 15 °C).'
  },
  {
    ...volume,
    name: 'netVolume',
    label: 'Net volume',
    required: 'quantity',
    headerWords: {
      en: phrases(`
        net volume; standard volume; corrected volume; volume at 15; net; net quantity; net litres
        net gallons; standard litres; volume at 15 c; volume 15; volume 15 c; corrected quantity
        net volume at 15 c; standard quantity; volume net; base volume; litres at 15; litres at 15 c
        net uplift`),
      fr: phrases('volume net; volume corrige; volume a 15; volume a 15 c; quantite nette'),
      de: phrases('nettovolumen; volumen bei 15; volumen bei 15 c; normvolumen; nettomenge'),
      es: phrases('volumen neto; volumen corregido; volumen a 15; volumen a 15 c; cantidad neta'),
      pt: phrases(`
        volume liquido; volume corrigido; volume a 15; volume a 15 c; quantidade liquida`),
      it: phrases('volume netto; volume corretto; volume a 15; volume a 15 c; quantita netta')
    },
    help: 'Volume corrected to the base temperature (usually 15 °C).'
  },
  {
    ...temperature,
    name: 'netBaseTemperature',
    label: 'Base temperature of net volume',
    required: 'no',
    headerWords: {
      en: phrases(`
        base temperature; net base temperature; reference temperature; base temp; net base temp
        reference temp; standard temperature`),
      fr: phrases('temperature de base; temperature de reference'),
      de: phrases('bezugstemperatur; referenztemperatur; basistemperatur'),
      es: phrases('temperatura base; temperatura de referencia'),
      pt: phrases('temperatura base; temperatura de referencia'),
      it: phrases('temperatura base; temperatura di riferimento')
    },
    help: 'The temperature the net volume is stated at.'
  },
  {
    ...volume,
    name: 'meterStart',
    label: 'Meter start',
    required: 'quantity',
    headerWords: {
      en: phrases(`
        meter start; start reading; opening reading; totaliser start; meter before; start meter
        opening meter; meter opening; opening meter reading; meter reading start
        meter reading before; totaliser opening; totaliser before; initial reading; meter open
        begin reading; meter start reading; start totaliser`),
      fr: phrases('compteur debut; index debut; index depart; compteur depart; index initial'),
      de: phrases(`
        zahlerstand anfang; zahlerstand vorher; anfangsstand; zahlerstand beginn; anfangszahlerstand`),
      es: phrases('lectura inicial; contador inicial'),
      pt: phrases('leitura inicial; medidor inicial'),
      it: phrases('lettura iniziale; contatore iniziale')
    },
    help: 'Totaliser before the delivery.'
  },
  {
    ...volume,
    name: 'meterStop',
    label: 'Meter stop',
    required: 'quantity',
    headerWords: {
      en: phrases(`
        meter stop; stop reading; closing reading; totaliser stop; meter end; meter after
        stop meter; closing meter; meter closing; closing meter reading; meter reading stop
        meter reading end; meter reading after; totaliser closing; totaliser after; totaliser end
        final reading; meter close; end reading; meter stop reading; stop totaliser; meter finish
        finish reading`),
      fr: phrases('compteur fin; index fin; index arrivee; index final'),
      de: phrases('zahlerstand ende; zahlerstand nachher; endstand; endzahlerstand'),
      es: phrases('lectura final; contador final'),
      pt: phrases('leitura final; medidor final'),
      it: phrases('lettura finale; contatore finale')
    },
    help: 'Totaliser after the delivery.'
  },
  {
    ...density,
    name: 'densityObserved',
    label: 'Observed density',
    required: 'no',
    headerWords: {
      en: phrases(`
        observed density; density observed; density; measured density; specific gravity; sg
        relative density; api gravity; obs density; fuel density; actual density; density actual
        density obs; density as observed; api; observed api; observed sg; density reading
        hydrometer reading; uplift density; ambient density; density at ambient`),
      fr: phrases(`
        densite; densite observee; masse volumique; masse volumique observee; densite mesuree`),
      de: phrases('dichte; beobachtete dichte; gemessene dichte; dichte gemessen'),
      es: phrases('densidad; densidad observada; densidad medida'),
      pt: phrases('densidade; densidade observada; massa especifica; densidade medida'),
      it: phrases('densita; densita osservata; massa volumica; densita misurata')
    },
    help: 'Density as measured at the sample temperature.'
  },
  {
    name: 'densityMethod',
    kind: 'choice',
    choices: ['hydrometer', 'densitometer', 'inLine'],
    label: 'Density measured by',
    required: 'no',
    headerWords: {
      en: phrases(`
        density method; hydrometer or densitometer; density instrument; density measured by
        density measured with; instrument; density by`),
      fr: phrases('methode densite; methode de mesure de la densite'),
      de: phrases('dichte gemessen mit; dichtemessgerat'),
      es: phrases('metodo densidad; metodo de densidad'),
      pt: phrases('metodo densidade; metodo da densidade'),
      it: phrases('metodo densita; metodo di densita')
    },
    help: 'Glass hydrometer, digital densitometer, or an in-line instrument at the meter temperature.'
  },
  {
    ...temperature,
    name: 'densityTemperature',
    label: 'Sample temperature',
    required: 'no',
    headerWords: {
      en: phrases(`
        sample temperature; density temperature; density temp; observed temperature
        hydrometer temperature; sample temp; observed temp; hydrometer temp; temperature of sample
        density obs temp; temp observed; density sample temperature; temperature at density`),
      fr: phrases(`
        temperature echantillon; temperature de l echantillon; temperature densite
        temperature observee`),
      de: phrases('probentemperatur; temperatur der probe; dichtetemperatur'),
      es: phrases('temperatura de la muestra; temperatura muestra; temperatura de densidad'),
      pt: phrases('temperatura da amostra; temperatura amostra; temperatura da densidade'),
      it: phrases('temperatura del campione; temperatura campione; temperatura densita')
    },
    help: 'Temperature of the sample when its density was read.'
  },
  {
    ...temperature,
    name: 'fuelTemperature',
    label: 'Fuel temperature at meter',
    required: 'no',
    headerWords: {
      en: phrases(`
        fuel temperature; fuel temp; meter temperature; temperature; product temperature; temp
        meter temp; temperature at meter; product temp; delivery temperature; delivery temp
        fuelling temperature; uplift temperature; fuel temp at meter`),
      fr: phrases(`
        temperature; temperature carburant; temperature du carburant; temperature produit`),
      de: phrases('temperatur; kraftstofftemperatur; treibstofftemperatur; produkttemperatur'),
      es: phrases(`
        temperatura; temperatura combustible; temperatura del combustible; temperatura producto`),
      pt: phrases(`
        temperatura; temperatura combustivel; temperatura do combustivel; temperatura produto`),
      it: phrases(`
        temperatura; temperatura carburante; temperatura del carburante; temperatura prodotto`)
    },
    help: 'Temperature of the fuel in the meter.'
  },
  {
    ...density,
    name: 'densityTicket15',
    label: 'Ticket density at 15 °C',
    required: 'no',
    headerWords: {
      en: phrases(`
        density at 15; standard density; density 15; density 15c; corrected density
        ticket density at 15; density at 15 c; density at 15 deg c; density @ 15; std density
        standard density 15; ticket density; density corrected; density corrected to 15
        density at standard temperature; density15; base density; density std`),
      fr: phrases(`
        densite a 15; densite a 15 c; densite 15; masse volumique a 15; masse volumique a 15 c
        densite standard; densite corrigee`),
      de: phrases('dichte bei 15; dichte bei 15 c; dichte 15; normdichte; korrigierte dichte'),
      es: phrases(`
        densidad a 15; densidad a 15 c; densidad 15; densidad estandar; densidad corregida`),
      pt: phrases(`
        densidade a 15; densidade a 15 c; densidade 15; densidade padrao; densidade corrigida`),
      it: phrases('densita a 15; densita a 15 c; densita 15; densita standard; densita corretta')
    },
    help: 'Density at 15 °C as the ticket states it.'
  },
  {
    ...density,
    name: 'densityCertificate15',
    label: 'Certificate density at 15 °C',
    required: 'no',
    headerWords: {
      en: phrases(`
        certificate density; batch density; certificate density at 15; density on certificate
        cert density; certificate density 15; batch density at 15; batch density 15
        density certificate; certificate density 15 c; coq density; certified density`),
      fr: phrases('densite certificat; densite du certificat; densite du lot'),
      de: phrases('zertifikatsdichte; dichte laut zertifikat; chargendichte'),
      es: phrases('densidad certificado; densidad del certificado; densidad del lote'),
      pt: phrases('densidade certificado; densidade do certificado; densidade do lote'),
      it: phrases('densita certificato; densita del certificato; densita del lotto')
    },
    help: 'Density at 15 °C on the batch certificate.'
  },
  {
    name: 'defuelled',
    kind: 'number',
    quantity: 'mass',
    unit: 'kg',
    exportUnit: 'kg',
    label: 'Defuelled',
    required: 'quantity',
    headerWords: {
      en: phrases(`
        defuelled; defuel; defuel quantity; fuel removed; defueled; defuelling; defuelled quantity
        defuel qty; fuel off; defuelled fuel; defuel amount; quantity defuelled; offload`),
      fr: phrases('reprise; reprise carburant; quantite reprise; degazage; carburant repris'),
      de: phrases('enttankt; enttankung; enttankte menge'),
      es: phrases('defuel; desabastecido; combustible extraido'),
      pt: phrases('destanqueio; destanqueado; combustivel retirado'),
      it: phrases('defuel; scaricato; carburante scaricato')
    },
    help: 'Fuel taken off between the two gauge readings, as a positive mass.'
  },
  {
    name: 'defuelReason',
    kind: 'text',
    label: 'Reason for defuelling',
    required: 'no',
    headerWords: {
      en: phrases(`
        defuel reason; reason for defuel; defuelling reason; reason of defuel; reason for defuelling
        why defuelled`),
      fr: phrases('motif de reprise'),
      de: phrases('grund der enttankung; enttankungsgrund'),
      es: phrases('motivo de defuel'),
      pt: phrases('motivo do destanqueio'),
      it: phrases('motivo defuel')
    },
    help: 'Why fuel was taken off.'
  }
] as const satisfies readonly FieldDefinition[];
