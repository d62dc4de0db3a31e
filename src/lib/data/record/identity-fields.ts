import type { FieldDefinition } from './definition.ts';
import { phrases } from './phrases.ts';

/** Who, where and when: the fields that name an uplift. */
export const identityFields = [
  {
    name: 'ticket',
    kind: 'text',
    label: 'Delivery ticket',
    required: 'no',
    headerWords: {
      en: phrases(`
        delivery ticket; ticket number; ticket no; ticket; delivery note; fuel receipt; slip
        receipt; delivery ticket number; delivery ticket no; fuel ticket; ticket id
        delivery note no; fuel slip; fuel slip no; delivery receipt; docket; docket no; voucher
        invoice ticket; fuel delivery note; fdn`),
      fr: phrases('bon de livraison; numero de bon; n bon; bon; ticket; numero de ticket'),
      de: phrases(`
        lieferschein; lieferscheinnummer; lieferschein nr; belegnummer; beleg nr; tankbeleg`),
      es: phrases('albaran; numero de albaran; boleto; comprobante; recibo'),
      pt: phrases('guia de remessa; guia; comprovante; numero da guia; recibo'),
      it: phrases('bolla di consegna; bolla; numero bolla; buono di consegna; ricevuta')
    },
    help: 'The number of the delivery ticket, kept as text with its leading zeros.'
  },
  {
    name: 'time',
    kind: 'time',
    label: 'End of fuelling',
    required: 'yes',
    headerWords: {
      en: phrases(`
        end of fuelling; fuelling end; end time; finish; time; date time; date; uplift date
        completed; stop time; uplift time; fuelling date; refuelling date; fuelling time
        refuelling time; delivery date; delivery time; date and time; end of refuelling
        fuelling end time; end; end date; fuelling completed; off time; time of fuelling
        transaction date; transaction time; finished; finished at; finish time; ended; ended at; completed at`),
      fr: phrases(`
        date; heure; date et heure; date heure; fin avitaillement; heure de fin
        fin de l avitaillement; fin d avitaillement; date avitaillement`),
      de: phrases(`
        datum; uhrzeit; zeit; datum und uhrzeit; ende; endzeit; ende der betankung; ende betankung; betankungsende
        betankungsdatum`),
      es: phrases(`
        fecha; hora; fecha y hora; fecha hora; fin; hora fin; hora de fin; fin de suministro; fin de repostaje; fin repostaje`),
      pt: phrases(`
        data; hora; data e hora; data hora; fim; hora fim; hora de fim; fim do abastecimento`),
      it: phrases('data; ora; data e ora; data ora; fine; ora fine; fine rifornimento')
    },
    help: 'When fuelling ended. Charts count an uplift in the month and week of this instant, in UTC.'
  },
  {
    name: 'startTime',
    kind: 'time',
    label: 'Start of fuelling',
    required: 'no',
    headerWords: {
      en: phrases(`
        start of fuelling; fuelling start; start time; begin; started; start; start date
        fuelling start time; refuelling start; start of refuelling; begin time; on time`),
      fr: phrases('debut; heure de debut; debut avitaillement'),
      de: phrases('beginn; start; startzeit; beginn der betankung; betankungsbeginn'),
      es: phrases('inicio; hora inicio; hora de inicio'),
      pt: phrases('inicio; hora inicio; hora de inicio'),
      it: phrases('inizio; ora inizio; inizio rifornimento')
    },
    help: 'When fuelling began.'
  },
  {
    name: 'station',
    kind: 'name',
    label: 'Station',
    required: 'yes',
    headerWords: {
      en: phrases(`
        station; airport; location; port; departure station; place; airport code; station code
        uplift station; uplift location; fuelling station; uplift airport; base; iata; icao
        iata code; icao code; apt`),
      fr: phrases('escale; aeroport; station; code aeroport'),
      de: phrases('flughafen; station; ort; flughafencode'),
      es: phrases('aeropuerto; estacion; escala; base'),
      pt: phrases('aeroporto; estacao; escala; base'),
      it: phrases('aeroporto; scalo; stazione')
    },
    help: 'The airport where the aircraft was refuelled, by the code the source uses.'
  },
  {
    name: 'tail',
    kind: 'name',
    label: 'Tail',
    required: 'yes',
    headerWords: {
      en: phrases(`
        tail; tail number; registration; aircraft registration; reg; ac reg; tail no; tail id
        aircraft reg; aircraft tail; ac registration; registration no; registration mark
        registration marks; aircraft id; aircraft; ac; rego`),
      fr: phrases('immatriculation; immat; avion'),
      de: phrases('kennzeichen; luftfahrzeugkennzeichen; lfz kennzeichen; registrierung; flugzeug'),
      es: phrases('matricula; matricula aeronave; aeronave; avion'),
      pt: phrases('matricula; prefixo; aeronave'),
      it: phrases('marche; immatricolazione; aeromobile')
    },
    help: 'The registration of the aircraft.'
  },
  {
    name: 'type',
    kind: 'name',
    label: 'Aircraft type',
    required: 'no',
    headerWords: {
      en: phrases(`
        aircraft type; type; ac type; type designator; aircraft model; ac model; equipment
        aircraft type code; subtype`),
      fr: phrases('type avion; type d avion; type appareil'),
      de: phrases('flugzeugtyp; flugzeugmuster; muster; typ'),
      es: phrases('tipo de aeronave; tipo aeronave; tipo avion; modelo'),
      pt: phrases('tipo de aeronave; tipo aeronave; modelo'),
      it: phrases('tipo aeromobile; tipo di aeromobile; modello')
    },
    help: 'The type designator of the aircraft. Limits, gauge step and tanks are looked up by it.'
  },
  {
    name: 'flight',
    kind: 'text',
    label: 'Flight',
    required: 'no',
    headerWords: {
      en: phrases(`
        flight; flight number; flight no; flt; flight id; flight nr; callsign; flight code`),
      fr: phrases('numero de vol; numero vol'),
      de: phrases('flug; flugnummer; flug nr'),
      es: phrases('vuelo; numero de vuelo; n vuelo'),
      pt: phrases('voo; numero do voo; n voo'),
      it: phrases('volo; numero volo; numero di volo')
    },
    help: 'The flight number the uplift was made for.'
  },
  {
    name: 'supplier',
    kind: 'name',
    label: 'Supplier',
    required: 'no',
    headerWords: {
      en: phrases(`
        supplier; fuel supplier; seller; vendor; supplier name; fuel company; oil company
        fuel vendor; contractor; contract supplier`),
      fr: phrases('fournisseur; petrolier'),
      de: phrases('lieferant; anbieter'),
      es: phrases('proveedor; suministrador'),
      pt: phrases('fornecedor'),
      it: phrases('fornitore')
    },
    help: 'Who sold the fuel. The company that pumped it may be another: see into-plane agent.'
  },
  {
    name: 'intoPlaneAgent',
    kind: 'name',
    label: 'Into-plane agent',
    required: 'no',
    headerWords: {
      en: phrases(`
        into plane agent; into plane; agent; delivered by; fuelling company; into plane company
        into plane operator; ipa; itp agent; fuelling agent; into plane supplier; handling company`),
      fr: phrases('avitailleur; societe d avitaillement'),
      de: phrases('betankungsfirma; betankungsdienst; into plane'),
      es: phrases('agente de abastecimiento; agente into plane'),
      pt: phrases('agente de abastecimento'),
      it: phrases('agente di rifornimento')
    },
    help: 'The company that put the fuel on board.'
  },
  {
    name: 'vehicle',
    kind: 'name',
    label: 'Vehicle',
    required: 'no',
    headerWords: {
      en: phrases(`
        vehicle; refueller; fueller; bowser; dispenser; hydrant dispenser; truck; unit no
        vehicle no; vehicle id; vehicle number; truck no; truck id; refueller no; refueller id
        fueller no; dispenser no; hydrant cart; servicer; hydrant servicer; fuel truck; bowser no
        equipment no; unit id`),
      fr: phrases('vehicule; camion; camion avitailleur; oleoserveur; numero de vehicule'),
      de: phrases('fahrzeug; tankwagen; tankfahrzeug; dispenser; fahrzeugnummer; fahrzeug nr'),
      es: phrases('vehiculo; camion; cisterna; dispensador; unidad'),
      pt: phrases('veiculo; caminhao; camiao; viatura; unidade abastecedora'),
      it: phrases('veicolo; autobotte; mezzo; autocisterna')
    },
    help: 'The refueller or hydrant dispenser that carries the meter.'
  },
  {
    name: 'meter',
    kind: 'name',
    label: 'Meter',
    required: 'no',
    headerWords: {
      en: phrases(`
        meter; meter id; meter no; meter serial; meter number; meter serial no; meter serial number
        flow meter; flowmeter; bulk meter`),
      fr: phrases('compteur; numero de compteur; debitmetre'),
      de: phrases('zahler; zaehler; zahlernummer; messanlage'),
      es: phrases('contador; medidor; numero de contador'),
      pt: phrases('medidor; contador; numero do medidor'),
      it: phrases('contatore; numero contatore; misuratore')
    },
    help: 'The bulk meter, where the source names it apart from the vehicle.'
  },
  {
    name: 'grade',
    kind: 'name',
    label: 'Grade',
    required: 'no',
    headerWords: {
      en: phrases(`
        grade; fuel grade; product; fuel type; grade of fuel; product grade; fuel product; fuel spec
        product code`),
      fr: phrases('produit; qualite; type de carburant; carburant'),
      de: phrases('sorte; produkt; kraftstoffsorte; treibstoffart'),
      es: phrases('producto; grado; tipo de combustible'),
      pt: phrases('produto; grau; tipo de combustivel'),
      it: phrases('prodotto; grado; tipo di carburante; tipo carburante')
    },
    help: 'The fuel grade as the source writes it. Density limits are looked up by it.'
  },
  {
    name: 'batch',
    kind: 'name',
    label: 'Batch',
    required: 'no',
    headerWords: {
      en: phrases(`
        batch; batch no; batch number; certificate; certificate no; batch id; lot; lot no
        certificate number; release certificate; coq; certificate of quality; coa`),
      fr: phrases('lot; numero de lot; certificat'),
      de: phrases('charge; chargennummer; zertifikat; chargen nr'),
      es: phrases('lote; numero de lote; certificado'),
      pt: phrases('lote; numero do lote; certificado'),
      it: phrases('lotto; numero lotto; certificato')
    },
    help: 'The fuel batch or certificate number.'
  },
  {
    name: 'remarks',
    kind: 'text',
    label: 'Remarks',
    required: 'no',
    headerWords: {
      en: phrases(`
        remarks; remark; comment; comments; notes; note; observations; remarks and comments
        free text`),
      fr: phrases('remarques; remarque; observations; commentaire; commentaires'),
      de: phrases('bemerkung; bemerkungen; anmerkung; kommentar; notiz'),
      es: phrases('observaciones; comentarios; notas'),
      pt: phrases('observacoes; comentarios; notas'),
      it: phrases('osservazioni; commenti; note')
    },
    help: 'Free text. It stays in this browser and never enters a link.'
  }
] as const satisfies readonly FieldDefinition[];
