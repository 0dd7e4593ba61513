package quantity

import (
	"math"

	"floatarc/geometry"
)

// A Quantity is a value with its standard uncertainty, both in the unit of its
// dimension. The uncertainty is 0 where none was stated.
type Quantity struct {
	Value float64
	Sigma float64
}

// A Dimension is what a measure is a measure of.
type Dimension struct {
	Name string // with its article: "a length"
	Bare string // the unit of a bare number, and of every Quantity
	Hint string // how to write one, for errors

	units []unit
}

// A unit turns a number written with one of its symbols into the bare unit, and back.
type unit struct {
	symbols  []string
	to, from func(float64) float64
}

func times(factor float64, symbols ...string) unit {
	return unit{
		symbols: symbols,
		to:      func(v float64) float64 { return v * factor },
		from:    func(v float64) float64 { return v / factor },
	}
}

// over is a unit of which the more is the less: so far with a litre.
func over(top float64, symbols ...string) unit {
	inverse := func(v float64) float64 { return top / v }
	return unit{symbols, inverse, inverse}
}

// Exact conversion factors. Inch and pound: international yard and pound
// agreement, 1959. Gallons: NIST Handbook 44, appendix C (231 cubic inches), and
// the UK Units of Measurement Regulations 1995 (4.54609 L).
const (
	MMPerInch         = 25.4
	MMPerFoot         = 12 * MMPerInch
	LitresPerUSGallon = 3.785411784
	LitresPerGallon   = 4.54609 // imperial
	GramsPerOunce     = 28.349523125
	KMPerMile         = 1.609344
	KMPerNauticalMile = 1.852
)

// The dimensions of a rig.
var (
	Length = &Dimension{Name: "a length", Bare: "mm", Hint: `620, "24 3/8 in", "2 ft 3 in" or "61 cm"`, units: []unit{
		times(1, "mm"), times(10, "cm"), times(1000, "m"),
		times(MMPerInch, "in", "in.", "inch", "inches", `"`, "″", "''"),
		times(MMPerFoot, "ft", "ft.", "foot", "feet", "'", "′"),
	}}
	Volume = &Dimension{Name: "a volume", Bare: "L", Hint: `58, "58 L", "18 US gal" or "15 imp gal"`, units: []unit{
		times(1, "L", "l", "litre", "litres", "liter", "liters", "dm3", "dm³"),
		times(1e-3, "ml", "mL", "cm3", "cm³", "cc"), times(0.1, "dl", "dL"), times(0.01, "cl", "cL"), times(1000, "m3", "m³"),
		times(LitresPerUSGallon, "US gal", "USgal", "US gallon", "US gallons", "gal(US)"),
		times(LitresPerGallon, "imp gal", "impgal", "imperial gal", "imperial gallon", "imperial gallons", "UK gal", "gal(imp)", "gal(UK)"),
		times(MMPerInch*MMPerInch*MMPerInch/1e6, "in3", "in³", "cu in"),
	}}
	Angle = &Dimension{Name: "an angle", Bare: "deg", Hint: `-48, "3.5 deg" or a grade "15 %"`, units: []unit{
		times(1, "deg", "°", "degree", "degrees"), times(180/math.Pi, "rad"),
		{
			symbols: []string{"%"},
			to:      func(v float64) float64 { return math.Atan(v/100) * 180 / math.Pi },
			from:    func(v float64) float64 { return 100 * math.Tan(v*math.Pi/180) },
		},
	}}
	Resistance = &Dimension{Name: "a resistance", Bare: "ohm", Hint: `240, "0.3 ohm", "0.3 Ω" or "1.2 kohm"`, units: []unit{
		times(1, "ohm", "ohms", "Ω", "Ω", "R"), times(1e-3, "mohm", "mΩ", "mΩ"),
		times(1e3, "kohm", "kΩ", "kΩ"), times(1e6, "Mohm", "MΩ", "MΩ"),
	}}
	Mass = &Dimension{Name: "a mass", Bare: "g", Hint: `14, "14 g" or "0.5 oz"`, units: []unit{
		times(1, "g", "gram", "grams"), times(1000, "kg"), times(GramsPerOunce, "oz"), times(16*GramsPerOunce, "lb"),
	}}
	Temperature = &Dimension{Name: "a temperature", Bare: "degC", Hint: `20, "20 degC" or "75 degF"`, units: []unit{
		times(1, "degC", "°C", "C"),
		{
			symbols: []string{"degF", "°F", "F"},
			to:      func(v float64) float64 { return (v - 32) / 1.8 },
			from:    func(v float64) float64 { return 1.8*v + 32 },
		},
		{
			symbols: []string{"K"},
			to:      func(v float64) float64 { return v - 273.15 },
			from:    func(v float64) float64 { return v + 273.15 },
		},
	}}
	Density = &Dimension{Name: "a density", Bare: "kg/m3", Hint: `745 or "0.745 kg/L"`, units: []unit{
		times(1, "kg/m3", "kg/m³", "g/L", "g/l"), times(1000, "kg/L", "kg/l", "g/cm3", "g/cm³", "g/ml", "g/mL"),
		times(16*GramsPerOunce/LitresPerUSGallon, "lb/US gal"),
	}}
	Torque = &Dimension{Name: "a torque", Bare: "N.mm", Hint: `0.6 or "0.6 N.mm"`, units: []unit{
		times(1, "N.mm", "N·mm", "Nmm", "N mm", "mN.m", "mNm"), times(1000, "N.m", "N·m", "Nm"),
	}}
	Area = &Dimension{Name: "an area", Bare: "mm2", Hint: `"12 cm2" or "1.0 mm2"`, units: []unit{
		times(1, "mm2", "mm²"), times(100, "cm2", "cm²"), times(MMPerInch*MMPerInch, "in2", "in²", "sq in"),
	}}
	WireGauge = &Dimension{Name: "a wire gauge", Bare: "AWG", Hint: `"18 AWG"`, units: []unit{
		times(1, "AWG", "awg", "ga"),
	}}
	PerDistance = &Dimension{Name: "a consumption by distance", Bare: "L/100km", Hint: `"14 L/100km" or "22 mpg(US)"`, units: []unit{
		times(1, "L/100km", "l/100km", "L/100 km", "l/100 km"),
		over(100*LitresPerUSGallon/KMPerMile, "mpg(US)", "mpg (US)", "US mpg"),
		over(100*LitresPerGallon/KMPerMile, "mpg(imp)", "mpg (imp)", "imp mpg", "mpg(UK)"),
		over(100, "km/L", "km/l"),
		times(100/KMPerNauticalMile, "L/nmi", "L/NM"),
	}}
	PerTime = &Dimension{Name: "a consumption by time", Bare: "L/h", Hint: `"9 L/h" or "2.4 US gal/h"`, units: []unit{
		times(1, "L/h", "l/h"), times(LitresPerUSGallon, "US gal/h", "gph(US)"), times(LitresPerGallon, "imp gal/h", "gph(imp)"),
	}}
	Distance = &Dimension{Name: "a distance", Bare: "km", Hint: `"60 km" or "40 mi"`, units: []unit{
		times(1, "km"), times(1e-3, "m"), times(KMPerMile, "mi", "mile", "miles"), times(KMPerNauticalMile, "nmi", "NM"),
	}}
	Duration = &Dimension{Name: "a time", Bare: "h", Hint: `"45 min" or "2 h"`, units: []unit{
		times(1, "h", "hour", "hours"), times(1./60, "min", "minutes"), times(1./3600, "s"),
	}}
	Acceleration = &Dimension{Name: "an acceleration", Bare: "g", Hint: `0.2, "0.2 g" or "2 m/s2"`, units: []unit{
		times(1, "g"), times(1/geometry.Gravity, "m/s2", "m/s²"),
	}}
	Voltage = &Dimension{Name: "a voltage", Bare: "V", Hint: `5, "3.3 V" or "1100 mV"`, units: []unit{
		times(1, "V", "volt", "volts"), times(1e-3, "mV"),
	}}
	Wait = &Dimension{Name: "a time", Bare: "s", Hint: `20, "20 s" or "1 min"`, units: []unit{
		times(1, "s", "sec", "seconds"), times(60, "min", "minutes"),
	}}
	Share = &Dimension{Name: "a share", Bare: "", Hint: `0.25, "1/4" or "25 %"`, units: []unit{
		times(1, ""), times(0.01, "%", "percent"),
	}}
)

var all = []*Dimension{
	Length, Volume, Angle, Resistance, Mass, Temperature, Density, Torque, Area, WireGauge,
	PerDistance, PerTime, Distance, Duration, Voltage, Acceleration,
}

// ambiguous units, with what to write instead.
var ambiguous = map[string]string{
	"gal":     `"US gal" or "imp gal"`,
	"gallon":  `"US gal" or "imp gal"`,
	"gallons": `"US gal" or "imp gal"`,
	"mpg":     `"mpg(US)" or "mpg(imp)"`,
	"gph":     `"US gal/h" or "imp gal/h"`,
	"gal/h":   `"US gal/h" or "imp gal/h"`,
}
