package reserve

import (
	"fmt"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/calibration"
	"floatarc/float"
	"floatarc/gauge"
	"floatarc/geometry"
	"floatarc/geometry/mesh"
	"floatarc/geometry/mesh/meshtest"
	"floatarc/volume"
)

// BenchmarkSolve is the warning of the built-in rigs, over their whole envelope.
func BenchmarkSolve(b *testing.B) {
	for _, name := range []string{"demo", "quad", "camper", "launch"} {
		b.Run(name, func(b *testing.B) {
			p := promise(b, name)
			for b.Loop() {
				if _, err := p.Solve(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkSolveMesh is the warning of a saddle of triangles.
func BenchmarkSolveMesh(b *testing.B) {
	for _, n := range []int{1e4, 1e5} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			p := saddle(b, n)
			for b.Loop() {
				if _, err := p.Solve(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// saddle is a promise of a mesh with a sender in one of its legs.
func saddle(t testing.TB, triangles int) *Promise {
	t.Helper()
	m, err := mesh.New(meshtest.Saddle(triangles), mesh.Unsaid)
	if err != nil {
		t.Fatal(err)
	}
	tank := &volume.Tank{Solid: m, Full: 0.95 * geometry.Volume(m) / 1e6, Pickup: volume.DrawPoint{X: 310, Y: 495, Z: 95}}
	track, err := float.NewLines([][2]float64{{-70, 240}, {20, 33}})
	if err != nil {
		t.Fatal(err)
	}
	arm, err := float.NewArm(float.Arm{Pivot: r3.Vec{X: 310, Y: 470, Z: 230}, Length: 130, Low: -70, High: 20}, track)
	if err != nil {
		t.Fatal(err)
	}
	contents, err := tank.At(geometry.Attitude{})
	if err != nil {
		t.Fatal(err)
	}
	level, ok := volume.Relate(contents, arm, arm.Low, arm.High, tank.Full)
	if !ok {
		t.Fatal("the arm follows the fuel nowhere")
	}
	rig := &calibration.Rig{Tank: tank, Sender: arm, Low: arm.Low, High: arm.High, Level: level, Conditioner: gauge.Conditioner{Law: gauge.Resistance{}}}
	return &Promise{Rig: rig, Envelope: Envelope{10, 6}, Reserve: 4}
}
