package main

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/plots"
	"floatarc/tanks"
	"floatarc/tanks/quantity"
)

// A guess makes defaults for what is not measured out of what is: a sender that would fit
// into the tank, so that the file can be read. They are those of the template, in proportion.
type guess struct {
	form  form
	sys   quantity.System
	known map[string]string // what is answered, by letter, as a person writes it
}

// A usualTank is the tank of a template, in mm.
type usualTank struct {
	size, pivot, pickup r3.Vec
	fill, arm           float64
	low, high           float64 // degrees
	heading             string
}

var usualTanks = map[plots.TankShape]usualTank{
	plots.BoxTank:  {r3.Vec{X: 620, Y: 320, Z: 240}, r3.Vec{X: 310, Y: 160, Z: 195}, r3.Vec{X: 300, Y: 160, Z: 10}, 226, 205, -50, 5, "forward"},
	plots.VeeTank:  {r3.Vec{X: 620, Y: 600, Z: 340}, r3.Vec{X: 310, Y: 300, Z: 270}, r3.Vec{X: 80, Y: 300, Z: 16}, 331, 255, -68, 9, "forward"},
	plots.DrumTank: {r3.Vec{X: 680, Y: 400, Z: 400}, r3.Vec{X: 340, Y: 200, Z: 300}, r3.Vec{X: 340, Y: 200, Z: 16}, 359, 240, -70, 17, "aft"},
}

// The float, the bottom of a section with a V bottom, and the sender's ohms of the templates.
const (
	floatAcross, floatLong, floatDraft = 40., 50., 15.
	chineShare, keelRadius, chineUsual = 120. / 340, 40., 120.
	drumShare                          = 400. / 680 // of the diameter to the length over the heads
	ohmsLow, ohmsHigh                  = 240., 33.
	stopsApart                         = 55. // degrees
)

// figure is an answered value in the bare unit of its dimension.
func (g guess) figure(letter string, dim *quantity.Dimension, otherwise float64) float64 {
	if q, err := dim.Parse(g.known[letter]); err == nil {
		return q.Value
	}
	return otherwise
}

func (g guess) length(letter string, otherwise float64) float64 {
	return g.figure(letter, quantity.Length, otherwise)
}

// size is that of the box around the tank.
func (g guess) size() r3.Vec {
	usual := usualTanks[g.form.shape].size
	if g.form.shape == plots.DrumTank {
		around := g.length("H", math.Pi*usual.Y)
		if _, known := g.known["H"]; !known {
			around = math.Pi * min(usual.Y, drumShare*g.length("B", usual.X))
		}
		across := around / math.Pi
		return r3.Vec{X: g.length("B", max(usual.X, across/drumShare)), Y: across, Z: across}
	}
	return r3.Vec{X: g.length("B", usual.X), Y: g.length("C", usual.Y), Z: g.length("D", usual.Z)}
}

// defaults are the TOML values, by letter, of what depends on other answers.
func (g guess) defaults() map[string]string {
	size, usual := g.size(), usualTanks[g.form.shape]
	scale := r3.Vec{X: size.X / usual.size.X, Y: size.Y / usual.size.Y, Z: size.Z / usual.size.Z}
	least := min(scale.X, scale.Y, scale.Z)
	out := map[string]string{
		"B": g.tape(size.X), "C": g.tape(size.Y), "D": g.tape(size.Z), "H": g.tape(math.Pi * size.Y),
		"K": g.tape(usual.fill * scale.Z), "L": g.at(usual.pickup, scale), "P": g.at(usual.pivot, scale),
		"U": g.tape(floatAcross * min(1, least)), "V": g.tape(floatLong * min(1, least)),
	}
	if g.form.shape == plots.VeeTank {
		chine := g.length("E", chineShare*size.Z)
		out["E"], out["F"] = g.tape(chine), g.tape(size.Y/2)
		out["G"] = g.tape(keelRadius * max(0, min(1, scale.Y, scale.Z, chine/chineUsual)))
	} else {
		delete(out, "E")
	}
	heading, room := g.heading(size)
	out["R"] = tanks.Literal(heading)
	out["Q"] = g.tape(min(usual.arm*least, room))
	out["W"] = g.tape(floatDraft / floatAcross * g.length("U", floatAcross*min(1, least)))
	g.stops(out)
	return out
}

// stops guesses the ends of the swing, and the ohms there, apart from those that are known.
func (g guess) stops(out map[string]string) {
	usual := usualTanks[g.form.shape]
	low, high := g.figure("S", quantity.Angle, usual.low), g.figure("T", quantity.Angle, usual.high)
	if low >= high-1 {
		if _, known := g.known["T"]; known {
			low = high - stopsApart
		} else {
			high = low + stopsApart
		}
	}
	out["S"], out["T"] = fmt.Sprint(low), fmt.Sprint(high)
	x, y := ohmsLow, ohmsHigh
	if g.figure("X", quantity.Resistance, x) == y {
		y = ohmsLow
	}
	if g.figure("Y", quantity.Resistance, y) == x {
		x = ohmsHigh
	}
	out["X"], out["Y"] = fmt.Sprint(x), fmt.Sprint(y)
}

// heading is where the arm may point, and how long it may be there.
func (g guess) heading(size r3.Vec) (heading string, room float64) {
	usual := usualTanks[g.form.shape]
	pivot := r3.Vec{X: size.X / 2, Y: size.Y / 2}
	if parts := strings.Split(g.known["P"], ","); len(parts) == 3 {
		for i, into := range []*float64{&pivot.X, &pivot.Y} {
			if q, err := quantity.Length.Parse(parts[i]); err == nil {
				*into = q.Value
			}
		}
	}
	const share = 0.8 // of the way to the wall
	rooms := map[string]float64{"forward": share * (size.X - pivot.X), "aft": share * pivot.X, "left": share * (size.Y - pivot.Y), "right": share * pivot.Y}
	if way, known := g.known["R"]; known {
		if r, ok := rooms[way]; ok {
			return way, r
		}
		return usual.heading, min(rooms["forward"], rooms["aft"], rooms["left"], rooms["right"])
	}
	heading = usual.heading
	for _, way := range []string{"forward", "aft", "left", "right"} {
		if rooms[heading] < share*size.X/3 && rooms[way] > rooms[heading] {
			heading = way
		}
	}
	return heading, rooms[heading]
}

// tape writes a length to the whole millimetre or eighth of an inch, and never as nothing
// unless it is.
func (g guess) tape(mm float64) string {
	step := 1.
	if g.sys.Name != quantity.Metric.Name {
		step = quantity.MMPerInch / 8
	}
	rounded := step * math.Round(mm/step)
	if rounded == 0 && mm > 0 {
		rounded = step
	}
	if !(math.Abs(rounded) < 1e9) {
		rounded = 1e9
	}
	return tapeText(rounded+0, g.sys)
}

// at writes a place in proportion.
func (g guess) at(usual, scale r3.Vec) string {
	return fmt.Sprintf("[%s, %s, %s]", g.tape(usual.X*scale.X), g.tape(usual.Y*scale.Y), g.tape(usual.Z*scale.Z))
}
