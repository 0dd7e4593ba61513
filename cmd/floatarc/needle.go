package main

import (
	"fmt"
	"math"

	"floatarc/tanks/quantity"
)

// place tells where the needle stands by the nearest mark: "on 1/4", "3 % above E".
func (j *job) place(position float64) string {
	marks := j.rig.Dial.Marks
	near := marks[0]
	for _, m := range marks {
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
