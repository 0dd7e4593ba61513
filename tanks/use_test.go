package tanks

import (
	"math"
	"strings"
	"testing"

	"floatarc/geometry"
)

// TestReserve turns what is promised into litres, and refuses what cannot be.
func TestReserve(t *testing.T) {
	for _, c := range []struct {
		use    string
		litres float64
		says   string
	}{
		{"consumption = \"14 L/100km\"\nreserve = \"60 km\"", 8.4, ""},
		{"consumption = \"9 L/h\"\nreserve = \"45 min\"", 6.75, ""},
		{"consumption = \"22 mpg(US)\"\nreserve = \"44 mi\"", 2 * 3.785411784, ""},
		{"reserve = \"5 L\"", 5, ""}, {"reserve = 5", 5, ""},
		{"consumption = \"9 L/h\"\nreserve = \"0 km\"", 0, ""},
		{"", 0, `:46: use.reserve: not given, expected in [use] what must be left when the lamp lights such as "60 km", "45 min" or "5 L"`},
		{"consumption = \"9 L/h\"\nreserve = \"60 km\"", 0, `: use.reserve: "60 km", but use.consumption tells no litres by distance, expected one such as "14 L/100km", or a reserve in litres`},
		{"consumption = \"9 L/100km\"\nreserve = \"90 min\"", 0, `: use.reserve: "90 min", but use.consumption tells no litres by time, expected one such as "9 L/h", or a reserve in litres`},
	} {
		rig, err := Load(write(t, sound+"\n[use]\n"+c.use+"\n"), nil)
		if err != nil {
			t.Fatal(err)
		}
		litres, err := rig.Reserve()
		switch {
		case c.says == "" && (err != nil || math.Abs(litres-c.litres) > 1e-12):
			t.Errorf("%q: %g L, %v, expected %g L", c.use, litres, err, c.litres)
		case c.says != "" && (err == nil || !strings.HasSuffix(err.Error(), c.says)):
			t.Errorf("%q: %v, expected %q", c.use, err, c.says)
		}
	}
}

// TestFillOnASlope checks where a fill stops in a box, nose up: area times the height
// of the surface over the middle of the floor, as long as floor and roof are not cut.
func TestFillOnASlope(t *testing.T) {
	square := strings.Replace(sound, "radius = 30\n", "", 1)
	at := func(fill string) *Rig {
		rig, err := Load(write(t, strings.Replace(square, "height = 240", fill, 1)), nil)
		if err != nil {
			t.Fatal(err)
		}
		return rig
	}
	level := at("at = [580, 150, 200]").Tank
	if math.Abs(level.Full-0.18*200) > 1e-9 || level.FullLevel != level.Full {
		t.Errorf("level: full %g L, on level ground %g L, expected 36", level.Full, level.FullLevel)
	}
	// The mouth in front rises with the nose: more fits. One behind sinks.
	tan := math.Tan(4 * math.Pi / 180)
	for fill, want := range map[string]float64{
		"at = [580, 150, 200]\nnose_up = 4":       0.18 * (200 + 280*tan),
		"at = [20, 150, 200]\nnose_up = 4":        0.18 * (200 - 280*tan),
		"at = [300, 290, 200]\nleft_up = -4":      0.18 * (200 - 140*tan),
		"height = 200\nleft_up = 4":               0.6 / math.Cos(4*math.Pi/180) * (0.3*200 - 0.3*150*math.Sin(4*math.Pi/180)),
		"at = [300, 150, 200]\nnose_up = \"5 %\"": 36,
	} {
		tank := at(fill).Tank
		if known := !tank.FillByHeight; math.Abs(tank.Full-want) > 1e-9 || known && math.Abs(tank.FullLevel-36) > 1e-9 || known == math.IsNaN(tank.FullLevel) {
			t.Errorf("%q: full %.12g L, on level ground %.12g L, expected %.12g and 36", fill, tank.Full, tank.FullLevel, want)
		}
		if tank.Fill == (geometry.Attitude{}) {
			t.Errorf("%q: filled on level ground", fill)
		}
	}
}
