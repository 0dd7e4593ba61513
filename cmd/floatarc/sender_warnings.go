package main

import (
	"fmt"
	"math"

	"floatarc/float"
	"floatarc/geometry"
	"floatarc/volume"
)

// swingWarnings tells where walls and the vertical cut the arm's way.
func (j *job) swingWarnings() []warning {
	var out []warning
	if arm := j.file.Sender.Arm; arm != nil {
		s := j.file.Sender.Swing
		if m := s.MetLow; m != nil {
			out = append(out, j.cutWarning(m, "before the low stop", arm.Low, "the arm cannot hang lower"))
		}
		if m := s.MetHigh; m != nil {
			out = append(out, j.cutWarning(m, "before the high stop", arm.High, "the arm cannot rise higher"))
		}
	}
	if j.sticks(j.rig.Level) {
		out = append(out, warning{"arm_sticks", fmt.Sprintf("On level ground the arm follows the fuel only from %.1f° to %.1f°; beyond, it would have to swing past the vertical and hangs still.",
			j.rig.Level.Low, j.rig.Level.High)})
	}
	return out
}

// sticks tells whether the arm does not follow the fuel over its whole swing.
func (j *job) sticks(rel *volume.Relation) bool {
	const rounding = 1e-6 // degrees
	return j.file.Sender.Arm != nil && (rel.Low > j.rig.Low+rounding || rel.High < j.rig.High-rounding)
}

// cutWarning names the wall that the float meets, and the litres of swing lost to
// it.
func (j *job) cutWarning(m *float.Contact, where string, stop float64, so string) warning {
	what := "The float centre"
	if j.file.Sender.Buoy() != nil {
		what = "The float"
	}
	lost := ""
	path := j.file.Sender.Arm.In(j.rig.Level.Contents.Up)
	if a, b := path.Level(m.Angle), path.Level(stop); !math.IsNaN(a) && !math.IsNaN(b) {
		if l := math.Abs(j.rig.Level.Contents.Litres(b) - j.rig.Level.Contents.Litres(a)); l > edge(j) {
			lost = fmt.Sprintf(", and %s of its range are lost", j.sys.Volume.Text(l))
		}
	}
	return warning{"swing_cut", fmt.Sprintf("%s meets %s at %.1f°, %s at %.1f°: %s%s.", what, wallWords(j.file.Tank.Shape, m), m.Angle, where, stop, so, lost)}
}

// wallWords names a wall.
func wallWords(tank geometry.Composite, m *float.Contact) string {
	body, side := tank.WallAt(m.At, m.From)
	switch {
	case body == "":
		return "a wall"
	case side == "":
		return body
	}
	return fmt.Sprintf("the %s of %s", side, body)
}

// dragged tells whether friction makes rising and falling fuel read unlike.
func (j *job) dragged() bool {
	buoy := j.file.Sender.Buoy()
	return buoy != nil && buoy.Drag > 0
}

// frictionWarnings tells where friction holds the arm.
func (j *job) frictionWarnings() []warning {
	if !j.dragged() {
		return nil
	}
	var out []warning
	for _, way := range ways {
		rel, ok := j.rig.On(j.rig.Level, way.sense)
		switch {
		case !ok:
			out = append(out, warning{"arm_held", fmt.Sprintf("On %s fuel the friction holds the arm at every angle: the float is too small or too light for it.", way.name)})
		case rel.Low > j.rig.Level.Low+1e-6 || rel.High < j.rig.Level.High-1e-6:
			out = append(out, warning{"arm_held", fmt.Sprintf("On %s fuel the friction holds the arm except from %.1f° to %.1f°: nearer to the vertical the float is too weak for it.", way.name, rel.Low, rel.High)})
		}
	}
	return out
}
