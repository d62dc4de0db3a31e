import type { FieldDefinition } from './definition.ts';
import { phrases } from './phrases.ts';

const mass = { kind: 'number', quantity: 'mass', unit: 'kg', exportUnit: 'kg' } as const;

/** The aircraft's half of an uplift: what the gauges read and what was asked for. */
export const gaugeFields = [
  {
    ...mass,
    name: 'arrivalFuel',
    label: 'Arrival fuel',
    required: 'no',
    headerWords: {
      en: phrases(`
        arrival fuel; fuel on arrival; fuel before; remaining fuel; fob before; before refuelling
        initial fuel; arrival; arrival fob; fob arrival; fob on arrival; fuel before refuelling
        fuel before fuelling; fuel before uplift; fuel on board before; fuel on board on arrival
        gauge before; gauge arrival; gauge on arrival; gauges before; before fuelling; before uplift
        remaining; remaining on board; rob; fuel remaining; fuel rob; arrival gauge; gauge start
        residual fuel; fuel in; block on fuel; blocks on fuel; arrival quantity; quantity before`),
      fr: phrases(`
        carburant a l arrivee; carburant arrivee; reste; reste a bord; carburant avant
        carburant restant; quantite avant; avant avitaillement`),
      de: phrases(`
        kraftstoff bei ankunft; treibstoff bei ankunft; ankunft; restkraftstoff; restmenge
        kraftstoff vorher; bestand vorher; tankinhalt vorher; vor betankung`),
      es: phrases(`
        combustible a la llegada; combustible llegada; remanente; combustible remanente
        combustible antes; llegada`),
      pt: phrases(`
        combustivel na chegada; combustivel chegada; remanescente; combustivel remanescente
        combustivel antes; chegada`),
      it: phrases(`
        carburante all arrivo; carburante arrivo; residuo; carburante residuo; carburante prima
        arrivo`)
    },
    help: 'Fuel on board by the gauges before refuelling.'
  },
  {
    ...mass,
    name: 'departureFuel',
    label: 'Departure fuel',
    required: 'no',
    // Block and ramp fuel are mostly figures of the plan, not readings: a person may say otherwise by hand.
    headerWords: {
      en: phrases(`
        departure fuel; fuel on departure; fuel after; total fuel; fob after; after refuelling
        final fuel; departure; departure fob; fob departure; fob on departure; fuel after refuelling
        fuel after fuelling; fuel after uplift; fuel on board after; fuel on board; fob
        fuel on board on departure; gauge after; gauge departure; gauges after; after fuelling
        after uplift; total on board; departure gauge; gauge final
        block off fuel; blocks off fuel; departure quantity; quantity after; total fuel on board
        tfob`),
      fr: phrases(`
        carburant au depart; carburant depart; carburant apres; total a bord; depart; quantite apres
        apres avitaillement; carburant a bord`),
      de: phrases(`
        kraftstoff bei abflug; treibstoff bei abflug; abflug; kraftstoff nachher; bestand nachher
        tankinhalt nachher; nach betankung; gesamtkraftstoff`),
      es: phrases(`
        combustible a la salida; combustible salida; combustible despues; salida; total a bordo
        combustible a bordo`),
      pt: phrases(`
        combustivel na saida; combustivel saida; combustivel depois; saida; total a bordo
        combustivel a bordo; partida`),
      it: phrases(`
        carburante alla partenza; carburante partenza; carburante dopo; partenza; totale a bordo
        carburante a bordo`)
    },
    help: 'Fuel on board by the gauges after refuelling.'
  },
  {
    ...mass,
    name: 'groundBurn',
    label: 'Ground burn',
    required: 'no',
    headerWords: {
      en: phrases(`
        ground burn; apu burn; burn on ground; apu fuel; apu consumption; ground fuel burn
        fuel burn on ground; ground consumption; apu fuel burn`),
      fr: phrases('consommation au sol; consommation apu'),
      de: phrases('bodenverbrauch; apu verbrauch; verbrauch am boden'),
      es: phrases('consumo en tierra; consumo apu'),
      pt: phrases('consumo em solo; consumo apu'),
      it: phrases('consumo a terra; consumo apu')
    },
    help: 'Fuel burnt between the two gauge readings, mostly by the auxiliary power unit.'
  },
  {
    name: 'groundMinutes',
    kind: 'number',
    quantity: 'duration',
    unit: 'min',
    exportUnit: 'min',
    label: 'Ground minutes',
    required: 'no',
    headerWords: {
      en: phrases(`
        ground minutes; minutes between readings; apu minutes; apu time; ground time
        apu running minutes; minutes on ground`),
      fr: phrases('minutes au sol; temps au sol'),
      de: phrases('bodenminuten; bodenzeit'),
      es: phrases('minutos en tierra; tiempo en tierra'),
      pt: phrases('minutos em solo; tempo em solo'),
      it: phrases('minuti a terra; tempo a terra')
    },
    help: 'Minutes between the two gauge readings.'
  },
  {
    ...mass,
    name: 'ordered',
    label: 'Ordered fuel',
    required: 'no',
    headerWords: {
      en: phrases(`
        ordered fuel; fuel ordered; ordered; fuel order; requested; preset; required fuel; order
        order quantity; ordered quantity; preselected; preselected fuel; fuel required
        fuel requested; requested fuel; requested quantity; planned uplift; uplift ordered
        planned fuel`),
      fr: phrases('carburant demande; quantite demandee; commande; quantite commandee'),
      de: phrases('bestellt; bestellte menge; angefordert; kraftstoffbestellung; bestellmenge'),
      es: phrases('combustible solicitado; pedido; cantidad solicitada; solicitado'),
      pt: phrases('combustivel solicitado; pedido; quantidade solicitada; solicitado'),
      it: phrases('carburante richiesto; ordinato; quantita richiesta; richiesto')
    },
    help: 'What was asked for: a total on board, or an amount to add.'
  },
  {
    name: 'orderedBasis',
    kind: 'choice',
    choices: ['totalOnBoard', 'amountToAdd'],
    label: 'Ordered as',
    required: 'no',
    headerWords: {
      en: phrases('ordered as; order basis; ordered basis; order type; ordered means; order as'),
      fr: phrases('type de commande'),
      de: phrases('bestellart'),
      es: phrases('tipo de pedido'),
      pt: phrases('tipo de pedido'),
      it: phrases('tipo di ordine')
    },
    help: 'Whether the order is a total on board or an amount to add.'
  },
  {
    ...mass,
    name: 'recordedUplift',
    label: 'Recorded uplift',
    required: 'no',
    headerWords: {
      en: phrases(`
        recorded uplift; uplift mass; uplift kg; delivered mass; uplift weight; mass delivered
        uplift; fuel uplift; fuel uplifted; uplifted; uplift quantity; delivered; quantity
        quantity delivered; delivered quantity; uplifted mass; uplifted weight; metered mass
        calculated uplift; weight delivered; uplift in kg; mass; weight; uplift lb; uplift lbs`),
      fr: phrases('masse livree; masse; masse avitaillee; quantite livree'),
      de: phrases('getankte masse; masse; gewicht; liefermasse; menge'),
      es: phrases('masa suministrada; masa; peso; cantidad'),
      pt: phrases('massa abastecida; massa; peso; quantidade'),
      it: phrases('massa erogata; massa; peso; quantita')
    },
    help: 'The uplifted mass as the source worked it out. Gaugebook recomputes it and shows the difference.'
  },
  {
    ...mass,
    name: 'recordedDiscrepancy',
    label: 'Recorded discrepancy',
    required: 'no',
    headerWords: {
      en: phrases(`
        recorded discrepancy; discrepancy; difference; deviation; fuel discrepancy; fuel difference
        uplift discrepancy; discrepancy kg; variation; delta; diff`),
      fr: phrases('ecart; difference'),
      de: phrases('differenz; abweichung'),
      es: phrases('discrepancia; diferencia; desviacion'),
      pt: phrases('discrepancia; diferenca; desvio'),
      it: phrases('discrepanza; differenza; scostamento')
    },
    help: 'The discrepancy as the source worked it out, turned so that plus means the gauge says more.'
  },
  {
    ...mass,
    name: 'tanksBefore',
    family: true,
    label: 'Tank before',
    required: 'no',
    headerWords: {
      en: phrases('tank before; before tank; arrival tank; tank arrival; tank start; tank initial'),
      fr: phrases('reservoir avant'),
      de: phrases('tank vorher'),
      es: phrases('tanque antes'),
      pt: phrases('tanque antes'),
      it: phrases('serbatoio prima')
    },
    help: 'Fuel in one tank before refuelling: one column per tank.'
  },
  {
    ...mass,
    name: 'tanksAfter',
    family: true,
    label: 'Tank after',
    required: 'no',
    headerWords: {
      en: phrases('tank after; after tank; departure tank; tank departure; tank final; tank end'),
      fr: phrases('reservoir apres'),
      de: phrases('tank nachher'),
      es: phrases('tanque despues'),
      pt: phrases('tanque depois'),
      it: phrases('serbatoio dopo')
    },
    help: 'Fuel in one tank after refuelling: one column per tank.'
  },
  {
    ...mass,
    name: 'stickReading',
    label: 'Stick reading',
    required: 'no',
    headerWords: {
      en: phrases(`
        stick reading; drip stick; dip reading; magnetic stick; manual reading; drip stick reading
        dipstick; dip stick; drip reading; stick; mli; magnetic level; manual check`),
      fr: phrases('jauge manuelle; lecture jauge manuelle'),
      de: phrases('peilstab; peilung'),
      es: phrases('varilla; lectura de varilla'),
      pt: phrases('vareta; leitura de vareta'),
      it: phrases('asta; lettura asta')
    },
    help: 'Total fuel by manual stick readings, converted to mass by the source.'
  }
] as const satisfies readonly FieldDefinition[];
