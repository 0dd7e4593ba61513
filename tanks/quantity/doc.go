// Package quantity reads and writes measures as people write them: "24 3/8 in",
// "2 ft 3 1/4 in", "61 cm", "18 US gal", "0.3 Ω", "15 %", "210 ± 3 mm".
//
// A [Dimension] knows its units; [Dimension.Parse] turns a text into a
// [Quantity] in the dimension's own unit, the one in which a bare number is
// taken: mm, L, degree, ohm, gram, degC, kg/m3. A [System] says in which units
// people want to read.
package quantity
