package main

import (
	"fmt"
	"math"

	"floatarc/tanks/quantity"
)

// halfWay is how near to the middle of two marks, as a share of the dial, a needle
// stands half way.
const halfWay = 0.001

// place tells where the needle stands by the nearest mark: "on 1/4", "3 % above E",
// "half way from E to 1/4".
func (j *job) place(position float64) string {
	marks := j.rig.Dial.Marks
	near := marks[0]
	for i, m := range marks {
		if i > 0 && math.Abs(position-(marks[i-1].Position+m.Position)/2) < halfWay {
			return fmt.Sprintf("half way from %s to %s", marks[i-1].Label, m.Label)
		}
		if math.Abs(m.Position-position) < math.Abs(near.Position-position) {
			near = m
		}
	}
	percent := 100 * (position - near.Position)
	switch size := quantity.Fixed(math.Abs(percent), 0); {
	case size == "0":
		return "on " + near.Label
	case percent > 0:
		return fmt.Sprintf("%s %% above %s", size, near.Label)
	default:
		return fmt.Sprintf("%s %% below %s", size, near.Label)
	}
}
