package main

import (
	"fmt"
	"slices"

	"floatarc/gauge"
)

// storedWarnings tell what is wrong with what the conditioner holds today, before
// any litres.
func (j *job) storedWarnings() []warning {
	stored, box := j.rig.Conditioner.Stored, j.rig.Conditioner
	if stored == nil {
		return nil
	}
	var out []warning
	if len(stored) > box.Places {
		out = append(out, warning{"stored_many", fmt.Sprintf("conditioner.stored holds %d pairs, but conditioner.points is %d: which is it?", len(stored), box.Places)})
	}
	if len(stored) < 2 {
		out = append(out, warning{"stored_few", "conditioner.stored holds a single pair: the needle stands still."})
	}
	if _, err := box.Lines(stored); err != nil {
		return append(out, warning{"stored_beyond", fmt.Sprintf("conditioner.stored: %v that the conditioner tells apart (conditioner.input_range, reference).", err)})
	}
	if zigzag(stored) {
		out = append(out, warning{"stored_zigzag", "The stored pairs go up and down: the needle would swing back as the tank fills. Is one of them mistyped?"})
	} else if j.backwards(stored) {
		out = append(out, warning{"stored_backwards", "The stored pairs run backwards: the needle falls as the tank fills. Are inputs or positions swapped?"})
	}
	return out
}

// zigzag tells whether the positions neither rise nor fall all the way with the
// inputs.
func zigzag(stored []gauge.Pair) bool {
	sorted := slices.SortedFunc(slices.Values(stored), gauge.ByInput)
	for i := 2; i < len(sorted); i++ {
		if (sorted[i].Position-sorted[i-1].Position)*(sorted[i-1].Position-sorted[i-2].Position) < 0 {
			return true
		}
	}
	return false
}

// backwards tells whether pairs show less where the sender shows more fuel.
func (j *job) backwards(stored []gauge.Pair) bool {
	track := j.rig.Sender.Track()
	rises := track.Ohms(j.rig.Level.High) > track.Ohms(j.rig.Level.Low)
	least, most := slices.MinFunc(stored, gauge.ByInput), slices.MaxFunc(stored, gauge.ByInput)
	return least.Input != most.Input && (most.Position > least.Position) != rises
}
