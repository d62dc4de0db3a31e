/** Cautions, each to be shown where it bites. */
export const cautions = {
  notADispatchTool:
    'Gaugebook shows trends for audit. It clears no aircraft: release, loading and fuelling decisions belong to the operator’s approved procedures and licensed staff.',
  contamination:
    'Where contamination or a wrong grade is suspected: stop fuelling, hold the aircraft, quarantine vehicle, tank and samples, tell the flight crew, maintenance control, the supplier and the airport, and follow the approved procedures and the local fire code. Do not wait for a chart.',
  agreementIsNotProof:
    'Agreement proves little when both numbers rest on the same factor or the same assumption. A reconciled total cannot see a wrong grade or a wrong split between tanks.',
  hypothesis:
    'A cause is a proposal: what would fit if one thing were wrong. Records are never corrected by it.',
  fewRecords: 'Do not lay a discrepancy at a person’s or a supplier’s door on few records.',
  estimated:
    'Estimated records rest on a default or a missing temperature and are left out of rates unless switched on.',
  groundBurn: 'Ground burn that was not recorded counts as 0 here; its possible size is part of the doubt.',
  densityTables:
    'The density tables are general correlations for petroleum products; they fit light and highly synthetic fuel less well.',
  limitsAreSettings:
    'Limits are settings. The fuel specification, the joint guidance documents and the operator’s manual in force prevail.',
  sameDay: 'Repeated disagreement of one aircraft’s gauges goes to maintenance control the same day.',
  missingIsNotPass: 'A missing check is not a pass.',
  notTheArchive: 'Gaugebook is not the archive of record: keep the source files.',
  exports: 'Data stay in this browser. What you export may hold commercial and personal data.'
} as const;
export type Caution = keyof typeof cautions;
