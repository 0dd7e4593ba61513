package trials_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"

	"floatarc/calibration"
	"floatarc/calibration/trials"
	"floatarc/gauge"
	"floatarc/tanks"
)

// sum is a family whose figure is the plain sum of its measures.
func sum(measures ...calibration.Measure) *calibration.Family {
	return &calibration.Family{Measures: measures, Rig: func(values []float64) (*calibration.Rig, error) {
		total := 0.0
		for _, v := range values {
			total += v
		}
		return &calibration.Rig{Wiring: gauge.Wiring{Ground: total}}, nil
	}}
}

func ground(rig *calibration.Rig) ([]float64, error) { return []float64{rig.Wiring.Ground}, nil }

// TestAdditiveModel is the additive model of JCGM 101:2008, 9.2: the sum of four
// quantities, all normal (9.2.2), all rectangular (9.2.3), and rectangular with one of
// ten times the standard deviation (9.2.4). Intervals from memory; its 10⁶ trials gave
// ±3.92, ±3.88 and ±17.0.
func TestAdditiveModel(t *testing.T) {
	normal := func(sigma float64) calibration.Measure { return calibration.Measure{Sigma: sigma} }
	even := func(sigma float64) calibration.Measure { return calibration.Measure{Sigma: sigma, Even: true} }
	for _, c := range []struct {
		name       string
		family     *calibration.Family
		half, slip float64 // slip: four standard errors of the quantile of 200,000 trials
	}{
		{"normal", sum(normal(1), normal(1), normal(1), normal(1)), 3.92, 0.05},
		{"rectangular", sum(even(1), even(1), even(1), even(1)), 3.88, 0.05},
		{"one of ten", sum(even(1), even(1), even(1), even(10)), 17.0, 0.1},
	} {
		r, err := (&trials.Trials{Family: c.family, Count: 200000, Seed: 1}).Run(ground)
		if err != nil {
			t.Fatal(err)
		}
		if b := r.Band(0); math.Abs(b.Low+c.half) > c.slip || math.Abs(b.High-c.half) > c.slip {
			t.Errorf("%s: %.3f to %.3f, expected ±%g", c.name, b.Low, b.High, c.half)
		}
	}
}

// TestCauses: of a sum the shares are those of the variances.
func TestCauses(t *testing.T) {
	r, err := (&trials.Trials{Family: sum(calibration.Measure{Sigma: 3}, calibration.Measure{Sigma: 1}, calibration.Even("t", math.Sqrt(3)*2)), Count: 20000, Seed: 5}).Run(ground)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{9. / 14, 1. / 14, 4. / 14} {
		if got := r.Causes(0)[i]; math.Abs(got-want) > 0.02 {
			t.Errorf("measure %d: %.3f of the variance, expected %.3f", i, got, want)
		}
	}
}

// TestTogether: of measures that hang together the sum spreads as their covariance says
// (JCGM 100:2008, eq. 13), each by itself as before, and none is blamed.
func TestTogether(t *testing.T) {
	f := sum(calibration.Measure{Sigma: 3}, calibration.Measure{Sigma: 2}, calibration.Measure{Sigma: 1})
	f.Correlation = mat.NewSymDense(3, []float64{1, -0.8, 0, -0.8, 1, 0, 0, 0, 1})
	r, err := (&trials.Trials{Family: f, Count: 60000, Seed: 9}).Run(ground)
	if err != nil {
		t.Fatal(err)
	}
	u := math.Sqrt(9 + 4 + 1 - 2*0.8*3*2)
	if b := r.Band(0); math.Abs(b.High-1.96*u) > 0.06*u || math.Abs(b.Low+1.96*u) > 0.06*u {
		t.Errorf("%.3f to %.3f, expected ±%.3f", b.Low, b.High, 1.96*u)
	}
	for j, drawn := range r.Drawn {
		if s := stat.StdDev(drawn, nil); math.Abs(s-1) > 0.02 {
			t.Errorf("measure %d spreads by %.3f of its uncertainty", j, s)
		}
	}
	if r.Causes(0) != nil {
		t.Error("shares of measures that hang together")
	}
	f.Correlation.SetSym(0, 2, 0.9)
	if _, err := (&trials.Trials{Family: f, Count: 300, Seed: 9}).Run(ground); err == nil {
		t.Error("a correlation that cannot be is drawn from")
	}
}

// TestSameSeed: the draws do not hang on how the work is shared out.
func TestSameSeed(t *testing.T) {
	draw := func(seed uint64) []float64 {
		r, err := (&trials.Trials{Family: sum(calibration.Measure{Sigma: 1}), Count: 500, Seed: seed}).Run(ground)
		if err != nil {
			t.Fatal(err)
		}
		return r.Figures[0]
	}
	if !slices.Equal(draw(3), draw(3)) || slices.Equal(draw(3), draw(4)) {
		t.Error("a seed draws others the second time, or two seeds draw the same")
	}
}

// TestRefused: rigs that cannot be are counted; too many of them are an error.
func TestRefused(t *testing.T) {
	f := sum(calibration.Measure{Sigma: 1})
	for _, c := range []struct {
		limit float64
		least int
		most  int
		fails bool
	}{{-1, 50, 120, false}, {5, 0, 0, true}} {
		r, err := (&trials.Trials{Family: f, Count: 500, Seed: 1}).Run(func(rig *calibration.Rig) ([]float64, error) {
			if rig.Wiring.Ground < c.limit {
				return nil, fmt.Errorf("too little")
			}
			return ground(rig)
		})
		if (err != nil) != c.fails {
			t.Fatalf("limit %g: %v", c.limit, err)
		}
		if err == nil && (r.Refused < c.least || r.Refused > c.most || len(r.Figures[0]) != 500-r.Refused) {
			t.Errorf("%d refused, %d figures", r.Refused, len(r.Figures[0]))
		}
	}
}

// TestLinearRig holds the Monte Carlo band against linear propagation (JCGM 100:2008,
// eq. 10) on a rig where both must agree: a probe in a box tank, whose litres are linear
// in the joints and in the height of its foot and head, all three of which are uncertain.
func TestLinearRig(t *testing.T) {
	const length, width, foot, head, low, high = 500., 300., 20., 220., 10., 180.
	file, err := tanks.Load(tanks.Demo, []string{
		fmt.Sprintf(`tank={body=[{shape="box", length=%g, width=%g, height=250}]}`, length, width),
		fmt.Sprintf(`sender={kind="probe", foot=[250, 150, "%g ± 1 mm"], head=[250, 150, "%g ± 1 mm"], resistance={low=%g, high=%g}}`, foot, head, low, high),
		`wiring={ground="0.5 ± 0.8 ohm"}`, "gauge.empty=0",
	})
	if err != nil {
		t.Fatal(err)
	}
	f := &calibration.Family{Rig: func(values []float64) (*calibration.Rig, error) {
		stated := slices.Clone(file.Stated())
		for i := range stated {
			stated[i].Value = values[i]
		}
		r, err := file.Vary(stated)
		if err != nil {
			return nil, err
		}
		a, b := r.Sender.Free()
		return &calibration.Rig{Tank: r.Tank.Tank, Sender: r.Sender.Sender(), Low: a, High: b, Level: r.Level, Wiring: r.Wiring, Dial: r.Gauge.Dial}, nil
	}}
	for _, m := range file.Stated() {
		f.Measures = append(f.Measures, calibration.Measure{Name: m.Key, Value: m.Value, Sigma: m.Sigma})
	}
	if len(f.Measures) != 3 {
		t.Fatalf("%d measures are stated, expected 3", len(f.Measures))
	}
	const input = 90.5
	r, err := (&trials.Trials{Family: f, Count: 40000, Seed: 2}).Run(func(rig *calibration.Rig) ([]float64, error) {
		return []float64{rig.LitresNear(rig.Level, input)}, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	// h = foot + (head - foot) x, x = (input - ground - low)/(high - low)
	x := (input - 0.5 - low) / (high - low)
	perMM := length * width / 1e6
	middle := perMM * (foot + (head-foot)*x)
	u := perMM * math.Sqrt((1-x)*(1-x)+x*x+math.Pow(0.8*(head-foot)/(high-low), 2))
	b := r.Band(0)
	for _, c := range []struct{ got, want float64 }{{b.Middle, middle}, {b.Low, middle - 1.96*u}, {b.High, middle + 1.96*u}} {
		if math.Abs(c.got-c.want) > 0.03*u { // four standard errors of the quantile
			t.Errorf("%.4f L, by linear propagation %.4f L (± %.4f)", c.got, c.want, u)
		}
	}
	// The shares of the variance, in the order of the file's reading.
	shares := r.Causes(0)
	for i, m := range r.Measures {
		c := map[string]float64{"sender.foot[2]": 1 - x, "sender.head[2]": x, "wiring.ground": 0.8 * (head - foot) / (high - low)}[m.Name]
		if want := math.Pow(perMM*c/u, 2); math.Abs(shares[i]-want) > 0.015 {
			t.Errorf("%s: %.3f of the variance, expected %.3f", m.Name, shares[i], want)
		}
	}
}
