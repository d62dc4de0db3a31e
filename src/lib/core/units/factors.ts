/** Litres in one US gallon, exact: 231 cubic inches. NIST Handbook 44 Appendix C, NIST SP 811. */
export const litresPerUsGallon = 3.785411784;

/**
 * Litres in one imperial (UK) gallon, exact. NIST Handbook 44 Appendix C.
 * Some machine-readable copies of UN/CEFACT Recommendation 20 print 4.546092, which is not the definition.
 */
export const litresPerImperialGallon = 4.54609;

/** Litres in one US petroleum barrel, exact: 42 US gallons. NIST Handbook 44 Appendix C. */
export const litresPerUsBarrel = 158.987294928;

/** Kilograms in one avoirdupois pound, exact. NIST SP 811. */
export const kilogramsPerPound = 0.45359237;

/** Kilopascals in one pound-force per square inch, from the exact pound, inch and standard gravity. NIST SP 811. */
export const kilopascalsPerPsi = 6.894757293168;

/**
 * Density of water at 60 F in kg/m3, to which relative density 60/60 F refers. API MPMS Chapter 11.5. The tables
 * of 1980 used 999.012: 0.004 kg/m3 lower at 800 kg/m3.
 */
export const waterDensity60FKgM3 = 999.016;

/** Relative density 60/60 F = numerator / (degrees API + offset). Definition of the API scale, API MPMS 11.5. */
export const degreeApiNumerator = 141.5;

/** The offset of the same definition. */
export const degreeApiOffset = 131.5;

/** 60 F in degrees Celsius: 140 / 9. */
export const sixtyFahrenheitC = 140 / 9;
