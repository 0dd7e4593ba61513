package geometry

import (
	"math"
	"sync"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// TestSwelled: at any attitude and level everything that is counted is a factor more, and
// a level of a volume comes back.
func TestSwelled(t *testing.T) {
	drum, err := Cylinder{Diameter: 400, Length: 600, Low: Head{Kind: Torispherical}, High: Head{Kind: Ellipsoidal}}.Solid()
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		factor := rapid.Float64Range(0.7, 1.4).Draw(t, "factor")
		tilt := rapid.Float64Range(-40, 40)
		n := Attitude{tilt.Draw(t, "nose"), tilt.Draw(t, "left")}.Up()
		plain, swelled := drum.Cut(n), Swelled{drum, factor}.Cut(n)
		lo, hi := drum.Extent(n)
		h := lo + (hi-lo)*rapid.Float64Range(0.01, 0.99).Draw(t, "level")
		near := func(what string, got, want float64) {
			if math.Abs(got-want) > 1e-12*math.Abs(want) {
				t.Fatalf("%s %g, expected %g", what, got, want)
			}
		}
		near("volume", swelled.Volume(h), factor*plain.Volume(h))
		near("surface", swelled.Surface(h), factor*plain.Surface(h))
		near("moment", r3.Norm(swelled.Moment(h)), factor*r3.Norm(plain.Moment(h)))
		near("free surface", swelled.FreeSurface(h).Area, factor*plain.FreeSurface(h).Area)
		whole := swelled.Volume(hi)
		if got := LevelOf(swelled, swelled.Volume(h), lo, hi, 1e-12*whole); math.Abs(got-h) > 1e-6 {
			t.Fatalf("level %g, expected %g", got, h)
		}
	})
	dip, err := NewDip([]DipRow{{0, 0}, {100, 5e6}, {200, 12e6}})
	if err != nil {
		t.Fatal(err)
	}
	if got := LevelOf(Swelled{dip, 2}.Cut(up), 10e6, 0, 200, 1); math.Abs(got-100) > 1e-9 {
		t.Errorf("a table swelled twofold holds 10 L at %g mm, expected 100", got)
	}
}

// TestKept: a cut is made once for an attitude, and for no more than a few; many at once
// get the same.
func TestKept(t *testing.T) {
	box, err := Box{Length: 100, Width: 100, Height: 100}.Solid()
	if err != nil {
		t.Fatal(err)
	}
	made := &counted{Solid: box}
	kept := &Kept{Solid: made}
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			if v := kept.Cut(up).Volume(50); math.Abs(v-5e5) > 1e-6 {
				t.Errorf("%g mm³, expected half a litre", v)
			}
		})
	}
	all.Wait()
	before := made.cuts
	kept.Cut(up)
	if made.cuts != before {
		t.Error("an attitude that was cut is cut again")
	}
	for i := range 30 {
		kept.Cut(Attitude{NoseUp: float64(i)}.Up())
	}
	if len(kept.cuts) > mostKept {
		t.Errorf("%d cuts are kept, expected at most %d", len(kept.cuts), mostKept)
	}
}

// counted counts how often it is cut.
type counted struct {
	Solid
	lock sync.Mutex
	cuts int
}

func (c *counted) Cut(n r3.Vec) Cut {
	c.lock.Lock()
	c.cuts++
	c.lock.Unlock()
	return c.Solid.Cut(n)
}
