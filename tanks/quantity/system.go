package quantity

import (
	"fmt"
	"strconv"
	"strings"
)

// A System is the set of units in which people read results.
type System struct {
	Name     string
	Length   Display
	Volume   Display
	Area     Display // of surfaces
	Distance Display
}

// A Display is a unit to write a quantity in.
type Display struct {
	Symbol   string
	per      float64 // bare units in one of these
	Decimals int     // that a person reads
}

// The systems of units.
var (
	Metric = System{
		Name: "metric", Length: Display{"mm", 1, 0}, Volume: Display{"L", 1, 2},
		Area: Display{"cm²", 100, 0}, Distance: Display{"km", 1, 0},
	}
	US = System{
		Name: "us", Length: Display{"in", MMPerInch, 2}, Volume: Display{"US gal", LitresPerUSGallon, 2},
		Area: Display{"in²", MMPerInch * MMPerInch, 1}, Distance: Display{"mi", KMPerMile, 0},
	}
	Imperial = System{
		Name: "imperial", Length: Display{"in", MMPerInch, 2}, Volume: Display{"imp gal", LitresPerGallon, 2},
		Area: Display{"in²", MMPerInch * MMPerInch, 1}, Distance: Display{"mi", KMPerMile, 0},
	}
)

// Named returns the system of a name: metric, us or imperial.
func Named(name string) (System, error) {
	for _, s := range []System{Metric, US, Imperial} {
		if s.Name == name {
			return s, nil
		}
	}
	return System{}, fmt.Errorf("units %q, expected metric, us or imperial", name)
}

// Of converts from the bare unit.
func (d Display) Of(bare float64) float64 { return bare / d.per }

// Number writes a value without its unit.
func (d Display) Number(bare float64) string { return Fixed(d.Of(bare), d.Decimals) }

// Text writes a value with its unit.
func (d Display) Text(bare float64) string { return d.Number(bare) + " " + d.Symbol }

// Size writes a value as a tape gives it, with no more digits than it needs, and
// its unit.
func (d Display) Size(bare float64) string {
	return Trimmed(d.Of(bare), d.Decimals+1) + " " + d.Symbol
}

// Finer returns the display with more decimals.
func (d Display) Finer(decimals int) Display {
	d.Decimals += decimals
	return d
}

// Fixed writes a number with so many decimals, and never a minus zero.
func Fixed(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(s, "-0.") == "" {
		return strings.TrimPrefix(s, "-")
	}
	return s
}

// Signed writes a number with so many decimals and its sign; 0 has none.
func Signed(v float64, decimals int) string {
	s := Fixed(v, decimals)
	if v > 0 && strings.Trim(s, "0.") != "" {
		return "+" + s
	}
	return s
}

// Trimmed writes a number with no more decimals than it needs, and at most so many.
func Trimmed(v float64, decimals int) string {
	s := Fixed(v, decimals)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}
