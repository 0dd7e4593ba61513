package fullsize

import (
	"fmt"

	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// boxStick is the upright stick of a box of a length, width and height.
func boxStick(length, width, height float64, units quantity.System, paper ink.Paper) *Dipstick {
	perMM := length * width / 1e6
	return &Dipstick{
		Title: "Box (invented)", Stands: "Level ground. Foot in the middle, upright.", Words: []string{"Vehicle on level ground."},
		Units: units, Paper: paper, Low: 0, High: perMM * height, Along: func(litres float64) float64 { return litres / perMM },
		Marks: []StickMark{{Label: "full", Litres: perMM * height}, {Label: "unusable", Litres: perMM * 9}, {Label: "E", Litres: perMM * 9.5, Dial: true}, {Label: "1/2", Litres: perMM * height / 2, Dial: true}, {Label: "F", Litres: perMM * height, Dial: true}},
	}
}

// sampleArm is an arm with five marks between its stops.
func sampleArm(length, low, high float64, units quantity.System, paper ink.Paper) *Arm {
	a := &Arm{Title: "Arm (invented)", Length: length, Low: low, High: high, Units: units, Paper: paper}
	a.Places = []ArmPlace{{Label: "low stop", Angle: low, Ohms: 240, Stop: true}}
	for i, label := range []string{"E", "1/4", "1/2", "3/4", "F"} {
		share := 0.02 + 0.24*float64(i)
		a.Places = append(a.Places, ArmPlace{Label: label, Angle: low + share*(high-low), Ohms: 240 - share*207, Note: fmt.Sprintf("needle %d %%", 25*i)})
	}
	a.Places = append(a.Places, ArmPlace{Label: "high stop", Angle: high, Ohms: 33, Stop: true})
	return a
}

// sampleFace is a dial of five marks on a tank that holds more per position up high.
func sampleFace(diameter, sweep float64, units quantity.System, paper ink.Paper) *Face {
	return &Face{
		Title: "Dial (invented)", Diameter: diameter, Sweep: sweep, Units: units, Paper: paper,
		Marks:  []FaceMark{{"E", 0}, {"1/4", 0.25}, {"1/2", 0.5}, {"3/4", 0.75}, {"F", 1}},
		Litres: func(p float64) float64 { return 3 + 30*p + 17*p*p },
	}
}
